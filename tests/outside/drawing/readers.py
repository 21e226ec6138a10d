"""Other programs that read our files: pypdfium2 (PDFium), pypdf, pdftoppm (Poppler)."""

import subprocess

import numpy as np
import pypdfium2

from galloon.drawing import A4, TileSettings, tile
from galloon.export import to_pdf
from tests.support.sketch import large_page

MM_PER_POINT = 25.4 / 72.0


def poppler(pdf, folder, *, dpi=254, first=1, last=1):
    """Grey pages by pdftoppm, white 255: arrays by row from the top. 254 dpi is ten dots a millimetre."""
    source = folder / "in.pdf"
    source.write_bytes(pdf)
    span = ["-f", str(first), "-l", str(last)]
    subprocess.run(["pdftoppm", "-gray", "-r", str(dpi), *span, str(source), str(folder / "out")], check=True)
    return [_pgm(path) for path in sorted(folder.glob("out*.pgm"))]


def _pgm(path):
    data = path.read_bytes()
    kind, columns, rows = data.split(maxsplit=3)[:3]
    assert kind == b"P5"
    return np.frombuffer(data[-int(columns) * int(rows) :], np.uint8).reshape(int(rows), int(columns))


def pdfium(pdf, *, page=0, dpi=100):
    """One page in colour by PDFium."""
    document = pypdfium2.PdfDocument(pdf)
    return np.asarray(document[page].render(scale=dpi / 72.0).to_pil().convert("RGB")).astype(int)


def tiled(*paths, settings=None, **keys):
    """A large page of paths as the PDF of its sheets."""
    return to_pdf(tile(large_page(*paths, **keys), settings or TileSettings(A4), title="Outside"))
