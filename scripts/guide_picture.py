"""Draws docs/pictures/guide.png: pages of an example's guide side by side.

Run it after a change of the guide: .venv/bin/python scripts/guide_picture.py
"""

import subprocess
import tempfile
from pathlib import Path

from PIL import Image

from galloon.workflow.job import make_files, reckon_brief

ROOT = Path(__file__).parents[1]
TARGET = ROOT / "docs" / "pictures" / "guide.png"
BRIEF = ROOT / "examples" / "heron-hipster.toml"
#: Words that only the pages wanted begin with, or hold.
WANTED = ("cut out and stick on", "Pieces to cut", "Cutting plan", "Sewing order", "Fibres and care", "Draw it by hand")
WIDE, GAP, COLUMNS, DPI = 420, 8, 3, 110


def pages(pdf: Path) -> list[Image.Image]:
    """The first page that holds each of the wanted words, as a picture."""
    text = subprocess.run(["pdftotext", "-layout", pdf, "-"], check=True, capture_output=True, text=True).stdout
    numbers = [next(i for i, page in enumerate(text.split("\f"), 1) if words in page) for words in WANTED]
    found = []
    for number in numbers:
        stem = pdf.with_name(f"page-{number}")
        one = ["-f", str(number), "-l", str(number), "-singlefile"]
        subprocess.run(["pdftoppm", "-r", str(DPI), *one, "-png", pdf, stem], check=True)
        found.append(Image.open(stem.with_suffix(".png")).convert("RGB"))
    return found


def picture() -> Image.Image:
    """The pages in rows on grey."""
    with tempfile.TemporaryDirectory() as folder:
        pdf = Path(folder) / "guide.pdf"
        pdf.write_bytes(make_files(reckon_brief(BRIEF), "a4")["guide.pdf"])
        found = pages(pdf)
    tall = round(found[0].height * WIDE / found[0].width)
    rows = -(-len(found) // COLUMNS)
    whole = Image.new("RGB", (COLUMNS * (WIDE + GAP) + GAP, rows * (tall + GAP) + GAP), (150, 150, 150))
    for place, page in enumerate(found):
        at = (GAP + place % COLUMNS * (WIDE + GAP), GAP + place // COLUMNS * (tall + GAP))
        whole.paste(page.resize((WIDE, tall), Image.Resampling.LANCZOS), at)
    return whole


if __name__ == "__main__":
    picture().quantize(160, Image.Quantize.MAXCOVERAGE, dither=Image.Dither.NONE).save(TARGET, optimize=True)
