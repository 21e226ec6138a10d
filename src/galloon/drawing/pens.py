"""How marks look: pens, fills and text styles as frozen, named values; millimetres on paper."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias, get_args

from galloon.errors import BadValue

#: Red, green and blue, 0 to 255.
Colour: TypeAlias = tuple[int, int, int]
Anchor: TypeAlias = Literal["left", "middle", "right"]

BLACK: Final[Colour] = (0, 0, 0)


def _check_colour(subject: str, colour: Colour) -> None:
    if len(colour) != 3 or any(isinstance(part, bool) or part not in range(256) for part in colour):
        raise BadValue(f"{subject} colour", "must be three whole numbers from 0 to 255", colour)


def _check_size(subject: str, size: float) -> None:
    if not (math.isfinite(size) and size > 0.0):
        raise BadValue(subject, "must be more than 0 mm", size)


def hex_colour(colour: Colour) -> str:
    """``#rrggbb``."""
    return "#{:02x}{:02x}{:02x}".format(*colour)


@dataclass(frozen=True)
class Pen:
    """A named line: width in mm, colour, dash (on, off, … in mm; empty for a whole line). Round ends and joins."""

    name: str
    width: float
    colour: Colour = BLACK
    dash: tuple[float, ...] = ()

    def __post_init__(self) -> None:
        _check_size(f"pen {self.name} width", self.width)
        _check_colour(f"pen {self.name}", self.colour)
        for length in self.dash:
            _check_size(f"pen {self.name} dash", length)


@dataclass(frozen=True)
class Fill:
    """A flat colour and how much it hides: opacity from 0 (not included) to 1."""

    colour: Colour
    opacity: float = 1.0

    def __post_init__(self) -> None:
        _check_colour("fill", self.colour)
        if not 0.0 < self.opacity <= 1.0:
            raise BadValue("fill opacity", "must be above 0 and at most 1", self.opacity)


@dataclass(frozen=True)
class TextStyle:
    """Size in mm (of the em; capitals stand 0.69 as high), weight, colour, and which end of the words is placed."""

    size: float
    bold: bool = False
    colour: Colour = BLACK
    anchor: Anchor = "left"

    def __post_init__(self) -> None:
        _check_size("text size", self.size)
        _check_colour("text", self.colour)
        if self.anchor not in get_args(Anchor):
            raise BadValue("text anchor", f"must be one of {', '.join(get_args(Anchor))}", self.anchor)
