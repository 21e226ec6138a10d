"""For two outlines that each keep their height on the strip: exactly which distances along it are forbidden.

An outline is cut into level slabs at every corner of every outline. Inside a slab both outlines are trapezoids, and two
trapezoids of one slab overlap for one open interval of distances, whose ends lie on the slab's own top or bottom. The
forbidden distances are the union over slabs: a set of intervals, not one, where an outline leaves gaps.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from shapely.geometry import Polygon

Floats = npt.NDArray[np.float64]
#: Open intervals in rising order, apart from each other.
Intervals = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class Sections:
    """Trapezoids of one outline, slab by slab: left and right ends at the slab's bottom (0) and top (1).

    Arrays have shape (slabs, most trapezoids in one slab); missing ones are NaN.
    """

    left0: Floats
    right0: Floats
    left1: Floats
    right1: Floats

    def widths(self) -> Floats:
        """Total length cut by the middle line of each slab, mm."""
        return np.asarray(np.nansum(self.right0 - self.left0 + self.right1 - self.left1, axis=1) / 2)


def levels_of(polygons: Sequence[Polygon]) -> Floats:
    """Every height at which any of the outlines has a corner, rising."""
    return np.unique(np.concatenate([_sides(polygon)[0][:, 1] for polygon in polygons]))


def _sides(polygon: Polygon) -> tuple[Floats, Floats]:
    """Both ends of every straight side of the polygon, holes included; each of shape (sides, 2)."""
    rings = [np.asarray(ring.coords) for ring in (polygon.exterior, *polygon.interiors)]
    return np.concatenate([ring[:-1] for ring in rings]), np.concatenate([ring[1:] for ring in rings])


def sections(polygon: Polygon, levels: Floats) -> Sections:
    """The polygon's trapezoids between ``levels``, which must include the heights of all its corners."""
    a, b = _sides(polygon)
    sloped = a[:, 1] != b[:, 1]
    a, b = a[sloped], b[sloped]
    low, high = np.where((a[:, 1] < b[:, 1])[:, None], a, b), np.where((a[:, 1] < b[:, 1])[:, None], b, a)
    bottom, top = levels[:-1], levels[1:]
    spans = (low[:, 1][:, None] <= bottom) & (high[:, 1][:, None] >= top)
    slope = (high[:, 0] - low[:, 0]) / (high[:, 1] - low[:, 1])
    x0 = low[:, 0][:, None] + slope[:, None] * (bottom - low[:, 1][:, None])
    x1 = low[:, 0][:, None] + slope[:, None] * (top - low[:, 1][:, None])
    middle = np.where(spans, x0 + x1, np.inf)
    order = np.argsort(middle, axis=0, kind="stable")[: int(spans.sum(axis=0).max())]
    keep = np.take_along_axis(spans, order, axis=0)
    x0 = np.where(keep, np.take_along_axis(x0, order, axis=0), np.nan).T
    x1 = np.where(keep, np.take_along_axis(x1, order, axis=0), np.nan).T
    return Sections(x0[:, ::2], x0[:, 1::2], x1[:, ::2], x1[:, 1::2])


def forbidden(a: Sections, b: Sections) -> Intervals:
    """Distances d (mm) for which b moved by d along x overlaps a. Both must be cut at the same levels."""
    low = np.minimum(a.left0[:, :, None] - b.right0[:, None, :], a.left1[:, :, None] - b.right1[:, None, :]).ravel()
    high = np.maximum(a.right0[:, :, None] - b.left0[:, None, :], a.right1[:, :, None] - b.left1[:, None, :]).ravel()
    keep = high > low  # also drops NaN
    return merged(low[keep], high[keep])


def merged(low: Floats, high: Floats, touch: float = 1e-9) -> Intervals:
    """The union of open intervals; ones within ``touch`` of each other become one."""
    if low.size == 0:
        return ()
    order = np.argsort(low, kind="stable")
    low, high = low[order], np.maximum.accumulate(high[order])
    first = np.concatenate(([True], low[1:] > high[:-1] + touch))
    last = np.concatenate((first[1:], [True]))
    return tuple(zip(low[first].tolist(), high[last].tolist(), strict=True))
