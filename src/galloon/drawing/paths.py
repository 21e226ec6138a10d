"""Outlines of lines and cubic curves as frozen values, with the few things asked of them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain
from typing import TypeAlias

import numpy as np

from galloon.drawing.transform import Matrix
from galloon.errors import BadValue
from galloon.geometry import Cubic, Curve, flatten
from galloon.tolerance import FLATTEN_SAG

Point: TypeAlias = tuple[float, float]
#: A line to (x, y), or a cubic Bezier with two handles to the last two numbers.
Step: TypeAlias = tuple[float, ...]
#: Where something is: a pair of numbers, or x + y·j.
Spot: TypeAlias = Sequence[float] | complex

#: Handle length for a quarter circle of radius 1: 4/3·(√2 − 1), the usual cubic fit, off by 0.03 % of the radius.
_QUARTER = 4.0 / 3.0 * (math.sqrt(2.0) - 1.0)


@dataclass(frozen=True)
class Path:
    """A start point and steps from it; mm.

    ``steps`` holds ``(x, y)`` for a line and ``(x1, y1, x2, y2, x, y)`` for a cubic. A closed path runs back to
    its start by a line. A path without steps is a dot.
    """

    start: Point
    steps: tuple[Step, ...] = ()
    closed: bool = False

    def __post_init__(self) -> None:
        if not math.isfinite(math.fsum(map(abs, chain(self.start, *self.steps)))):
            raise BadValue("path", "must have finite coordinates", self.start)
        if len(self.start) != 2 or not set(map(len, self.steps)) <= {2, 6}:
            raise BadValue("path", "must have steps of 2 or 6 numbers", sorted(set(map(len, self.steps))))

    @staticmethod
    def polyline(points: Iterable[Spot], *, closed: bool = False) -> Path:
        """Straight lines through ``points``, at least one: pairs, complex numbers x + y·j, or an array of either."""
        pairs = _pairs(points)
        if not pairs:
            raise BadValue("polyline", "needs at least one point", pairs)
        return Path(pairs[0], pairs[1:], closed)

    @staticmethod
    def curve(run: Curve, *, closed: bool = False) -> Path:
        """A run of cubics as ``galloon.geometry`` has them, each starting where the one before ended."""
        steps = tuple(tuple(chain.from_iterable(_pairs(piece[1:]))) for piece in run)
        return Path(_pairs([run[0].start])[0], steps, closed)

    @staticmethod
    def line(start: Spot, end: Spot) -> Path:
        """One straight line."""
        return Path.polyline((start, end))

    @staticmethod
    def dot(at: Spot) -> Path:
        """A single point: a round spot as wide as the pen."""
        return Path.polyline((at,))

    @staticmethod
    def rectangle(x: float, y: float, width: float, height: float) -> Path:
        """An upright rectangle from its lower left corner, anticlockwise."""
        return Path((x, y), ((x + width, y), (x + width, y + height), (x, y + height)), True)

    @staticmethod
    def circle(centre: Point, radius: float) -> Path:
        """A circle of four cubics, anticlockwise, within 0.03 % of the radius."""
        place, k = Matrix(radius, 0.0, 0.0, radius, centre[0], centre[1]), _QUARTER
        quarters = (
            (1.0, k, k, 1.0, 0.0, 1.0),
            (-k, 1.0, -1.0, k, -1.0, 0.0),
            (-1.0, -k, -k, -1.0, 0.0, -1.0),
            (k, -1.0, 1.0, -k, 1.0, 0.0),
        )
        return moved_path(Path((1.0, 0.0), quarters, True), place)

    @property
    def corners(self) -> tuple[Point, ...]:
        """Start and the end of each step."""
        return (self.start, *((step[-2], step[-1]) for step in self.steps))

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """Left, bottom, right, top over all points, handles included: never too small."""
        numbers = (*self.start, *chain.from_iterable(self.steps))
        return min(numbers[0::2]), min(numbers[1::2]), max(numbers[0::2]), max(numbers[1::2])

    def flat(self, sag: float = FLATTEN_SAG) -> tuple[Point, ...]:
        """Points whose chords leave the path by no more than ``sag`` mm; the start of a closed path is not repeated."""
        points = [self.start]
        for step in self.steps:
            if len(step) == 2:
                points.append((step[0], step[1]))
            else:
                points.extend(_flat_cubic(points[-1], step, sag))
        if self.closed and len(points) > 1 and points[-1] == points[0]:
            points.pop()
        return tuple(points)


def _flat_cubic(start: Point, step: Step, sag: float) -> list[Point]:
    control = (start, *zip(step[::2], step[1::2], strict=True))
    points = flatten((Cubic(*(complex(x, y) for x, y in control)),), sag)
    return list(zip(points.real[1:].tolist(), points.imag[1:].tolist(), strict=True))


def _pairs(points: Iterable[Spot]) -> tuple[Point, ...]:
    listed = points.tolist() if isinstance(points, np.ndarray) else points
    return tuple(
        (float(point.real), float(point.imag)) if isinstance(point, complex) else (float(point[0]), float(point[1]))
        for point in listed
    )


def moved_path(path: Path, by: Matrix) -> Path:
    """The path after a placing."""
    a, b, c, d, e, f = by.a, by.b, by.c, by.d, by.e, by.f
    steps: list[Step]
    if max(map(len, path.steps), default=2) > 2:
        steps = [_moved_step(step, by) for step in path.steps]
    elif (a, b, c, d) == (1.0, 0.0, 0.0, 1.0):
        steps = [(x + e, y + f) for x, y in path.steps]
    else:
        steps = [(a * x + c * y + e, b * x + d * y + f) for x, y in path.steps]
    return Path(by.apply(*path.start), tuple(steps), path.closed)


def _moved_step(step: Step, by: Matrix) -> Step:
    pairs = zip(step[::2], step[1::2], strict=True)
    return tuple(chain.from_iterable(by.apply(x, y) for x, y in pairs))
