"""An outline as convex parts that fill it without overlap: one straight line shows two of them to be apart."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
import shapely
from shapely.geometry import Polygon

from galloon.cutting.outlines import Point, Ring, grown
from galloon.cutting.sections import Floats

#: A corner may turn inwards by this much (twice an area, mm²) and still count as straight.
_STRAIGHT = 1e-9


@lru_cache(maxsize=256)
def convex_parts(ring: Ring) -> tuple[Floats, ...]:
    """Convex parts of the outline, each anticlockwise of shape (corners, 2).

    Triangles first; then every line between two parts is left out where the parts together are still convex. That is at
    most four times as many parts as there could be at best (Hertel and Mehlhorn 1983, from memory). Outlines of very
    many points are simplified outwards as for all planning.
    """
    triangles = shapely.constrained_delaunay_triangles(Polygon(grown(ring, 0.0).exterior)).geoms
    loops = [_anticlockwise(triangle) for triangle in triangles]
    owner = {side: number for number, loop in enumerate(loops) for side in _sides(loop)}
    for a, b in sorted(owner):
        one, two = owner.get((a, b)), owner.get((b, a))
        if one is None or two is None:
            continue
        joined = _joined(loops[one], loops[two], (a, b))
        if _convex(joined):
            loops[one], loops[two] = joined, []
            del owner[a, b], owner[b, a]
            owner.update(dict.fromkeys(_sides(joined), one))
    return tuple(np.array(loop) for loop in loops if loop)


def _anticlockwise(triangle: Polygon) -> list[Point]:
    points = [(float(x), float(y)) for x, y in triangle.exterior.coords[:-1]]
    return points if triangle.exterior.is_ccw else points[::-1]


def _sides(loop: list[Point]) -> list[tuple[Point, Point]]:
    return list(zip(loop, (*loop[1:], *loop[:1]), strict=True))


def _joined(one: list[Point], two: list[Point], line: tuple[Point, Point]) -> list[Point]:
    """Both loops without the line between them, which ``one`` runs from a to b and ``two`` from b to a."""
    a, b = line
    at, to = one.index(b), two.index(a)
    return [*one[at:], *one[:at], *[point for point in (*two[to + 1 :], *two[:to]) if point != b]]


def _convex(loop: list[Point]) -> bool:
    points = np.array(loop)
    step = np.roll(points, -1, axis=0) - points
    after = np.roll(step, -1, axis=0)
    return bool((step[:, 0] * after[:, 1] - step[:, 1] * after[:, 0] >= -_STRAIGHT).all())
