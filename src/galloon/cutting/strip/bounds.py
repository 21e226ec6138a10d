"""Lengths of lace that no layout can beat, reckoned without searching."""

from __future__ import annotations

import numpy as np
import numpy.typing as npt

from galloon.cutting.limits import area_bound, longest
from galloon.cutting.outlines import Ring
from galloon.cutting.strip.problem import Copy, Problem

#: Lines drawn along the lace on which the pieces' shares are added up.
_LINES = 15
Floats = npt.NDArray[np.float64]


def length_bound(problem: Problem) -> float:
    """A length (mm) that no legal layout is shorter than.

    The greatest of: the areas laid out at full width; the longest piece; and along each of some lines parallel to the
    edges, what the pieces must take of that line. A piece on an edge keeps its height, so its share is the least that
    any of its legal lies cuts from the line; a piece that may lie anywhere across is counted with nothing.
    """
    lace = problem.lace
    outlines = [problem.shapes[copy.spots[0].shape] for copy in problem.copies]
    levels = lace.width * (np.arange(_LINES) + 0.5) / _LINES
    cut = {shape: _cut(problem.shapes[shape], levels) for copy in problem.copies for shape in _shapes(copy)}
    shares = np.zeros(_LINES)
    for copy in problem.copies:
        if problem.pieces[copy.piece].on_edge:
            shares += np.min([cut[shape] for shape in _shapes(copy)], axis=0)
    return max(area_bound(outlines, lace.width), longest(outlines), float(shares.max()))


def _shapes(copy: Copy) -> tuple[int, ...]:
    return tuple(dict.fromkeys(spot.shape for spot in copy.spots))


def _cut(ring: Ring, levels: Floats) -> Floats:
    """Length (mm) that the inside of a ring cuts from the level line at each of ``levels``."""
    start = np.asarray(ring)
    end = np.roll(start, -1, axis=0)
    low, high = start[:, 1][:, None], end[:, 1][:, None]
    meets = (low <= levels) != (high <= levels)
    with np.errstate(divide="ignore", invalid="ignore"):
        at = start[:, 0][:, None] + (levels - low) / (high - low) * (end[:, 0] - start[:, 0])[:, None]
    # An anticlockwise ring leaves its inside where it goes up and enters it where it goes down.
    return np.asarray(np.where(meets, np.where(high > low, at, -at), 0.0).sum(axis=0))
