"""Guided local search: pieces that overlap move to where they overlap least, and stubborn overlaps weigh ever more."""

from __future__ import annotations

import random
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from shapely.geometry import Polygon, box

from galloon.cutting.cloth.items import Item
from galloon.cutting.outlines import grown
from galloon.cutting.remnant.maps import Bands, Mask, bands_of, clash_map, depth_map, places_inside
from galloon.cutting.sections import Floats

#: How much heavier an overlap gets each time round, least and most.
_HEAVIER, _HEAVIEST = 0.15, 0.6


@dataclass(frozen=True)
class At:
    """Where an item lies: number of its pose, and steps up and along from the remnant's least y and x."""

    pose: int
    row: int
    column: int


@dataclass(frozen=True)
class Room:
    """The remnant and the items in steps of ``step`` mm. ``inside[item][pose]`` are the places wholly on the cloth;

    ``depth`` holds, for two kinds of pose, the no-fit map and the (row, column) of its first cell.
    """

    step: float
    inside: tuple[tuple[Mask, ...], ...]
    kinds: tuple[tuple[int, ...], ...]
    depth: dict[tuple[int, int], tuple[Floats, tuple[int, int]]]


def room_of(shape: Polygon, items: Sequence[Item], clearance: float, step: float) -> Room:
    """Reckons all maps. The remnant must have its least x and y at 0."""
    _, _, right, top = shape.bounds
    frame = box(-2 * step, -2 * step, right + 2 * step, top + 2 * step).difference(shape)
    parts = [part for part in getattr(frame, "geoms", [frame]) if part.area > 0]
    outside = [bands_of(part, step) for part in parts]
    numbers: dict[tuple[int, bool, bool], int] = {}
    wide: list[Bands] = []
    free: list[Mask] = []
    for item in items:
        for pose in item.poses:
            key = (item.kind[0], pose.flip, pose.turn)
            if key not in numbers:
                numbers[key] = len(wide)
                wide.append(bands_of(grown(pose.outline, clearance / 2), step))
                _, _, across, up = Polygon(pose.outline).bounds
                size = (max(0, int((top - up) / step + 1e-9) + 1), max(0, int((right - across) / step + 1e-9) + 1))
                free.append(places_inside(outside, bands_of(Polygon(pose.outline), step), size, step))
    kinds = tuple(tuple(numbers[item.kind[0], p.flip, p.turn] for p in item.poses) for item in items)
    depth: dict[tuple[int, int], tuple[Floats, tuple[int, int]]] = {}
    for a in range(len(wide)):
        for b in range(a, len(wide)):
            clash, (row, column) = clash_map(wide[a], wide[b], step)
            known = depth_map(clash)
            depth[a, b] = (known, (row, column))
            corner = (-(row + known.shape[0] - 1), -(column + known.shape[1] - 1))
            depth[b, a] = (known[::-1, ::-1], corner)
    return Room(step, tuple(tuple(free[k] for k in ks) for ks in kinds), kinds, depth)


def answers(room: Room, moves: int, seed: int) -> Iterator[tuple[At, ...]]:
    """Layouts without overlap on the map, as the search comes upon them, until the moves are spent."""
    rng = random.Random(seed)
    count = len(room.kinds)
    if any(not any(mask.any() for mask in masks) for masks in room.inside):
        return
    weights = np.ones((count, count))
    lies = [_anywhere(room, item, rng) for item in range(count)]
    overlap = _overlaps(room, lies)
    while moves > 0:
        wrong = [i for i in range(count) if overlap[i].any()]
        if not wrong:
            yield tuple(lies)
            lies = [_anywhere(room, item, rng) for item in range(count)]
            overlap, wrong = _overlaps(room, lies), list(range(count))
        rng.shuffle(wrong)
        for item in wrong:
            if not overlap[item].any():
                continue
            lies[item] = _least_overlap(room, item, lies, (weights[item], rng))
            moves -= 1
            _refresh(room, lies, item, overlap)
        worst = overlap.max()
        if worst > 0:
            weights *= 1 + np.where(overlap > 0, _HEAVIER + (_HEAVIEST - _HEAVIER) * overlap / worst, 0)
            weights /= weights.mean()


def _anywhere(room: Room, item: int, rng: random.Random) -> At:
    poses = [k for k, mask in enumerate(room.inside[item]) if mask.any()]
    pose = rng.choice(poses)
    row, column = np.unravel_index(
        rng.choice(np.flatnonzero(room.inside[item][pose]).tolist()), room.inside[item][pose].shape
    )
    return At(pose, int(row), int(column))


def _depth(room: Room, a: tuple[int, At], b: tuple[int, At]) -> float:
    (i, at), (j, to) = a, b
    known, (row, column) = room.depth[room.kinds[i][at.pose], room.kinds[j][to.pose]]
    y, x = to.row - at.row - row, to.column - at.column - column
    inside = 0 <= y < known.shape[0] and 0 <= x < known.shape[1]
    return float(known[y, x]) if inside else 0.0


def _overlaps(room: Room, lies: Sequence[At]) -> Floats:
    overlap = np.zeros((len(lies), len(lies)))
    for item in range(len(lies)):
        _refresh(room, lies, item, overlap)
    return overlap


def _refresh(room: Room, lies: Sequence[At], item: int, overlap: Floats) -> None:
    for other in range(len(lies)):
        if other != item:
            depth = _depth(room, (other, lies[other]), (item, lies[item]))
            overlap[item, other] = overlap[other, item] = depth


def _least_overlap(room: Room, item: int, lies: Sequence[At], ways: tuple[Floats, random.Random]) -> At:
    weights, rng = ways
    best: tuple[float, At] | None = None
    for pose, mask in enumerate(room.inside[item]):
        if not mask.any():
            continue
        cost = np.where(mask, 0.0, np.inf)
        for other, lie in enumerate(lies):
            if other != item:
                _add(cost, room.depth[room.kinds[other][lie.pose], room.kinds[item][pose]], lie, weights[other])
        least = float(cost.min())
        if best is None or least < best[0] - 1e-12:
            cells = np.flatnonzero(cost <= least + 1e-9)
            row, column = divmod(int(cells[rng.randrange(cells.size)]), cost.shape[1])
            best = (least, At(pose, row, column))
    assert best is not None
    return best[1]


def _add(cost: Floats, depth: tuple[Floats, tuple[int, int]], lie: At, weight: float) -> None:
    known, (row, column) = depth
    top, left = lie.row + row, lie.column + column
    y0, x0 = max(0, top), max(0, left)
    y1, x1 = min(cost.shape[0], top + known.shape[0]), min(cost.shape[1], left + known.shape[1])
    if y1 > y0 and x1 > x0:
        cost[y0:y1, x0:x1] += weight * known[y0 - top : y1 - top, x0 - left : x1 - left]
