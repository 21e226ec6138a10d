"""No-fit maps: for every whole step between two outlines, how deep they are in each other, and where each lies inside.

Outlines are cut into thin level bands; distances along x are exact, and in y one never counts for less than it is.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from numpy.lib.stride_tricks import sliding_window_view
from shapely.geometry import Polygon

from galloon.cutting.cloth.rows import Rows, rows_of
from galloon.cutting.sections import Floats

Mask = npt.NDArray[np.bool_]

#: Bands to one step of the map.
_BANDS = 3


@dataclass(frozen=True)
class Bands:
    """An outline in bands. Band 0 begins ``offset`` steps from the outline's own zero (a whole number, 0 or less)."""

    rows: Rows
    offset: int


def bands_of(polygon: Polygon, step: float) -> Bands:
    """Cuts a polygon into bands of a third of a step."""
    offset = math.floor(polygon.bounds[1] / step + 1e-9)
    return Bands(rows_of(polygon, offset * step, step / _BANDS), offset)


def clash_map(fixed: Bands, moving: Bands, step: float) -> tuple[Mask, tuple[int, int]]:
    """True for (dy, dx) in steps at which ``moving`` overlaps ``fixed``, and the (dy, dx) of the map's first cell."""
    a, b = fixed.rows, moving.rows
    reach = math.ceil(b.count / _BANDS) * _BANDS
    tail = (-(a.count + reach)) % _BANDS + _BANDS
    pad = ((reach, reach + tail), (0, 0))
    left = np.pad(a.left, pad, constant_values=np.inf)
    right = np.pad(a.right, pad, constant_values=-np.inf)
    lefts = sliding_window_view(left, b.count, axis=0)[::_BANDS]
    rights = sliding_window_view(right, b.count, axis=0)[::_BANDS]
    low = (lefts[:, :, :, None] - b.right[None, None]).reshape(len(lefts), -1)
    high = (rights[:, :, :, None] - b.left[None, None]).reshape(len(lefts), -1)
    real = np.isfinite(low) & np.isfinite(high)
    first = np.floor(np.where(real, low, 0) / step + 1e-7).astype(int) + 1
    last = np.ceil(np.where(real, high, 0) / step - 1e-7).astype(int) - 1
    real &= last >= first
    begin, end = int(first[real].min()), int(last[real].max())
    marks = np.zeros((len(lefts), end - begin + 2), dtype=np.int32)
    line = np.broadcast_to(np.arange(len(lefts))[:, None], real.shape)[real]
    np.add.at(marks, (line, first[real] - begin), 1)
    np.add.at(marks, (line, last[real] - begin + 1), -1)
    above = -(reach // _BANDS) + fixed.offset - moving.offset
    return marks.cumsum(axis=1)[:, :-1] > 0, (above, begin)


def depth_map(clash: Mask) -> Floats:
    """Steps from each clashing cell to the nearest that does not clash; 0 where nothing clashes."""
    from scipy.ndimage import distance_transform_edt

    return np.asarray(distance_transform_edt(np.pad(clash, 1))[1:-1, 1:-1], dtype=np.float64)


def places_inside(outside: Sequence[Bands], piece: Bands, size: tuple[int, int], step: float) -> Mask:
    """True for (y, x) in steps at which the piece touches nothing of ``outside``; shape ``size``."""
    free = np.ones(size, dtype=bool)
    for part in outside:
        clash, (top, left) = clash_map(part, piece, step)
        rows = slice(max(0, top), max(0, min(size[0], top + clash.shape[0])))
        cols = slice(max(0, left), max(0, min(size[1], left + clash.shape[1])))
        cut = clash[rows.start - top : rows.stop - top, cols.start - left : cols.stop - left]
        free[rows, cols] &= ~cut
    return free
