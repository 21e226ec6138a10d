"""What a drawing is made of: strokes, areas, words and pictures on named layers of pages."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TypeAlias

from galloon.drawing.fonts import require_printable, text_width
from galloon.drawing.paths import Path, Point, moved_path
from galloon.drawing.pens import Fill, Pen, TextStyle
from galloon.drawing.pictures import Picture
from galloon.drawing.transform import Matrix
from galloon.errors import BadValue

#: Rings taken together, even-odd.
Region: TypeAlias = tuple[Path, ...]
#: A mark shows only inside every one of its regions.
Clip: TypeAlias = tuple[Region, ...]
Box: TypeAlias = tuple[float, float, float, float]


@dataclass(frozen=True)
class Stroke:
    """A path drawn with a pen."""

    layer: str
    path: Path
    pen: Pen
    clip: Clip = ()

    @property
    def bounds(self) -> Box:
        """Left, bottom, right, top of the ink."""
        left, bottom, right, top = self.path.bounds
        half = self.pen.width / 2.0
        return left - half, bottom - half, right + half, top + half


@dataclass(frozen=True)
class Area:
    """Paths filled together, even-odd."""

    layer: str
    paths: Region
    fill: Fill
    clip: Clip = ()

    def __post_init__(self) -> None:
        if not self.paths:
            raise BadValue("area", "needs at least one ring", self.paths)

    @property
    def bounds(self) -> Box:
        """Left, bottom, right, top."""
        return _around([path.bounds for path in self.paths])


@dataclass(frozen=True)
class Text:
    """One line of words; ``at`` is on the base line, at the style's anchor; ``angle`` in degrees anticlockwise.

    Raises CannotMake for characters that the printed font lacks.
    """

    layer: str
    words: str
    at: Point
    style: TextStyle
    angle: float = 0.0
    clip: Clip = ()

    def __post_init__(self) -> None:
        require_printable(self.words)
        if not all(map(math.isfinite, (*self.at, self.angle))):
            raise BadValue("text", "must have a finite place and angle", (self.at, self.angle))

    @property
    def bounds(self) -> Box:
        """Left, bottom, right, top; from 0.25 of the size below the base line to 1.0 above."""
        size, width = self.style.size, text_width(self.words, self.style.size)
        left = {"left": 0.0, "middle": -width / 2.0, "right": -width}[self.style.anchor]
        place = Matrix.turn(self.angle).then(Matrix.move(*self.at))
        corners = [place.apply(x, y) for x in (left, left + width) for y in (-0.25 * size, size)]
        return Path.polyline(corners).bounds


@dataclass(frozen=True)
class Image:
    """A picture; ``matrix`` takes the unit square (lower left origin) to its place in mm."""

    layer: str
    picture: Picture
    matrix: Matrix
    clip: Clip = ()

    @property
    def bounds(self) -> Box:
        """Left, bottom, right, top."""
        return Path.polyline([self.matrix.apply(x, y) for x in (0.0, 1.0) for y in (0.0, 1.0)]).bounds


Mark: TypeAlias = Stroke | Area | Text | Image


@dataclass(frozen=True)
class Page:
    """A sheet of ``width`` × ``height`` mm and what is on it; origin at the lower left."""

    name: str
    width: float
    height: float
    marks: tuple[Mark, ...] = ()

    def __post_init__(self) -> None:
        for side in (self.width, self.height):
            if not (math.isfinite(side) and side > 0.0):
                raise BadValue(f"page {self.name}", "must have sides of more than 0 mm", (self.width, self.height))
        for name in (self.name, *self.layers):
            require_printable(name)

    @property
    def layers(self) -> tuple[str, ...]:
        """Names of the layers in the order they are first used, which is the order they are painted in."""
        return tuple(dict.fromkeys(mark.layer for mark in self.marks))


@dataclass(frozen=True)
class Drawing:
    """Pages in order, with a title for readers of the file."""

    pages: tuple[Page, ...]
    title: str = ""

    def __post_init__(self) -> None:
        require_printable(self.title)

    @property
    def layers(self) -> tuple[str, ...]:
        """Names of the layers over all pages, in the order they are first used."""
        return tuple(dict.fromkeys(name for page in self.pages for name in page.layers))


def _around(boxes: list[Box]) -> Box:
    lefts, bottoms, rights, tops = zip(*boxes, strict=True)
    return min(lefts), min(bottoms), max(rights), max(tops)


def bounds(marks: tuple[Mark, ...]) -> Box | None:
    """The box around all marks; None when there are none."""
    return _around([mark.bounds for mark in marks]) if marks else None


def _moved_clip(clip: Clip, by: Matrix) -> Clip:
    return tuple(tuple(moved_path(path, by) for path in region) for region in clip)


def moved(mark: Mark, by: Matrix) -> Mark:
    """The mark after a placing. Pens keep their width; words keep reading forwards even when mirrored."""
    clip = _moved_clip(mark.clip, by)
    match mark:
        case Stroke():
            return replace(mark, path=moved_path(mark.path, by), clip=clip)
        case Area():
            return replace(mark, paths=tuple(moved_path(path, by) for path in mark.paths), clip=clip)
        case Image():
            return replace(mark, matrix=mark.matrix.then(by), clip=clip)
        case Text():
            return _moved_text(replace(mark, clip=clip), by)


def _moved_text(text: Text, by: Matrix) -> Text:
    cos, sin = math.cos(math.radians(text.angle)), math.sin(math.radians(text.angle))
    dx, dy = by.a * cos + by.c * sin, by.b * cos + by.d * sin
    if by.determinant < 0.0:
        dx, dy = -dx, -dy
    style = text.style if by.growth == 1.0 else replace(text.style, size=text.style.size * by.growth)
    angle = 0.0 if (dx, dy) == (cos, sin) and text.angle == 0.0 else math.degrees(math.atan2(dy, dx))
    return replace(text, at=by.apply(*text.at), angle=angle, style=style)
