"""Where two runs of cubics cross each other."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np

from galloon.geometry.cubic import Cubic, Curve, Points, chord_count, sample
from galloon.geometry.plane import cross

_SAG: Final = 0.05


class Crossing(NamedTuple):
    """Piece and parameter on the first run, and on the second, of one point they share."""

    first: int
    t: float
    second: int
    u: float


def crossings(one: Curve, other: Curve) -> tuple[Crossing, ...]:
    """Every proper crossing of two runs, in the order of the first; a touch without crossing is none."""
    found = [Crossing(i, t, j, u) for i, a in enumerate(one) for j, b in enumerate(other) for t, u in _pair(a, b)]
    return tuple(sorted(set(found)))


def _pair(a: Cubic, b: Cubic) -> list[tuple[float, float]]:
    first, second = (sample(piece, chord_count(piece, _SAG))[0] for piece in (a, b))
    found = []
    for i, j in np.argwhere(_cross(first, second)):
        t, u = _refined(a, b, (i + 0.5) / (len(first) - 1), (j + 0.5) / (len(second) - 1))
        found.append((round(t, 12), round(u, 12)))
    return found


def _cross(first: Points, second: Points) -> np.ndarray:
    """Which chords of two polylines cross: one row per chord of the first."""
    p, r = first[:-1, None], np.diff(first)[:, None]
    q, s = second[None, :-1], np.diff(second)[None, :]

    def side(along: np.ndarray, to: np.ndarray) -> np.ndarray:
        return np.asarray(along.real * to.imag - along.imag * to.real)

    over = (side(r, q - p) > 0.0) != (side(r, q + s - p) > 0.0)
    return np.asarray(over & ((side(s, p - q) > 0.0) != (side(s, p + r - q) > 0.0)))


def _refined(a: Cubic, b: Cubic, t: float, u: float) -> tuple[float, float]:
    for _ in range(20):
        gap, along, across = b.at(u) - a.at(t), a.derivative(t), b.derivative(u)
        slope = cross(along, across)
        if abs(slope) < 1e-12 or abs(gap) < 1e-10:
            break
        t = min(1.0, max(0.0, t + cross(gap, across) / slope))
        u = min(1.0, max(0.0, u + cross(gap, along) / slope))
    return t, u
