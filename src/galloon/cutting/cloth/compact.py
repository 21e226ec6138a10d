"""Compaction: all items of a valid layout move a little at once, along and across, so that the whole gets shorter.

Every two convex parts near each other keep to their sides of one straight line, the one that now parts them by most:
square to the shortest way between them, or along a side where they touch.
Under these conditions the least length is a linear problem; solved again from each new place until nothing is gained
(after Li and Milenkovic, "Compaction and separation algorithms for non-convex polygons and their applications", 1995).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
import shapely

from galloon.cutting.cloth.convex import convex_parts
from galloon.cutting.cloth.fill import Grid, Spot, length_of
from galloon.cutting.outlines import box
from galloon.cutting.sections import Floats
from galloon.tolerance import CUT_STEP, CUT_TOUCH

Whole = npt.NDArray[np.int64]

#: Furthest an item moves in a round, as a share of the cloth's width, and the rounds at most.
_REACH, _ROUNDS = 0.02, 60
#: Weight of every item's own place beside the length: enough to draw items to the cut end, too little to cost length.
_DRAW = 1e-3
#: Rounds on end that gain less than ``CUT_STEP`` before it is enough.
_PATIENCE = 3


@dataclass(frozen=True)
class _Parts:
    """All parts of all items as they lie now, padded to one number of corners: part of which item, corners, sides.

    ``corners`` and ``normals`` (outward, of length 1; 0 for padding) have shape (parts, most corners, 2).
    """

    item: Whole
    corners: Floats
    normals: Floats

    @property
    def levels(self) -> Floats:
        """How far out each side lies along its own normal; infinite for padding."""
        real = np.abs(self.normals).sum(axis=2) > 0
        return np.asarray(np.where(real, (self.normals * self.corners).sum(axis=2), np.inf))


def compacted(grid: Grid, spots: Sequence[Spot], stop: Callable[[], bool] = lambda: False) -> tuple[Spot, ...]:
    """The layout with all items moved together as far as it goes; poses and order stay.

    A trace of overlap is repaired too, which may take length. Nothing here is exact: whoever asks checks the layout.
    """
    parts = _parts_of(grid, spots)
    places = np.array([(s.x, s.y) for s in spots])
    best, idle, reach = tuple(spots), 0, _REACH * grid.width
    for _ in range(_ROUNDS):
        moved = None if stop() or idle >= _PATIENCE else _moved(grid, spots, parts, places, reach)
        if moved is None:
            break
        places = places + moved
        new = tuple(replace(s, x=float(x), y=float(y)) for s, (x, y) in zip(spots, places, strict=True))
        repaired = best == tuple(spots)
        idle = idle + 1 if length_of(grid, new) > length_of(grid, best) - CUT_STEP else 0
        best = new if repaired or length_of(grid, new) < length_of(grid, best) else best
    return best


def _parts_of(grid: Grid, spots: Sequence[Spot]) -> _Parts:
    found = [
        (number, part)
        for number, (item, spot) in enumerate(zip(grid.items, spots, strict=True))
        for part in convex_parts(item.poses[spot.pose].outline)
    ]
    most = max(len(part) for _, part in found)
    corners = np.array([np.vstack([part, np.repeat(part[-1:], most - len(part), axis=0)]) for _, part in found])
    sides = np.roll(corners, -1, axis=1) - corners
    length = np.hypot(sides[..., 0], sides[..., 1])[..., None]
    outward = np.stack([sides[..., 1], -sides[..., 0]], axis=-1)
    return _Parts(
        np.array([number for number, _ in found]), corners, np.where(length > 0, outward / np.maximum(length, 1e-12), 0)
    )


def _moved(grid: Grid, spots: Sequence[Spot], parts: _Parts, places: Floats, reach: float) -> Floats | None:
    """How far each item moves for the least length, shape (items, 2); None where the solver finds no way."""
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import coo_array

    count = len(spots)
    one, two, way, gap = _lines(parts, places, grid.clearance, reach)
    rows = np.repeat(np.arange(one.size), 4)
    columns = np.stack([2 * one, 2 * one + 1, 2 * two, 2 * two + 1], axis=1).ravel()
    values = np.hstack([way, -way]).ravel()  # way . (move of one - move of two) <= what is to spare
    sizes = np.array([box(item.poses[s.pose].outline)[2:] for item, s in zip(grid.items, spots, strict=True)])
    ends = np.arange(count)
    rows = np.concatenate([rows, one.size + ends, one.size + ends])
    columns = np.concatenate([columns, 2 * ends, np.full(count, 2 * count)])
    values = np.concatenate([values, np.ones(count), -np.ones(count)])
    spare, over = gap - grid.clearance, -(places[:, 0] + sizes[:, 0])
    cost = np.concatenate([np.tile([_DRAW / count, 0.0], count), [1.0]])
    low = np.maximum(-places, -reach)
    across = np.where([item.fold for item in grid.items], 0.0, grid.width - sizes[:, 1] - places[:, 1])
    high = np.minimum(np.column_stack([np.full(count, np.inf), across]), reach)
    bounds = Bounds(np.append(np.minimum(low, 0).ravel(), 0.0), np.append(np.maximum(high, 0).ravel(), np.inf))
    table = coo_array((values, (rows, columns)), shape=(spare.size + count, 2 * count + 1)).tocsr()
    # Where what lies too near cannot all be parted, at least nothing may come nearer.
    for allowed in (spare, np.maximum(spare, 0.0)):
        limits = np.concatenate([allowed, over])
        found = milp(cost, constraints=LinearConstraint(table, -np.inf, limits), bounds=bounds)
        if found.status == 0:
            return np.asarray(found.x[:-1].reshape(count, 2))
    return None


def _lines(parts: _Parts, places: Floats, clearance: float, reach: float) -> tuple[Whole, Whole, Floats, Floats]:
    """Every two parts of different items that may meet when each moves by ``reach`` along and across: the items, the
    way from one to two that parts them by most, and the gap that way.
    """
    near = clearance + 2 * np.sqrt(2) * reach
    here = _Parts(parts.item, parts.corners + places[parts.item][:, None, :], parts.normals)
    least, most = here.corners.min(axis=1) - near / 2, here.corners.max(axis=1) + near / 2
    boxes = shapely.box(least[:, 0], least[:, 1], most[:, 0], most[:, 1])
    a, b = shapely.STRtree(boxes).query(boxes)
    order = here.item[a] < here.item[b]
    a, b = a[order], b[order]
    polygons = shapely.polygons(here.corners)
    ends = shapely.get_coordinates(shapely.shortest_line(polygons[a], polygons[b]))
    way = ends[1::2] - ends[::2]
    gap = np.hypot(way[:, 0], way[:, 1])
    keep = gap < near
    a, b, way, gap = a[keep], b[keep], way[keep], gap[keep]
    way /= np.maximum(gap, CUT_TOUCH)[:, None]
    touch = np.flatnonzero(gap <= CUT_TOUCH)
    way[touch], gap[touch] = _past_a_side(here, a[touch], b[touch])
    return here.item[a], here.item[b], way, gap


def _past_a_side(parts: _Parts, a: Whole, b: Whole) -> tuple[Floats, Floats]:
    """For parts that touch: the side of one that the other is furthest outside of, as the way from a to b, and how far.

    A trace of overlap counts as less than nothing.
    """
    gap, way = _widest(parts, a, b)
    back, reverse = _widest(parts, b, a)
    turned = back > gap
    return np.where(turned[:, None], -reverse, way), np.where(turned, back, gap)


def _widest(parts: _Parts, a: Whole, b: Whole) -> tuple[Floats, Floats]:
    """Of the sides of each part a, the one that part b lies furthest outside of: how far, and which way that is."""
    normals = parts.normals[a]
    reached = np.einsum("psk,pck->psc", normals, parts.corners[b]).min(axis=2)
    far = reached - parts.levels[a]
    best = far.argmax(axis=1)
    rows = np.arange(len(a))
    return far[rows, best], normals[rows, best]
