"""Maps curves from one panel across the side seam on to the other, level for level, and smooths them where seams go."""

from __future__ import annotations

import math
from dataclasses import dataclass

from galloon.drafting import Frame
from galloon.geometry import Cubic, unit


@dataclass(frozen=True)
class Across:
    """The unfolding of one panel beside the other: each level keeps its width, so that a girth stays what it was.

    ``wide`` is the sum of both half widths at hip level. Below the hip this is an exact mirror; above it, where the
    side seam leans, the cloth is sheared level by level.
    """

    frame: Frame

    @property
    def wide(self) -> float:
        """Both half widths together at hip level (mm)."""
        return self.frame.front_hip + self.frame.back_hip

    def point(self, point: complex) -> complex:
        """Where a point of the other panel comes to lie."""
        return complex(self.wide - 2.0 * self.frame.side.inset_at(-point.imag) - point.real, point.imag)

    def vector(self, vector: complex, at: complex) -> complex:
        """Where a direction at a point of the other panel turns to."""
        lean = math.tan(self.frame.side.slant(-at.imag))
        return complex(-vector.real - 2.0 * lean * vector.imag, vector.imag)

    def cubic(self, piece: Cubic) -> Cubic:
        """A cubic with its ends and the directions at them carried over."""
        start, end = self.point(piece.start), self.point(piece.end)
        return Cubic(
            start,
            start + self.vector(piece.out - piece.start, piece.start),
            end + self.vector(piece.into - piece.end, piece.end),
            end,
        )


def seam_direction(frame: Frame, down: float) -> complex:
    """Unit direction down the front's (and, mirrored, the back's) side seam at a level."""
    slant = frame.side.slant(down)
    return complex(math.sin(slant), -math.cos(slant))


def reflected(direction: complex, seam: complex) -> complex:
    """A direction mirrored in a line along ``seam``: how a line runs on in the cloth sewn on there."""
    return seam * seam * direction.conjugate()


def end_turned(piece: Cubic, direction: complex) -> Cubic:
    """The cubic with its last handle turned to arrive along a unit direction."""
    return piece._replace(into=piece.end - abs(piece.end - piece.into) * direction)


def start_turned(piece: Cubic, direction: complex) -> Cubic:
    """The cubic with its first handle turned to leave along a unit direction."""
    return piece._replace(out=piece.start + abs(piece.out - piece.start) * direction)


def smoothed(first: Cubic, second: Cubic) -> tuple[Cubic, Cubic]:
    """Two cubics that meet, made to run smoothly one into the other, each turned by half of what they miss."""
    along = unit(unit(first.end - first.into) + unit(second.out - second.start))
    return end_turned(first, along), start_turned(second, along)


def end_moved(piece: Cubic, to: complex) -> Cubic:
    """The cubic with its last point, and the handle there, moved."""
    return piece._replace(into=piece.into + to - piece.end, end=to)


def start_moved(piece: Cubic, to: complex) -> Cubic:
    """The cubic with its first point, and the handle there, moved."""
    return piece._replace(out=piece.out + to - piece.start, start=to)
