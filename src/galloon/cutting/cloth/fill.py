"""Our own way of filling a cloth: items set down one after another, each as far towards the cut end as it goes.

Always valid, and the same for the same input. Heights are tried in rows; places along the length are exact for outlines
grown to whole rows, and pieces are pushed together by their true outlines at the end.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

from galloon.cutting.cloth.items import Item
from galloon.cutting.cloth.rows import Rows, rows_of
from galloon.cutting.outlines import box, grown
from galloon.cutting.sections import Floats

#: Rows to the smallest item's height, and the range of row heights (mm).
_ROWS_PER_ITEM, _LEAST_ROW, _MOST_ROW = 24, 1.0, 6.0


@dataclass(frozen=True)
class Spot:
    """Where an item lies: number of its pose, and the place of the outline's least x and least y (mm)."""

    pose: int
    x: float
    y: float


@dataclass(frozen=True)
class Grid:
    """A filling problem: rows of every pose of every item, the row height, and how wide the cloth lies."""

    items: tuple[Item, ...]
    rows: tuple[tuple[Rows, ...], ...]
    row: float
    width: float
    clearance: float


def grid_of(items: tuple[Item, ...], width: float, clearance: float) -> Grid:
    """Cuts every pose into rows, grown by half the clearance."""
    least = min(pose.height for item in items for pose in item.poses)
    row = min(_MOST_ROW, max(_LEAST_ROW, least / _ROWS_PER_ITEM, width / 2000))
    known: dict[tuple[int, bool, bool], Rows] = {}
    table = []
    for item in items:
        for pose in item.poses:
            key = (item.kind[0], pose.flip, pose.turn)
            if key not in known:
                known[key] = rows_of(grown(pose.outline, clearance / 2), -clearance / 2 * 1.01, row)
        table.append(tuple(known[item.kind[0], pose.flip, pose.turn] for pose in item.poses))
    return Grid(items, tuple(table), row, width, clearance)


def filled(grid: Grid, order: Sequence[int]) -> tuple[Spot, ...]:
    """Items set down in ``order``; each takes the pose and height at which it ends soonest."""
    total = int(grid.width / grid.row) + 2 + max(rows.count for poses in grid.rows for rows in poses)
    left, right = np.full((total, 1), np.inf), np.full((total, 1), -np.inf)
    spots: dict[int, Spot] = {}
    for number in order:
        spot, rows = _best_spot(grid, number, left, right)
        spots[number] = spot
        left, right = _set_down(rows, spot, round(spot.y / grid.row), (left, right))
    return tuple(spots[number] for number in range(len(grid.items)))


def _best_spot(grid: Grid, number: int, left: Floats, right: Floats) -> tuple[Spot, Rows]:
    item = grid.items[number]
    best: tuple[float, float, int, float] | None = None
    for index, pose in enumerate(item.poses):
        rows = grid.rows[number][index]
        places = 1 if item.fold else int((grid.width - pose.height) / grid.row + 1e-9) + 1
        xs = _least_x(rows, left[: places + rows.count - 1], right[: places + rows.count - 1])
        ends = xs + box(pose.outline)[2]
        at = int(np.argmin(ends.round(3)))
        key = (float(ends[at]), at * grid.row, index, float(xs[at]))
        best = key if best is None or key[:2] < best[:2] else best
    assert best is not None
    return Spot(best[2], best[3], best[1]), grid.rows[number][best[2]]


def _least_x(rows: Rows, left: Floats, right: Floats) -> Floats:
    """Least x from 0 at which the rows clash with nothing, for every height."""
    others_left = sliding_window_view(left, rows.count, axis=0)  # (places, others, rows)
    others_right = sliding_window_view(right, rows.count, axis=0)
    low = others_left[:, :, :, None] - rows.right[None, None]
    high = others_right[:, :, :, None] - rows.left[None, None]
    flat = (low.shape[0], -1)
    low, high = low.reshape(flat), high.reshape(flat)
    x = np.zeros(low.shape[0])
    alive = np.arange(low.shape[0])
    while alive.size:
        here = x[alive, None]
        hit = (low[alive] < here - 1e-9) & (high[alive] > here + 1e-9)
        pushed = np.where(hit, high[alive], -np.inf).max(axis=1)
        moved = pushed > x[alive]
        alive = alive[moved]
        x[alive] = pushed[moved]
    return x


def _set_down(rows: Rows, spot: Spot, at: int, taken: tuple[Floats, Floats]) -> tuple[Floats, Floats]:
    left, right = taken
    span = slice(at, at + rows.count)
    free = np.isinf(left[span]).all(axis=0)
    need = rows.left.shape[1]
    if int(free.sum()) < need:
        more = np.full((left.shape[0], need), np.inf)
        left, right = np.hstack([left, more]), np.hstack([right, -more])
        free = np.isinf(left[span]).all(axis=0)
    for k, column in enumerate(np.flatnonzero(free)[:need]):
        left[span, column] = rows.left[:, k] + spot.x
        right[span, column] = rows.right[:, k] + spot.x
    return left, right


def length_of(grid: Grid, spots: Sequence[Spot]) -> float:
    """Length of cloth taken, mm."""
    return max(s.x + box(item.poses[s.pose].outline)[2] for s, item in zip(spots, grid.items, strict=True))


def best_fill(grid: Grid, tries: int, enough: float, stop: Callable[[], bool] = lambda: False) -> tuple[Spot, ...]:
    """The shortest of the fills for ``tries`` orders, changed a little at a time from a fixed seed.

    Ends early at ``enough`` mm, a length that cannot be beaten.
    """
    rng = random.Random(11)
    order = sorted(range(len(grid.items)), key=lambda n: (-box(grid.items[n].poses[0].outline)[2], n))
    best = filled(grid, order)
    length = length_of(grid, best)
    for _ in range(tries if len(order) > 1 else 0):
        if length <= enough + 1e-6 or stop():
            break
        new = _changed(order, rng)
        spots = filled(grid, new)
        found = length_of(grid, spots)
        if found <= length + 1e-9:
            order, best, length = new, spots if found < length - 1e-9 else best, min(found, length)
    return best


def _changed(order: list[int], rng: random.Random) -> list[int]:
    new = order[:]
    a, b = rng.sample(range(len(new)), 2)
    if rng.random() < 0.5:
        new[a], new[b] = new[b], new[a]
    else:
        new.insert(b, new.pop(a))
    return new
