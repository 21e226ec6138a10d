"""Cuts curves where a straight line crosses them, or at a distance along them."""

from __future__ import annotations

import math
from typing import Final

import numpy as np

from galloon.geometry.cubic import Cubic, Curve, cut_curve
from galloon.geometry.plane import cross
from galloon.tolerance import SAME_POINT

# Nodes and weights of five-point Gauss-Legendre quadrature on [0, 1] (Abramowitz and Stegun, table 25.4).
_NODES: Final = (
    (0.5, 0.2844444444444444),
    *(
        (0.5 + sign * x / 2.0, w / 2.0)
        for x, w in ((0.5384693101056831, 0.4786286704993665), (0.9061798459386640, 0.2369268850561891))
        for sign in (-1.0, 1.0)
    ),
)


def line_crossings(piece: Cubic, origin: complex, direction: complex) -> tuple[float, ...]:
    """Parameters inside (0, 1), rising, at which a cubic meets the line through ``origin`` along ``direction``."""
    a, b, c, d = (cross(direction, point - origin) for point in piece)
    if min(a, b, c, d) > 0.0 or max(a, b, c, d) < 0.0:
        return ()
    if piece.straight:
        roots = [a / (a - d)] if a != d else []
    else:
        powers = [d - 3.0 * c + 3.0 * b - a, 3.0 * (c - 2.0 * b + a), 3.0 * (b - a), a]
        roots = sorted(root.real for root in np.roots(powers) if abs(root.imag) < 1e-9)
    return tuple(float(root) for root in roots if 1e-9 < root < 1.0 - 1e-9)


def cut_at_line(curve: Curve, origin: complex, direction: complex) -> tuple[tuple[Curve, float], ...]:
    """The run in sections that each lie on one side of a line: 1 to the left of ``direction``, -1 to its right.

    Neighbouring sections lie on different sides; a run that only touches the line is not cut.
    """
    along = direction / abs(direction)
    sections: list[tuple[Curve, float]] = []
    for piece in curve:
        for part in _pieces(piece, line_crossings(piece, origin, along)):
            heights = [cross(along, point - origin) for point in (part.start, part.at(0.5), part.end)]
            side = math.copysign(1.0, max(heights, key=abs))
            if sections and sections[-1][1] == side:
                sections[-1] = ((*sections[-1][0], part), side)
            else:
                sections.append(((part,), side))
    return tuple(sections)


def _pieces(piece: Cubic, cuts: tuple[float, ...]) -> list[Cubic]:
    found, done = [], 0.0
    for cut in cuts:
        before, piece = piece.split((cut - done) / (1.0 - done))
        done = cut
        if abs(before.end - before.start) > SAME_POINT:
            found.append(before)
    return [*found, piece]


def arc(piece: Cubic, until: float = 1.0) -> float:
    """Length (mm) of a cubic from its start to parameter ``until``, by quadrature on four even parts."""
    step = until / 4.0
    return sum(w * step * abs(piece.derivative(step * (i + x))) for i in range(4) for x, w in _NODES)


def cut_at_length(curve: Curve, distance: float) -> tuple[Curve, Curve]:
    """The run cut ``distance`` mm from its start; held at its ends, where one part is empty."""
    left = distance
    for index, piece in enumerate(curve):
        whole = arc(piece)
        if left < whole or index == len(curve) - 1:
            return cut_curve(curve, index, _parameter(piece, left, whole))
        left -= whole
    return curve, ()


def _parameter(piece: Cubic, distance: float, whole: float) -> float:
    if distance <= 0.0 or distance >= whole:
        return 0.0 if distance <= 0.0 else 1.0
    t = distance / whole
    for _ in range(20):
        miss = arc(piece, t) - distance
        if abs(miss) < 1e-9:
            break
        t = min(1.0, max(0.0, t - miss / abs(piece.derivative(t))))
    return t
