"""Draws docs/uses/NAME.svg, the garment seen from the front and the back, from the example briefs of the lace uses.

Run it after a change of the drawings: .venv/bin/python scripts/use_pictures.py
"""

from pathlib import Path

from galloon.brief import load_brief
from galloon.export import to_svg
from galloon.sheets import garment_views
from galloon.workflow import make_garment

ROOT = Path(__file__).parents[1]
#: Picture and the example it is drawn from.
EXAMPLES = {
    "applique": "fern-applique",
    "edge-trim": "sanderling-trim",
    "insertion": "dunlin-insertion",
    "overlay": "wren-overlay",
    "panel": "siskin-panel",
    "panel-rigid": "linnet-panel",
    "scalloped-leg": "heron-hipster",
    "scalloped-leg-both": "godwit-lace",
    "scalloped-leg-front": "lapwing-front",
    "split-edging": "avocet-edging",
    "v-inset": "dipper-inset",
    "waistband": "curlew-band",
}


def main() -> None:
    """Every picture, written anew."""
    for name, example in EXAMPLES.items():
        design = load_brief(ROOT / "examples" / f"{example}.toml").design
        page = garment_views(make_garment(design)).pages[0]
        (ROOT / "docs" / "uses" / f"{name}.svg").write_bytes(to_svg(page))


if __name__ == "__main__":
    main()
