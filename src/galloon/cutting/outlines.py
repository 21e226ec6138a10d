"""Outlines as plain rings: checked, turned, grown by the blade's clearance, and compared exactly."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from functools import lru_cache
from typing import TypeAlias

import numpy as np
import shapely
from shapely.geometry import Polygon

from galloon.errors import BadValue
from galloon.tolerance import CUT_OUTLINE, CUT_TOUCH

Point: TypeAlias = tuple[float, float]
Ring: TypeAlias = tuple[Point, ...]

#: Segments to a quarter turn where a grown outline goes round a corner.
_QUARTER = 8
#: Outlines with more points than this are simplified before planning.
_MANY_POINTS = 160


def checked_ring(subject: str, points: Iterable[Sequence[float]]) -> Ring:
    """The ring anticlockwise, without a repeated last point. Raises BadValue unless it is simple and has area."""
    ring = tuple((float(point[0]), float(point[1])) for point in points)
    if len(ring) > 1 and ring[0] == ring[-1]:
        ring = ring[:-1]
    if len(ring) < 3:
        raise BadValue(subject, "must have at least three different points", len(ring))
    if not all(math.isfinite(x) and math.isfinite(y) for x, y in ring):
        raise BadValue(subject, "must have finite coordinates", ring[:4])
    polygon = _polygon(ring)
    if not polygon.is_valid:
        raise BadValue(subject, "must not cross or touch itself", shapely.is_valid_reason(polygon))
    if polygon.area <= 0:
        raise BadValue(subject, "must enclose an area", polygon.area)
    return ring if polygon.exterior.is_ccw else (ring[0], *ring[:0:-1])


def _polygon(ring: Ring) -> Polygon:
    return shapely.polygons(np.array(ring))


def turned(ring: Ring, *, flip: bool, half_turn: bool) -> Ring:
    """Mirrored in x if ``flip``, then turned half a turn about the origin if ``half_turn``; stays anticlockwise."""
    sx = (-1.0 if flip else 1.0) * (-1.0 if half_turn else 1.0)
    sy = -1.0 if half_turn else 1.0
    moved = tuple((sx * x, sy * y) for x, y in ring)
    return moved[::-1] if flip else moved


def shifted(ring: Ring, dx: float, dy: float) -> Ring:
    """The ring moved by (dx, dy)."""
    return tuple((x + dx, y + dy) for x, y in ring)


def box(ring: Ring) -> tuple[float, float, float, float]:
    """Least x, least y, greatest x, greatest y."""
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return min(xs), min(ys), max(xs), max(ys)


@lru_cache(maxsize=512)
def area(ring: Ring) -> float:
    """Area inside the ring, mm²."""
    return float(_polygon(ring).area)


@lru_cache(maxsize=512)
def grown(ring: Ring, by: float) -> Polygon:
    """A polygon that holds every point within ``by`` of the ring's inside; at corners a trace more (0.5 % of ``by``).

    Rings of very many points are first simplified and grown by ``CUT_OUTLINE`` more, so the result still holds them.
    """
    polygon = Polygon(ring)
    if len(ring) > _MANY_POINTS:
        polygon, by = polygon.simplify(CUT_OUTLINE), by + CUT_OUTLINE
    if by <= 0:
        return polygon
    wide = polygon.buffer(by / math.cos(math.pi / (4 * _QUARTER)), quad_segs=_QUARTER)
    return Polygon(wide.exterior)


def clashes(outlines: Sequence[Ring], clearance: float) -> list[tuple[int, int]]:
    """Pairs that overlap or lie nearer than ``clearance``; exact, by true distances between the outlines."""
    polygons = [Polygon(ring) for ring in outlines]
    tree = shapely.STRtree(polygons)
    found: list[tuple[int, int]] = []
    for i, polygon in enumerate(polygons):
        near = tree.query(polygon, predicate="dwithin", distance=max(clearance, CUT_TOUCH))
        found += [(i, int(j)) for j in sorted(near) if i < j and _clash(polygon, polygons[int(j)], clearance)]
    return found


def _clash(a: Polygon, b: Polygon, clearance: float) -> bool:
    if clearance > 0 and not a.intersects(b):
        return bool(a.distance(b) < clearance - CUT_TOUCH)
    if clearance > CUT_TOUCH:
        return True
    # Outlines that only touch share an area of rounding size: at most their common border times CUT_TOUCH.
    shared = a.intersection(b)
    return bool(shared.area > CUT_TOUCH * max(1.0, shared.length))
