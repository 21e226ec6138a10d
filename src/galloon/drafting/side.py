"""The side seam: one curve shared by front and back as mirror images, monotone from waist to hip, straight below."""

from __future__ import annotations

import bisect
import itertools
import math
from dataclasses import dataclass
from typing import Final

from galloon import defaults
from galloon.geometry import Cubic, Curve, line

# Nodes and weights of eight-point Gauss-Legendre quadrature on [0, 1] (Abramowitz and Stegun, table 25.4).
_NODES: Final = tuple(
    (0.5 + sign * x / 2.0, w / 2.0)
    for x, w in (
        (0.1834346424956498, 0.3626837833783620),
        (0.5255324099163290, 0.3137066458778873),
        (0.7966664774136267, 0.2223810344533745),
        (0.9602898564975363, 0.1012285362903763),
    )
    for sign in (-1.0, 1.0)
)


@dataclass(frozen=True)
class Side:
    """``inset`` (mm) at the levels ``down`` (mm below the waist, 0 to hip level) with ``slopes`` per mm of level.

    The seam stands ``inset_at(down)`` nearer the centre than at hip level; a hip smaller than the waist makes
    it negative.
    """

    down: tuple[float, ...]
    inset: tuple[float, ...]
    slopes: tuple[float, ...]

    @property
    def hip(self) -> float:
        """Hip level, mm below the waist."""
        return self.down[-1]

    def curve(self, hip_half: float, bottom: float) -> Curve:
        """From the waist down to ``bottom`` (mm below the waist) for a panel ``hip_half`` wide at the hip."""
        pieces = [
            _piece(hip_half, *((self.down[i], self.inset[i], self.slopes[i]) for i in (j, j + 1)))
            for j in range(len(self.down) - 1)
        ]
        if bottom > self.hip:
            return (*pieces, line(complex(hip_half, -self.hip), complex(hip_half, -bottom)))
        index, t = self._place(bottom)
        return (*pieces[:index], pieces[index].split(t)[0]) if t > 0.0 else tuple(pieces[:index])

    def between(self, hip_half: float, top: float, bottom: float) -> Curve:
        """The part from ``top`` down to ``bottom`` (mm below the waist)."""
        whole = self.curve(hip_half, bottom)
        if top >= self.hip:
            return (line(complex(hip_half, -top), complex(hip_half, -bottom)),)
        index, _ = self._place(top)
        piece = whole[index]
        low, high = -piece.start.imag, -piece.end.imag
        t = (top - low) / (high - low)
        return (piece.split(t)[1] if t > 0.0 else piece, *whole[index + 1 :])

    def inset_at(self, down: float) -> float:
        """Inset (mm) at a level."""
        if down >= self.hip:
            return 0.0
        index, t = self._place(down)
        h = self.down[index + 1] - self.down[index]
        a, b = self.inset[index], self.inset[index + 1]
        ma, mb = self.slopes[index] * h, self.slopes[index + 1] * h
        return a + t * (ma + t * (3.0 * (b - a) - 2.0 * ma - mb + t * (2.0 * (a - b) + ma + mb)))

    def slant(self, down: float) -> float:
        """Angle (radians) by which the seam leans outwards going down."""
        if down >= self.hip:
            return 0.0
        index, t = self._place(down)
        h = self.down[index + 1] - self.down[index]
        return math.atan(-_rise(self.inset, tuple(slope * h for slope in self.slopes), index, t) / h)

    def level_at(self, arc: float) -> float:
        """Level (mm below the waist) reached after ``arc`` mm along the seam from the waist."""
        to_hip = _arc(self.down, self.inset, self.slopes, self.hip)
        if arc >= to_hip:
            return self.hip + arc - to_hip
        low, high = 0.0, self.hip
        for _ in range(50):
            middle = (low + high) / 2.0
            low, high = (middle, high) if _arc(self.down, self.inset, self.slopes, middle) < arc else (low, middle)
        return (low + high) / 2.0

    def _place(self, down: float) -> tuple[int, float]:
        index = min(max(0, bisect.bisect_right(self.down, down) - 1), len(self.down) - 2)
        low, high = self.down[index], self.down[index + 1]
        return index, min(1.0, max(0.0, (down - low) / (high - low)))


def _piece(hip_half: float, top: tuple[float, float, float], bottom: tuple[float, float, float]) -> Cubic:
    (y0, x0, m0), (y1, x1, m1) = top, bottom
    third = (y1 - y0) / 3.0
    return Cubic(
        complex(hip_half - x0, -y0),
        complex(hip_half - x0 - m0 * third, -y0 - third),
        complex(hip_half - x1 + m1 * third, -y1 + third),
        complex(hip_half - x1, -y1),
    )


def _arc(down: tuple[float, ...], inset: tuple[float, ...], slopes: tuple[float, ...], until: float) -> float:
    side = Side(down, inset, slopes)
    total = 0.0
    for low, high in itertools.pairwise(down):
        top = min(high, until)
        if top > low:
            total += sum(w * (top - low) / math.cos(side.slant(low + (top - low) * x)) for x, w in _NODES)
    return total


def _profile(waist_inset: float, top_inset: float | None) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Insets at even levels from waist to hip, and slopes per step between them."""
    if top_inset is None:
        return (waist_inset, 0.0), (-float(defaults.SIDE_SLOPE_AT_WAIST) * waist_inset, 0.0)
    first, second = top_inset - waist_inset, -top_inset
    middle = 2.0 * first * second / (first + second) if first * second > 0.0 else 0.0
    return (waist_inset, top_inset, 0.0), (0.0, middle, 0.0)


def draft_side(length: float, waist_inset: float, top_inset: float | None = None) -> Side:
    """The side seam whose length from waist to hip is ``length`` mm, ``waist_inset`` mm nearer the centre at the waist.

    With ``top_inset`` (the inset midway, from a top hip girth) it is a monotone cubic through three levels with zero
    slope at both ends (least error on a body surface, docs/sources.md); without, one cubic with some slope at
    the waist.
    The levels are even and the profile per step is fixed, so the arc depends on the step alone: Newton, from above.
    """
    inset, slopes = _profile(waist_inset, top_inset)
    rises = [(w, _rise(inset, slopes, i, x)) for i in range(len(inset) - 1) for x, w in _NODES]
    step = length / (len(inset) - 1)
    for _ in range(30):
        roots = [(w, math.hypot(step, rise)) for w, rise in rises]
        miss = sum(w * root for w, root in roots) - length
        if abs(miss) < 1e-10:
            break
        step -= miss / sum(w * step / root for w, root in roots)
    down = tuple(step * i for i in range(len(inset)))
    return Side(down, inset, tuple(slope / step for slope in slopes))


def _rise(inset: tuple[float, ...], slopes: tuple[float, ...], i: int, t: float) -> float:
    a, b, ma, mb = inset[i], inset[i + 1], slopes[i], slopes[i + 1]
    return ma + t * (2.0 * (3.0 * (b - a) - 2.0 * ma - mb) + 3.0 * t * (2.0 * (a - b) + ma + mb))
