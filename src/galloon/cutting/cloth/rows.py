"""Outlines as rows of fixed height: for each row the stretches of x that the outline touches, never too little."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
from shapely.geometry import Polygon

from galloon.cutting.sections import Floats, levels_of, merged, sections


@dataclass(frozen=True)
class Rows:
    """``left`` and ``right`` have shape (rows, most stretches in a row); missing stretches run from +inf to -inf."""

    left: Floats
    right: Floats

    @property
    def count(self) -> int:
        """Number of rows."""
        return int(self.left.shape[0])


def rows_of(polygon: Polygon, low: float, row: float) -> Rows:
    """The polygon in rows of height ``row`` counted from y = ``low``, which lies at or under its lowest point."""
    ys = levels_of([polygon])
    count = max(1, math.ceil((float(ys.max()) - low) / row - 1e-9))
    marks = low + row * np.arange(count + 1)
    levels = np.unique(np.concatenate([ys, marks]))
    cut = sections(polygon, levels)
    owner = np.clip(np.searchsorted(marks, (levels[:-1] + levels[1:]) / 2) - 1, 0, count - 1)
    left, right = np.fmin(cut.left0, cut.left1), np.fmax(cut.right0, cut.right1)
    found = [_stretches(left[owner == r].ravel(), right[owner == r].ravel()) for r in range(count)]
    most = max(1, max(len(stretches) for stretches in found))
    lefts, rights = np.full((count, most), np.inf), np.full((count, most), -np.inf)
    for r, stretches in enumerate(found):
        for k, (a, b) in enumerate(stretches):
            lefts[r, k], rights[r, k] = a, b
    return Rows(lefts, rights)


def _stretches(left: Floats, right: Floats) -> tuple[tuple[float, float], ...]:
    keep = ~np.isnan(left)
    return merged(left[keep], right[keep])
