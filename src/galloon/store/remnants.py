"""What a cutting plan leaves of the length it takes: outlines with holes, those worth keeping."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from galloon import defaults

if TYPE_CHECKING:
    from shapely import Polygon
    from shapely.geometry.base import BaseGeometry

    from galloon.cutting import Plan, Ring

#: Outlines are made plain within this (mm); the blade's clearance is wider.
_PLAIN: Final = 0.3


@dataclass(frozen=True)
class Left:
    """A leftover (mm): x from its own left end along the cloth, y across from the edge where the plan has y = 0."""

    outline: Ring
    holes: tuple[Ring, ...]


def worth_keeping(
    plan: Plan,
    *,
    area: float = defaults.REMNANT_AREA,
    width: float = defaults.REMNANT_WIDTH,
    clear: float = defaults.REMNANT_CLEAR,
) -> tuple[Left, ...]:
    """The leftovers of at least ``area`` mm², nowhere narrower than ``width`` mm, ``clear`` mm off every piece.

    They are drawn on the whole cloth, also where the plan is for folded cloth; largest first.
    """
    import shapely

    cut = shapely.union_all([shapely.Polygon(placed.outline) for placed in plan.placed])
    free = shapely.box(0.0, 0.0, plan.length, plan.width).difference(cut.buffer(clear))
    if plan.folded:
        other = shapely.affinity.scale(free, 1.0, -1.0, origin=(0.0, 0.0))
        free = shapely.affinity.translate(shapely.union_all([free, other]), 0.0, plan.width)
        cut = shapely.affinity.translate(
            shapely.union_all([cut, shapely.affinity.scale(cut, 1.0, -1.0, origin=(0.0, 0.0))]), 0.0, plan.width
        )
    found = [one for one in _polygons(_broad(free, width)) if one.area >= area and not _cuts(one, cut)]
    return tuple(_left(one) for one in sorted(found, key=lambda one: (-one.area, one.bounds)))


def _broad(free: BaseGeometry, width: float) -> BaseGeometry:
    """What remains of ``free`` without the necks and slivers narrower than ``width``."""
    eroded = free.buffer(-width / 2.0, join_style="mitre")
    return eroded.buffer(width / 2.0, join_style="mitre").intersection(free).simplify(_PLAIN)


def _polygons(shape: BaseGeometry) -> Iterator[Polygon]:
    parts = getattr(shape, "geoms", [shape])
    return (part for part in parts if part.geom_type == "Polygon" and part.is_valid and not part.is_empty)


def _cuts(one: Polygon, cut: BaseGeometry) -> bool:
    return bool(one.intersection(cut).area > 0.0)


def _left(one: Polygon) -> Left:
    from shapely.geometry.polygon import orient

    start = one.bounds[0]
    whole = orient(one)
    rings = [
        tuple((round(x - start, 3), round(y, 3)) for x, y in list(ring.coords)[:-1])
        for ring in (whole.exterior, *whole.interiors)
    ]
    return Left(rings[0], tuple(rings[1:]))
