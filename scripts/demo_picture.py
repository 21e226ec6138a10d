"""Draws docs/pictures/demo.png from the demo's own files: the finished garment above, its pattern below.

Run it after the demo: .venv/bin/python scripts/demo_picture.py out
"""

import subprocess
import sys
import tempfile
from pathlib import Path

from PIL import Image, ImageChops

TARGET = Path(__file__).parents[1] / "docs" / "pictures" / "demo.png"
WIDE = 1100
#: The drawing on the guide's cover, as shares of the page: left, top, right, bottom.
COVER = (0.07, 0.145, 0.93, 0.345)


def page(pdf: Path, dpi: int) -> Image.Image:
    """The first page of a PDF as a picture."""
    with tempfile.TemporaryDirectory() as folder:
        stem = Path(folder) / "page"
        subprocess.run(["pdftoppm", "-r", str(dpi), "-f", "1", "-l", "1", "-singlefile", "-png", pdf, stem], check=True)
        return Image.open(stem.with_suffix(".png")).convert("RGB")


def trimmed(picture: Image.Image) -> Image.Image:
    """Without its white margins."""
    blank = Image.new("RGB", picture.size, "white")
    return picture.crop(ImageChops.difference(picture, blank).getbbox())


def main(made: Path) -> None:
    """The picture from the folder the demo wrote."""
    cover = page(made / "guide.pdf", 200)
    left, top, right, bottom = COVER
    sides = (cover.width * left, cover.height * top, cover.width * right, cover.height * bottom)
    views = trimmed(cover.crop(tuple(round(side) for side in sides)))
    views = views.resize(
        (round(0.62 * WIDE), round(views.height * 0.62 * WIDE / views.width)), Image.Resampling.LANCZOS
    )
    pattern = trimmed(page(made / "pattern-full.pdf", 120))
    pattern = pattern.resize((WIDE, round(pattern.height * WIDE / pattern.width)), Image.Resampling.LANCZOS)
    whole = Image.new("RGB", (WIDE + 40, views.height + pattern.height + 80), "white")
    whole.paste(views, ((whole.width - views.width) // 2, 20))
    whole.paste(pattern, (20, views.height + 60))
    TARGET.parent.mkdir(exist_ok=True)
    whole.quantize(64, dither=Image.Dither.NONE).save(TARGET, optimize=True)


if __name__ == "__main__":
    main(Path(sys.argv[1]))
