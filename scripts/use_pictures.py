"""Draws docs/uses/USE.svg, the garment seen from the front and the back, from the example brief of each lace use.

Run it after a change of the drawings: .venv/bin/python scripts/use_pictures.py
"""

from pathlib import Path

from galloon.brief import load_brief
from galloon.export import to_svg
from galloon.sheets import garment_views
from galloon.workflow import make_garment

ROOT = Path(__file__).parents[1]
#: Use and the example it is shown by.
EXAMPLES = {"overlay": "wren-overlay", "insertion": "dunlin-insertion", "applique": "fern-applique"}


def main() -> None:
    """Every picture, written anew."""
    for use, example in EXAMPLES.items():
        design = load_brief(ROOT / "examples" / f"{example}.toml").design
        page = garment_views(make_garment(design)).pages[0]
        (ROOT / "docs" / "uses" / f"{use}.svg").write_bytes(to_svg(page))


if __name__ == "__main__":
    main()
