"""Cubic curves and runs of them: points, tangents, cutting, flattening, length."""

from __future__ import annotations

import itertools
import math
from collections.abc import Callable, Sequence
from typing import Final, NamedTuple, cast

import numpy as np
from numpy.typing import NDArray

from galloon.geometry.plane import cross, unit
from galloon.tolerance import FLATTEN_SAG, SAME_POINT

Points = NDArray[np.complex128]


class Cubic(NamedTuple):
    """A cubic Bézier curve by its four control points."""

    start: complex
    out: complex
    into: complex
    end: complex

    def at(self, t: float) -> complex:
        """Point at parameter t in [0, 1]."""
        u = 1.0 - t
        return u * u * u * self.start + 3.0 * u * u * t * self.out + 3.0 * u * t * t * self.into + t * t * t * self.end

    def derivative(self, t: float) -> complex:
        """Derivative by t."""
        u = 1.0 - t
        return 3.0 * (
            u * u * (self.out - self.start) + 2.0 * u * t * (self.into - self.out) + t * t * (self.end - self.into)
        )

    def split(self, t: float) -> tuple[Cubic, Cubic]:
        """The two parts before and after t (de Casteljau)."""
        ab, bc, cd = (p + (q - p) * t for p, q in itertools.pairwise(self))
        abc, bcd = ab + (bc - ab) * t, bc + (cd - bc) * t
        middle = abc + (bcd - abc) * t
        return Cubic(self.start, ab, abc, middle), Cubic(middle, bcd, cd, self.end)

    @property
    def straight(self) -> bool:
        """Whether it is a straight line run through evenly."""
        third = (self.end - self.start) / 3.0
        return abs(self.out - self.start - third) < SAME_POINT and abs(self.end - self.into - third) < SAME_POINT


#: A run of cubics, each starting where the one before ended.
Curve = tuple[Cubic, ...]


def line(start: complex, end: complex) -> Cubic:
    """A straight line as a cubic."""
    third = (end - start) / 3.0
    return Cubic(start, start + third, end - third, end)


def polyline(points: Sequence[complex]) -> Curve:
    """Straight lines through the points."""
    return tuple(line(p, q) for p, q in itertools.pairwise(points))


def curve_through(points: Sequence[complex]) -> Curve:
    """A smooth run through three or more points, tangents by chord-length weighted neighbours; a line for two."""
    if len(points) == 2:
        return (line(points[0], points[1]),)
    chords = [q - p for p, q in itertools.pairwise(points)]
    sizes = [abs(chord) for chord in chords]
    inner = [
        (chords[i] / sizes[i] * sizes[i + 1] + chords[i + 1] / sizes[i + 1] * sizes[i]) / (sizes[i] + sizes[i + 1])
        for i in range(len(chords) - 1)
    ]
    first = 2.0 * chords[0] / sizes[0] - inner[0]
    last = 2.0 * chords[-1] / sizes[-1] - inner[-1]
    tangents = [unit(tangent) for tangent in (first, *inner, last)]
    return tuple(
        Cubic(p, p + tangents[i] * sizes[i] / 3.0, q - tangents[i + 1] * sizes[i] / 3.0, q)
        for i, (p, q) in enumerate(itertools.pairwise(points))
    )


def map_curve(curve: Curve, change: Callable[[complex], complex]) -> Curve:
    """Every control point changed; right for moves, turns, mirrors and other affine maps."""
    return tuple(Cubic(*(change(point) for point in piece)) for piece in curve)


def moved(curve: Curve, by: complex) -> Curve:
    """The curve moved by a vector."""
    return map_curve(curve, lambda point: point + by)


def reversed_curve(curve: Curve) -> Curve:
    """The same run walked the other way."""
    return tuple(Cubic(*piece[::-1]) for piece in curve[::-1])


def start_direction(curve: Curve) -> complex:
    """Unit tangent at the start of the run."""
    first = curve[0]
    return unit(next((p - first.start for p in first[1:] if abs(p - first.start) > SAME_POINT), 0j))


def end_direction(curve: Curve) -> complex:
    """Unit tangent at the end of the run."""
    last = curve[-1]
    return unit(next((last.end - p for p in last[2::-1] if abs(last.end - p) > SAME_POINT), 0j))


def cut_curve(curve: Curve, index: int, t: float) -> tuple[Curve, Curve]:
    """The run cut at parameter t of its piece ``index``; a part may be empty where t is 0 or 1 at an end."""
    if t <= 0.0:
        return curve[:index], curve[index:]
    if t >= 1.0:
        return curve[: index + 1], curve[index + 1 :]
    before, after = curve[index].split(t)
    return (*curve[:index], before), (after, *curve[index + 1 :])


def meeting_point(p: complex, towards: complex, q: complex, along: complex) -> tuple[complex, float, float] | None:
    """Where the lines p + u·towards and q + v·along meet, with u and v; None where they are parallel."""
    slope = cross(towards, along)
    if abs(slope) < 1e-12 * abs(towards) * abs(along):
        return None
    u = cross(q - p, along) / slope
    v = cross(q - p, towards) / slope
    return p + u * towards, u, v


_STEPS: Final[dict[int, tuple[NDArray[np.float64], ...]]] = {}


def _basis(count: int) -> tuple[NDArray[np.float64], ...]:
    if count not in _STEPS:
        t = np.linspace(0.0, 1.0, count + 1)
        u = 1.0 - t
        weights = (u * u * u, 3.0 * u * u * t, 3.0 * u * t * t, t * t * t)
        slopes = (-3.0 * u * u, 3.0 * u * u - 6.0 * u * t, 6.0 * u * t - 3.0 * t * t, 3.0 * t * t)
        _STEPS[count] = (np.array(weights).T, np.array(slopes).T)
    return _STEPS[count]


def chord_count(piece: Cubic, sag: float = FLATTEN_SAG) -> int:
    """How many even steps of t keep the chords within ``sag`` (mm) of the curve (bound by the second derivative)."""
    bend = 6.0 * max(abs(piece.start - 2.0 * piece.out + piece.into), abs(piece.out - 2.0 * piece.into + piece.end))
    return max(1, math.ceil(math.sqrt(bend / (8.0 * sag))))


def sample(piece: Cubic, count: int) -> tuple[Points, Points]:
    """Points and derivatives at ``count`` + 1 even steps of t."""
    weights, slopes = _basis(count)
    control = np.array(piece)
    return weights @ control, slopes @ control


def flatten(curve: Curve, sag: float = FLATTEN_SAG) -> Points:
    """The run as a polyline whose chords stay within ``sag`` (mm) of it; both ends exact."""
    parts = [sample(piece, chord_count(piece, sag))[0] for piece in curve]
    return cast(Points, np.concatenate([parts[0], *(part[1:] for part in parts[1:])]))


def cubic_length(curve: Curve) -> float:
    """Length of the run (mm), measured on its flattened form."""
    return float(np.abs(np.diff(flatten(curve))).sum())
