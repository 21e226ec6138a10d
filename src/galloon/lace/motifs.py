"""Motifs for applique: outlines on their place, arranged where the maker gave none, overlapping ones grown together."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
import shapely

from galloon import defaults
from galloon.design import Motif
from galloon.lace.laid_on import Seat, area_of, mirrored_area, polygons_of
from galloon.styling import Part

#: Places tried across and up for a motif without one.
_ACROSS: Final = 24
#: Detail (mm) that outlines may lose before they are drawn, and while a place is looked for.
_DRAWN: Final = 0.02
_ROUGH: Final = 0.4
#: Clearance (mm) beyond which a place gets no better.
_ENOUGH: Final = 15.0
#: Two areas are alike when they differ by less than this share.
_ALIKE: Final = 0.01


@dataclass(frozen=True)
class Bed:
    """The panels motifs are sewn on: ``area`` of the half that is drawn, ``folded`` where the other half is one with
    it, ``room`` of that half clear of every seam and edge.
    """

    area: Any
    room: Any
    folded: bool

    @property
    def whole(self) -> Any:
        """The panel, both halves."""
        return shapely.union(self.area, mirrored_area(self.area))

    @property
    def whole_room(self) -> Any:
        """The room on both halves; at a centre seam it is divided."""
        return shapely.union(self.room, mirrored_area(self.room), grid_size=1e-6)


@dataclass(frozen=True)
class Placed:
    """A motif on its place: its area on the panel (x on the other half negative) and where its origin lies."""

    motif: Motif
    area: Any
    at: complex


@dataclass(frozen=True)
class Cluster:
    """Motifs that overlap, grown together to one solid piece. ``pair`` where its mirror image lies on the other half,
    ``even`` where it is its own mirror image.
    """

    area: Any
    motifs: tuple[Motif, ...]
    pair: bool = False
    even: bool = False

    @property
    def stretches(self) -> bool:
        """Whether everything in it stretches."""
        return all(motif.stretches for motif in self.motifs)


def bed_of(seat: Seat, half_girth: float) -> Bed:
    """The bed a panel makes, clear of the stitching of what is laid on it already.

    Of a wrap it is only what lies within ``half_girth`` (mm) of the panel's own middle.
    """
    bars = [
        shapely.buffer(_line(part, edge.name), abs(edge.allowance) + defaults.MOTIF_CLEAR, quad_segs=4)
        for part in seat.on
        for edge in part.panel.edges
        if edge.name != part.fold
    ]
    laid = [area_of(one.ring) for part in seat.on for one in part.laid]
    bars += [shapely.buffer(shapely.boundary(one), defaults.MOTIF_CLEAR, quad_segs=4) for one in laid]
    room = seat.to_panel(shapely.difference(seat.drawn, shapely.union_all(bars)))
    near = shapely.box(0.0, -1e4, half_girth - defaults.MOTIF_CLEAR, 1e4)
    return Bed(seat.to_panel(seat.drawn), shapely.intersection(room, near), seat.folded)


def _line(part: Part, name: str) -> Any:
    points = [point for piece in part.edge(name).curve for point in (piece.at(t) for t in np.linspace(0.0, 1.0, 9))]
    return shapely.linestrings([(point.real, point.imag) for point in points])


def shape_of(motif: Motif) -> Any:
    """The motif's area, turned, about its own origin."""
    turn = cmath.exp(1j * math.radians(motif.turn))
    ring = np.array([complex(x, y) * turn for x, y in motif.outline])
    return shapely.simplify(area_of(ring), _DRAWN)


def shifted(area: Any, by: complex) -> Any:
    """The area moved."""
    return shapely.transform(area, lambda points: points + np.array([by.real, by.imag]))


