"""Drawings to PDF: vectors of exact size, embedded letters, and layers that the reader can switch."""

from __future__ import annotations

import io
import math
from collections.abc import Collection
from itertools import chain
from typing import Any, Final

from galloon.drawing import Drawing, Fill, Matrix, Path, Pen, Picture, Point, Region, TextStyle, replay, text_width
from galloon.drawing.fonts import FONT_NAME, in_print_order, load_font
from galloon.errors import CannotMake
from galloon.export.pdf_layers import PageResources, finish

#: PDF points in a millimetre (ISO 32000-1, 8.3.2.3: 1/72 inch).
POINTS_PER_MM: Final = 72.0 / 25.4
#: Longest page side that readers must show (ISO 32000-1, Annex C: 14 400 points), mm.
LONGEST_SIDE: Final = 14400.0 / 72.0 * 25.4
#: Outline drawn round the letters to make them bold, as a share of their size; they grow by half of it each side.
_BOLD: Final = 0.03
#: Coordinates go out to the micrometre.
_LINE: Final = "%.3f %.3f l\n"
_CUBIC: Final = "%.3f %.3f %.3f %.3f %.3f %.3f c\n"


def to_pdf(drawing: Drawing, *, hidden: Collection[str] = ()) -> bytes:
    """The drawing as a PDF, true to size; layers named in ``hidden`` start switched off.

    Raises CannotMake for a drawing without pages and for pages longer than PDF readers show.
    """
    if not drawing.pages:
        raise CannotMake("PDF", "needs at least one page", drawing.title)
    canvas = _PdfCanvas(drawing)
    for page in drawing.pages:
        replay(page, canvas)
    return finish(canvas.raw(), drawing, canvas.resources, hidden=hidden)


class _PdfCanvas:
    def __init__(self, drawing: Drawing) -> None:
        from reportlab.pdfgen.canvas import Canvas as ReportLab

        load_font()
        self._bytes = io.BytesIO()
        self._pdf: Any = ReportLab(self._bytes, invariant=1, pageCompression=0, initialFontName=FONT_NAME)
        self._pdf.setTitle(drawing.title)
        self._pdf.setProducer("galloon")
        self._pdf.setCreator("galloon")
        self._pdf.setAuthor("")
        self.resources = PageResources(drawing.layers)
        self._put = self._pdf.addLiteral
        self._in_layer = self._clipped = False
        self._pen: Pen | None = None

    def raw(self) -> bytes:
        self._pdf.save()
        return self._bytes.getvalue()

    def begin_page(self, width: float, height: float, *, name: str) -> None:
        if max(width, height) > LONGEST_SIDE:
            rule = f"cannot have a side longer than {LONGEST_SIDE:.0f} mm in a PDF"
            raise CannotMake(f"page {name}", rule, (width, height), "Print it in tiles.")
        self._pdf.setPageSize((_page_side(width), _page_side(height)))
        self._put(f"{POINTS_PER_MM:.12f} 0 0 {POINTS_PER_MM:.12f} 0 0 cm 1 J 1 j")
        self._forget()

    def end_page(self) -> None:
        self._end_layer()
        self._pdf.showPage()

    def layer(self, name: str) -> None:
        self._end_layer()
        self._put(f"/OC /{self.resources.layer(name)} BDC")
        self._in_layer = True

    def clip(self, *regions: Region) -> None:
        if self._clipped:
            self._put("Q")
        if regions:
            self._put("q " + " ".join(f"{' '.join(map(_path, region))} W* n" for region in regions))
        self._clipped = bool(regions)
        self._forget()

    def stroke(self, path: Path, pen: Pen) -> None:
        if pen != self._pen:
            self._put(f"{_rgb(pen.colour)} RG {pen.width:.4f} w [{' '.join(map(_number, pen.dash))}] 0 d")
            self._pen = pen
        self._put(f"{_path(path)} S")

    def fill(self, paths: Region, fill: Fill) -> None:
        body = f"{_rgb(fill.colour)} rg {' '.join(map(_path, paths))} f*"
        self._put(f"q {self._see_through(fill.opacity)}{body} Q")

    def text(self, words: str, at: Point, *, style: TextStyle, angle: float = 0.0) -> None:
        width = text_width(words, style.size)
        back = {"left": 0.0, "middle": width / 2.0, "right": width}[style.anchor]
        cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        line = self._pdf.beginText()
        line.setTextTransform(cos, sin, -sin, cos, at[0] - back * cos, at[1] - back * sin)
        line.setFont(FONT_NAME, style.size)
        line.textOut(in_print_order(words))
        colour = _rgb(style.colour)
        bold = f" {colour} RG {_BOLD * style.size:.4f} w 2 Tr [] 0 d" if style.bold else ""
        self._put(f"q {colour} rg{bold}")
        self._pdf.drawText(line)
        self._put("Q")

    def image(self, picture: Picture, matrix: Matrix) -> None:
        place = " ".join(f"{part:.6f}" for part in (matrix.a, matrix.b, matrix.c, matrix.d, matrix.e, matrix.f))
        see = self._see_through(picture.opacity)
        self._put(f"q {see}{place} cm /{self.resources.picture(picture)} Do Q")

    def _see_through(self, opacity: float) -> str:
        return "" if opacity == 1.0 else f"/{self.resources.opacity(opacity)} gs "

    def _end_layer(self) -> None:
        if self._in_layer:
            self._put("EMC")
        self._in_layer = False

    def _forget(self) -> None:
        self._pen = None


def _page_side(mm: float) -> float:
    """Points, a hair short of true (under 0.0001 mm), so that renderers that round up add no row of dots."""
    return math.floor(mm * POINTS_PER_MM * 1e4) / 1e4


def _rgb(colour: tuple[int, int, int]) -> str:
    return " ".join(f"{part / 255.0:.4g}" for part in colour)


def _number(value: float) -> str:
    return f"{value:.3f}"


def _path(path: Path) -> str:
    steps = path.steps or (path.start,)
    if max(map(len, steps)) == 2:
        body = (_LINE * len(steps)) % tuple(chain.from_iterable(steps))
    else:
        body = "".join((_LINE if len(step) == 2 else _CUBIC) % step for step in steps)
    return f"{_number(path.start[0])} {_number(path.start[1])} m\n{body}{'h' if path.closed else ''}"
