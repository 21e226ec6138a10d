"""One page to SVG: millimetres, one group a layer, everything the maker wrote escaped."""

from __future__ import annotations

import base64
import io
import re
from html import escape
from itertools import chain

from galloon.drawing import Fill, Matrix, Page, Path, Pen, Picture, Point, Region, TextStyle, replay
from galloon.drawing.fonts import normal
from galloon.drawing.listing import number
from galloon.drawing.pens import hex_colour
from galloon.errors import BadValue

#: Fonts as wide as the one in the PDF; none is fetched.
_FAMILY = "Arimo, 'Liberation Sans', Arial, Helvetica, sans-serif"
_ANCHOR = {"left": "start", "middle": "middle", "right": "end"}
_PLACES = 3


def to_svg(page: Page, *, title: str = "", prefix: str = "") -> bytes:
    """The page as an SVG document in UTF-8, one user unit a millimetre, y downwards as SVG has it.

    ``prefix`` (letters and digits) goes before every id, so that several documents can stand in one web page.
    Raises BadValue for any other prefix.
    """
    if not re.fullmatch(r"(?:[A-Za-z][A-Za-z0-9]*)?", prefix):
        raise BadValue("SVG prefix", "must be letters and digits, a letter first", prefix)
    canvas = _SvgCanvas(title or page.name, prefix)
    replay(page, canvas)
    return "\n".join([*canvas.lines, ""]).encode("utf-8")


class _SvgCanvas:
    def __init__(self, title: str, prefix: str) -> None:
        self.lines: list[str] = []
        self._title, self._prefix = title, prefix
        self._height = 0.0
        self._layers = self._clips = self._open_clips = 0
        self._in_layer = False
        self._pictures: dict[Picture, tuple[str, Matrix]] = {}

    def begin_page(self, width: float, height: float, *, name: str) -> None:
        self._height = height
        wide, high = number(width, _PLACES), number(height, _PLACES)
        self.lines.append(
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide}mm" height="{high}mm" viewBox="0 0 {wide} {high}" '
            f'font-family="{_FAMILY}" stroke-linecap="round" stroke-linejoin="round">'
        )
        self.lines.append(f"<title>{escape(normal(self._title), quote=False)}</title>")

    def end_page(self) -> None:
        self._end_layer()
        self.lines.append("</svg>")

    def layer(self, name: str) -> None:
        self._end_layer()
        self._layers += 1
        self.lines.append(f'<g id="{self._prefix}layer-{self._layers}" data-layer="{escape(name)}">')
        self._in_layer = True

    def clip(self, *regions: Region) -> None:
        self.lines.extend(["</g>"] * self._open_clips)
        self._open_clips = len(regions)
        for region in regions:
            self._clips += 1
            name = f"{self._prefix}clip-{self._clips}"
            self.lines.append(f'<clipPath id="{name}"><path clip-rule="evenodd" d="{self._paths(region)}"/></clipPath>')
            self.lines.append(f'<g clip-path="url(#{name})">')

    def stroke(self, path: Path, pen: Pen) -> None:
        dash = f' stroke-dasharray="{" ".join(_n(length) for length in pen.dash)}"' if pen.dash else ""
        look = f'fill="none" stroke="{hex_colour(pen.colour)}" stroke-width="{_n(pen.width)}"{dash}'
        self.lines.append(f'<path {look} d="{self._paths((path,))}"/>')

    def fill(self, paths: Region, fill: Fill) -> None:
        see = "" if fill.opacity == 1.0 else f' fill-opacity="{_n(fill.opacity)}"'
        look = f'fill="{hex_colour(fill.colour)}" fill-rule="evenodd"{see}'
        self.lines.append(f'<path {look} d="{self._paths(paths)}"/>')

    def text(self, words: str, at: Point, *, style: TextStyle, angle: float = 0.0) -> None:
        x, y = _n(at[0]), _n(self._height - at[1])
        colour = hex_colour(style.colour)
        bold = f' stroke="{colour}" stroke-width="{_n(0.03 * style.size)}"' if style.bold else ""
        turn = f' transform="rotate({_n(-angle)} {x} {y})"' if angle else ""
        look = f'font-size="{_n(style.size)}" text-anchor="{_ANCHOR[style.anchor]}" fill="{colour}"{bold}{turn}'
        keep = 'style="white-space:pre;font-kerning:none"'
        self.lines.append(f'<text x="{x}" y="{y}" {look} {keep}>{escape(normal(words), quote=False)}</text>')

    def image(self, picture: Picture, matrix: Matrix) -> None:
        # The unit square of the picture hangs down from its top in SVG and stands up from its foot here.
        turned = Matrix(d=-1.0, f=1.0).then(matrix).then(Matrix(d=-1.0, f=self._height))
        first = self._pictures.get(picture)
        if first is not None:  # drawn before: the same once more, from where that lies to here
            name, before = first
            self.lines.append(f'<use href="#{name}" transform="matrix({_six(before.undone().then(turned))})"/>')
            return
        name = f"{self._prefix}picture-{len(self._pictures) + 1}"
        self._pictures[picture] = (name, turned)
        see = "" if picture.opacity == 1.0 else f' opacity="{_n(picture.opacity)}"'
        place = f'transform="matrix({_six(turned)})"{see}'
        self.lines.append(
            f'<image id="{name}" width="1" height="1" preserveAspectRatio="none" {place} '
            f'href="data:image/png;base64,{_png(picture)}"/>'
        )

    def _end_layer(self) -> None:
        if self._in_layer:
            self.lines.append("</g>")
        self._in_layer = False

    def _paths(self, paths: Region) -> str:
        return " ".join(map(self._path, paths))

    def _path(self, path: Path) -> str:
        parts = [f"M{self._pair(path.start)}"]
        parts += [f"{'L' if len(step) == 2 else 'C'}{self._pair(step)}" for step in path.steps]
        if not path.steps:
            parts.append(f"L{self._pair(path.start)}")
        return " ".join(parts) + (" Z" if path.closed else "")

    def _pair(self, numbers: tuple[float, ...]) -> str:
        down = chain.from_iterable((x, self._height - y) for x, y in zip(numbers[::2], numbers[1::2], strict=True))
        return " ".join(map(_n, down))


def _n(value: float) -> str:
    return number(value, _PLACES)


def _six(matrix: Matrix) -> str:
    return " ".join(number(part, 6) for part in (matrix.a, matrix.b, matrix.c, matrix.d, matrix.e, matrix.f))


def _png(picture: Picture) -> str:
    from PIL import Image as Pillow

    out = io.BytesIO()
    Pillow.frombytes("RGB", (picture.columns, picture.rows), picture.samples).save(out, "PNG")
    return base64.b64encode(out.getvalue()).decode("ascii")
