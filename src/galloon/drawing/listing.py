"""A drawing as readable text, one mark a line: the form of golden files."""

from __future__ import annotations

import zlib

from galloon.drawing.canvas import replay
from galloon.drawing.marks import Drawing, Region
from galloon.drawing.paths import Path, Point
from galloon.drawing.pens import Fill, Pen, TextStyle, hex_colour
from galloon.drawing.pictures import Picture
from galloon.drawing.transform import Matrix


def listing(drawing: Drawing, places: int = 2) -> str:
    """Every mark of every page on a line of its own, numbers rounded to ``places``; ends with a line break."""
    canvas = _Lister(places)
    for page in drawing.pages:
        replay(page, canvas)
    return "\n".join([f"drawing {drawing.title!r}", *canvas.lines, ""])


class _Lister:
    def __init__(self, places: int) -> None:
        self.lines: list[str] = []
        self._places = places

    def begin_page(self, width: float, height: float, *, name: str) -> None:
        self.lines.append(f"page {name!r} {self._numbers(width, height)}")

    def end_page(self) -> None:
        self.lines.append("end page")

    def layer(self, name: str) -> None:
        self.lines.append(f" layer {name!r}")

    def clip(self, *regions: Region) -> None:
        self.lines.append("  clip " + (" & ".join(map(self._paths, regions)) or "off"))

    def stroke(self, path: Path, pen: Pen) -> None:
        dash = f" dash {self._numbers(*pen.dash)}" if pen.dash else ""
        look = f"{pen.name} {self._numbers(pen.width)} {hex_colour(pen.colour)}{dash}"
        self.lines.append(f"  stroke [{look}] {self._paths((path,))}")

    def fill(self, paths: Region, fill: Fill) -> None:
        look = f"{hex_colour(fill.colour)} {self._numbers(fill.opacity)}"
        self.lines.append(f"  fill [{look}] {self._paths(paths)}")

    def text(self, words: str, at: Point, *, style: TextStyle, angle: float = 0.0) -> None:
        bold = " bold" if style.bold else ""
        look = f"{self._numbers(style.size)} {style.anchor}{bold} {hex_colour(style.colour)}"
        turn = f" turned {self._numbers(angle)}" if angle else ""
        self.lines.append(f"  text [{look}] {words!r} at {self._numbers(*at)}{turn}")

    def image(self, picture: Picture, matrix: Matrix) -> None:
        size = f"{picture.columns}x{picture.rows} {zlib.crc32(picture.samples):08x}"
        place = self._numbers(matrix.a, matrix.b, matrix.c, matrix.d, matrix.e, matrix.f)
        self.lines.append(f"  image [{size} {self._numbers(picture.opacity)}] by {place}")

    def _numbers(self, *values: float) -> str:
        return ",".join(number(value, self._places) for value in values)

    def _paths(self, paths: Region) -> str:
        return " + ".join(map(self._path, paths))

    def _path(self, path: Path) -> str:
        steps = [("c" if len(step) == 6 else "") + self._numbers(*step) for step in path.steps]
        return " ".join([self._numbers(*path.start), *steps, *(["z"] if path.closed else [])])


def number(value: float, places: int) -> str:
    """The shortest text of a number rounded to ``places``; never ``-0``."""
    text = f"{value:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
