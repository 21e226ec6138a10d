"""Which numbers of steps may lie between two spots: the exact forbidden distances, taken to the grid."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from galloon.cutting.outlines import box, grown
from galloon.cutting.sections import Floats, Intervals, Sections, forbidden, levels_of, sections
from galloon.cutting.strip.problem import Problem

#: Closed ranges of whole steps, rising and apart.
Ranges = tuple[tuple[int, int], ...]


@dataclass(frozen=True)
class Offsets:
    """For shapes a and b: ``ranges(a, b)`` are the steps from a to b that would bring them too near.

    ``starts`` and ``ends``: least and greatest x of each shape at step 0 (mm); ``widths``: how much of each level line
    each grown shape takes, shape (shapes, levels).
    """

    ranges: Callable[[int, int], Ranges]
    starts: tuple[float, ...]
    ends: tuple[float, ...]
    widths: Floats


def offsets_of(problem: Problem) -> Offsets:
    """Reckons the forbidden steps between all shapes of a problem, each pair once and only when asked for."""
    polygons = [grown(ring, problem.rules.clearance / 2) for ring in problem.shapes]
    levels = levels_of(polygons)
    cuts = [sections(polygon, levels) for polygon in polygons]
    boxes = [box(ring) for ring in problem.shapes]
    widths = np.array([cut.widths() for cut in cuts])
    return Offsets(_lazy(cuts, problem.unit), tuple(b[0] for b in boxes), tuple(b[2] for b in boxes), widths)


def _lazy(cuts: list[Sections], unit: float) -> Callable[[int, int], Ranges]:
    known: dict[tuple[int, int], Ranges] = {}

    def ranges(a: int, b: int) -> Ranges:
        if (a, b) not in known:
            steps = on_grid(forbidden(cuts[a], cuts[b]), unit)
            known[a, b] = steps
            known[b, a] = tuple((-high, -low) for low, high in reversed(steps))
        return known[a, b]

    return ranges


def on_grid(intervals: Intervals, unit: float) -> Ranges:
    """Whole numbers d with d * unit inside an open interval, as closed ranges; neighbouring ranges become one."""
    found: list[tuple[int, int]] = []
    for low, high in intervals:
        first, last = math.floor(low / unit + 1e-7) + 1, math.ceil(high / unit - 1e-7) - 1
        if last < first:
            continue
        if found and first <= found[-1][1] + 1:
            found[-1] = (found[-1][0], max(last, found[-1][1]))
        else:
            found.append((first, last))
    return tuple(found)
