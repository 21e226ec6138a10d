"""What every piece laid on a panel needs: the panels it lies on, its outline as edges, and its mark on each of them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, Final

import numpy as np
import shapely

from galloon.design import Design
from galloon.drafting import Edge, Frame
from galloon.geometry import Points, coordinates, flatten, map_curve, mirrored, reversed_curve, ring_area
from galloon.geometry.cubic import polyline
from galloon.materials import Cloth, Kind
from galloon.styling import Laid, Part

#: Corners of an outline that turn by more than this (degrees) end an edge.
_CORNER: Final = 30.0
#: A stretch of an outline within this (mm) of a panel's edge lies along it.
_ALONG: Final = 0.02
#: Slivers below this area (mm²) or this length (mm) are rounding.
_SLIVER: Final = 1.0
_SHORT: Final = 0.05


def hosts(parts: Iterable[Part], body: str) -> tuple[Part, ...]:
    """The outer panels that make ``body`` and that something can be laid on."""
    return tuple(part for part in parts if body in part.bodies and not part.lining and not part.laid_on)


@dataclass(frozen=True)
class Seat:
    """What is laid on the ``panel``: its parts. ``wide`` is the half girth where it is the back of a one-piece wrap,
    whose own measures start at the centre front; else None.
    """

    panel: str
    on: tuple[Part, ...]
    wide: float | None

    @cached_property
    def drawn(self) -> Any:
        """The parts as they are drawn."""
        return shapely.union_all([area_of(outline_of(part)) for part in self.on], grid_size=1e-6)

    @property
    def folded(self) -> bool:
        """Whether both halves are one piece at the panel's own centre line."""
        return self.wide is None and any(part.fold for part in self.on)

    def to_parts(self, area: Any) -> Any:
        """An area in the panel's own measures, in those of its parts."""
        if self.wide is None:
            return area
        right = shapely.intersection(area, shapely.box(0.0, -1e4, 1e4, 1e4))
        left = shapely.intersection(area, shapely.box(-1e4, -1e4, 0.0, 1e4))
        return shapely.union(_moved_across(right, -self.wide), _moved_across(left, self.wide))

    def to_panel(self, area: Any) -> Any:
        """An area of the drawn half, in the panel's own measures."""
        return area if self.wide is None else _moved_across(mirrored_area(area), self.wide)


def seat_of(parts: Iterable[Part], panel: str, frame: Frame) -> Seat:
    """The parts of ``panel`` as something can be laid on them."""
    on = hosts(parts, panel)
    wrapped = panel == "back" and any(part.covers == "wrap" for part in on)
    return Seat(panel, on, frame.front_hip + frame.back_hip if wrapped else None)


def _moved_across(area: Any, by: float) -> Any:
    return shapely.transform(area, lambda points: points + np.array([by, 0.0]))


def outline_of(part: Part) -> Points:
    """The stitch line of a part, flattened; first point not repeated."""
    return np.concatenate([flatten(edge.curve)[:-1] for edge in part.panel.edges])


def area_of(ring: Points | Sequence[complex]) -> Any:
    """The area inside a ring."""
    return shapely.polygons(coordinates(np.asarray(ring, dtype=np.complex128)))


def mirrored_area(area: Any) -> Any:
    """The area mirrored about the centre line."""
    return shapely.transform(area, lambda points: points * np.array([-1.0, 1.0]))


def polygons_of(area: Any) -> tuple[Any, ...]:
    """The polygons of an area, slivers left out, the largest first; holes are filled."""
    found = [shapely.polygons(shapely.get_exterior_ring(one)) for one in shapely.get_parts(area) if _is_polygon(one)]
    kept = [one for one in found if one.area > _SLIVER]
    return tuple(sorted(kept, key=lambda one: -one.area))


def _is_polygon(shape: Any) -> bool:
    return bool(shape.geom_type == "Polygon" and not shape.is_empty)


def ring_of_area(polygon: Any) -> Points:
    """The outline of a polygon, anticlockwise, first point not repeated."""
    points = shapely.get_coordinates(shapely.get_exterior_ring(polygon))[:-1]
    ring = np.asarray(points[:, 0] + 1j * points[:, 1], dtype=np.complex128)
    return ring if ring_area(ring) > 0.0 else ring[::-1]


def bare_allowance(cloth: Cloth, design: Design) -> float:
    """Cloth beyond a free edge (mm): none where it does not ravel, a seam allowance to turn under where it may."""
    return design.allowances.seam if cloth.kind is Kind.RIGID else 0.0