def arrange(motifs: Iterable[Motif], bed: Bed) -> tuple[tuple[Placed, ...], tuple[Motif, ...]]:
    """Every motif on its place, those of the maker's own first, then the largest; and those that find no room."""
    placed: list[Placed] = []
    homeless: list[Motif] = []
    for motif in sorted(motifs, key=lambda one: (one.at is None, -shape_of(one).area if one.at is None else 0.0)):
        shape = shape_of(motif)
        at = complex(*motif.at) if motif.at is not None else _room_for(shape, motif, bed, placed)
        if at is None:
            homeless.append(motif)
        else:
            placed.append(Placed(motif, shifted(shape, at), at))
    return tuple(placed), tuple(homeless)


def _room_for(shape: Any, motif: Motif, bed: Bed, placed: Sequence[Placed]) -> complex | None:
    """Where a motif lies clear of everything and takes least of the width the panel has there; None without room."""
    taken = [area for one in placed for area in (one.area, mirrored_area(one.area))]
    room = shapely.difference(bed.whole_room, shapely.buffer(shapely.union_all(taken), defaults.MOTIF_CLEAR))
    if motif.mirrored or not bed.folded:
        room = shapely.intersection(room, shapely.box(defaults.MOTIF_CLEAR / 2.0, -1e4, 1e4, 1e4))
    if room.is_empty:
        return None
    rough = shapely.buffer(shapely.simplify(shape, _ROUGH), _ROUGH, quad_segs=2)
    middle = complex(rough.centroid.x, rough.centroid.y)
    left, low, right, high = shapely.bounds(room)
    x, y = np.meshgrid(_steps(left, right), _steps(low, high))
    spots = (x + 1j * y).ravel() - middle
    if not motif.mirrored and bed.folded:
        spots = np.append(spots, -middle.real + 1j * spots.imag)
    tried = np.array([shifted(rough, complex(spot)) for spot in spots])
    shapely.prepare(room)
    fits = shapely.covers(room, tried)
    if not fits.any():
        return None
    spots, tried = spots[fits], tried[fits]
    return complex(spots[int(np.argmax(_worth(tried, room, bed)))])


def _steps(low: float, high: float) -> Any:
    return np.linspace(low, high, _ACROSS + 2)[1:-1]


def _worth(tried: Any, room: Any, bed: Bed) -> Any:
    """How good each place is: clear of the edges of the room, where the panel is wide, near its middle."""
    clear = np.minimum(shapely.distance(tried, shapely.boundary(room)), _ENOUGH) / _ENOUGH
    left, low, right, high = shapely.bounds(tried).T
    levels = shapely.linestrings([[(-1e4, y), (1e4, y)] for y in (low + high) / 2.0])
    wide = shapely.length(shapely.intersection(levels, bed.whole))
    centre = shapely.centroid(tried)
    away = shapely.distance(centre, shapely.centroid(bed.area if np.all(left > 0.0) else bed.whole))
    return np.round(clear - (right - left) / np.maximum(wide, 1.0) - 0.002 * away, 9)


def clusters_of(placed: Sequence[Placed]) -> tuple[Cluster, ...]:
    """Overlapping motifs as one piece each; pairs that mirror each other once."""
    shapes = [(one.area, one.motif) for one in placed]
    shapes += [(mirrored_area(one.area), one.motif) for one in placed if one.motif.mirrored]
    unions = polygons_of(shapely.union_all([area for area, _ in shapes]))
    left = sorted(unions, key=lambda one: (-one.centroid.x, -one.centroid.y))
    found: list[Cluster] = []
    while left:
        area = left.pop(0)
        members = tuple(dict.fromkeys(motif for shape, motif in shapes if shapely.intersects(area, shape)))
        image = mirrored_area(area)
        if _alike(area, image):
            found.append(Cluster(area, members, even=True))
            continue
        twin = next((other for other in left if _alike(other, image)), None)
        if twin is not None:
            left.remove(twin)
        found.append(Cluster(area, members, pair=twin is not None))
    return tuple(found)


def _alike(one: Any, other: Any) -> bool:
    apart = shapely.area(shapely.symmetric_difference(one, other))
    return bool(apart <= _ALIKE * shapely.area(one))
