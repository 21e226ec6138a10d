"""Pushing a layout together by the true outlines: each item slides along the length to the first place that is free."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from galloon.cutting.cloth.fill import Grid, Spot
from galloon.cutting.outlines import grown, shifted
from galloon.cutting.sections import forbidden, levels_of, sections

_ROUNDS = 3


def pressed(grid: Grid, spots: Sequence[Spot]) -> tuple[Spot, ...]:
    """The layout with no clash and nothing that could slide nearer to the cut end; heights stay as they are.

    Also repairs a layout whose outlines overlap a trace: whatever clashes is moved on.
    """
    polygons = [
        grown(shifted(item.poses[s.pose].outline, 0.0, s.y), grid.clearance / 2)
        for item, s in zip(grid.items, spots, strict=True)
    ]
    cuts = [sections(polygon, levels) for levels in (levels_of(polygons),) for polygon in polygons]
    xs = [s.x for s in spots]
    bands = [polygon.bounds[1::2] for polygon in polygons]
    known: dict[tuple[int, int], tuple[tuple[float, float], ...]] = {}
    for _ in range(_ROUNDS):
        before = xs[:]
        down: list[int] = []
        for i in sorted(range(len(xs)), key=lambda k: (xs[k], k)):
            taken = []
            for j in down:
                if bands[i][0] < bands[j][1] and bands[j][0] < bands[i][1]:
                    if (j, i) not in known:
                        known[j, i] = forbidden(cuts[j], cuts[i])
                    taken += [(xs[j] + low, xs[j] + high) for low, high in known[j, i]]
            xs[i] = _first_free(taken)
            down.append(i)
        if max(abs(a - b) for a, b in zip(xs, before, strict=True)) < 1e-9:
            break
    return tuple(replace(s, x=x) for s, x in zip(spots, xs, strict=True))


def _first_free(taken: list[tuple[float, float]]) -> float:
    x = 0.0
    for low, high in sorted(taken):
        if low < x - 1e-9 and high > x + 1e-9:
            x = high
    return x