def dressed_ring(ring: Points, on: Sequence[Part], *, free: str, bare: float, fold: bool) -> tuple[Edge, ...]:
    """The ring of a laid part as edges: those along an edge of a panel in ``on`` keep its name and its allowance, the
    rest are called ``free``, end at corners and are cut ``bare`` mm beyond their stitching.

    With ``fold`` what lies on the centre line is a fold.
    """
    owners = _owners(ring, on)
    turns = _turns(ring)
    starts = [i for i in range(len(ring)) if owners[i] != owners[i - 1] or (owners[i] is None and turns[i] > _CORNER)]
    starts = starts or [0]
    edges: list[Edge] = []
    for start, stop in zip(starts, [*starts[1:], starts[0] + len(ring)], strict=True):
        points = [complex(ring[i % len(ring)]) for i in range(start, stop + 1)]
        edges.append(_edge(points, owners[start], free, bare, fold))
    return _named_apart(edges)


def _edge(points: list[complex], owner: tuple[Part, Edge] | None, free: str, bare: float, fold: bool) -> Edge:
    if owner is None:
        return Edge(free, polyline(points), "lapped", bare)
    part, edge = owner
    if edge.name == part.fold:
        return Edge(edge.name, polyline(points), "fold" if fold else "lapped")
    finish = "seam" if edge.finish == "lapped" else edge.finish
    return Edge(edge.name, polyline(points), finish, edge.allowance, f"{part.name}/{edge.name}")


def _named_apart(edges: list[Edge]) -> tuple[Edge, ...]:
    """Edges of one name numbered from the second on."""
    seen: dict[str, int] = {}
    done = []
    for edge in edges:
        count = seen[edge.name] = seen.get(edge.name, 0) + 1
        done.append(edge if count == 1 else replace(edge, name=f"{edge.name} {count}"))
    return tuple(done)


def _turns(ring: Points) -> Points:
    """Degrees by which the outline turns at each point."""
    after = np.roll(ring, -1) - ring
    before = ring - np.roll(ring, 1)
    return np.abs(np.degrees(np.angle(after / before)))


def _owners(ring: Points, on: Sequence[Part]) -> list[tuple[Part, Edge] | None]:
    """For each side of the ring the panel's edge it lies along; None where it lies along none."""
    ends = np.roll(ring, -1)
    sides = shapely.linestrings(np.stack([coordinates(ring), coordinates(ends)], axis=1))
    found: list[tuple[Part, Edge] | None] = [None] * len(ring)
    folds: dict[str, tuple[Part, Edge]] = {}
    for part in on:
        for edge in part.panel.edges:
            if _inside_seam(edge, part, on):
                continue
            owner = (part, edge) if edge.name != part.fold else folds.setdefault(edge.name, (part, edge))
            near = shapely.buffer(shapely.linestrings(coordinates(flatten(edge.curve))), _ALONG, quad_segs=2)
            shapely.prepare(near)
            for index in np.flatnonzero(shapely.covers(near, sides)):
                found[int(index)] = found[int(index)] or owner
    return found


def _inside_seam(edge: Edge, part: Part, on: Sequence[Part]) -> bool:
    """Whether an edge joins two of the panels the piece lies over."""
    partner = (edge.sewn_to or "").partition("/")[0]
    return partner != part.name and any(other.name == partner for other in on)


def without_short(ring: Points) -> Points:
    """The ring without sides too short to be drawn."""
    keep = np.abs(ring - np.roll(ring, 1)) > _SHORT
    return ring[keep] if keep.sum() >= 3 else ring


def lay_on(parts: tuple[Part, ...], host: Part, laid: Laid) -> tuple[Part, ...]:
    """The parts with ``laid`` on ``host``."""
    return tuple(replace(part, laid=(*part.laid, laid)) if part.name == host.name else part for part in parts)


def free_name(parts: Iterable[Part], wanted: str) -> str:
    """A name no part has yet: ``wanted``, or that with a number."""
    taken = {part.name for part in parts}
    return next(name for name in (wanted, *(f"{wanted} {n}" for n in range(2, 99))) if name not in taken)


def mirrored_part(part: Part) -> Part:
    """The other half of a part, under the same name."""
    edges = tuple(
        replace(edge, curve=map_curve(reversed_curve(edge.curve), mirrored)) for edge in reversed(part.panel.edges)
    )
    return replace(part, panel=replace(part.panel, edges=edges))
