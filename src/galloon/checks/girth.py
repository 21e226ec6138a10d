"""The panels of one garment as bands of a girth or of an opening, piece by piece and layer by layer."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator

import numpy as np
import shapely

from galloon.drafting import Edge
from galloon.geometry import Points, coordinates, unit
from galloon.materials.tension import Band, Stretchiness, stretchiness, together
from galloon.pieces import Garment, Piece
from galloon.styling import Laid, layers_of, usual_angle

#: Spans shorter than this (mm) are rounding, not cloth.
_NOTHING = 0.05


def layers(garment: Garment, piece: Piece, direction: complex, laid: Iterable[Laid] = ()) -> Stretchiness:
    """How a piece with its lining, and with what is laid on it, stretches along ``direction`` on the pattern.

    Layers sewn together round their edges stretch as one: stiffnesses add. Behind a part that is laid on with the
    cloth cut away the piece's own cloth is gone.
    """
    design, laid = garment.design, tuple(laid)
    turn = math.degrees(math.atan2(direction.imag, direction.real))
    cloth = design.cloths[piece.part.cloth]
    covers = piece.part.covers
    linings = layers_of(design, covers)[1:] if covers in ("front", "back", "gusset") else ()
    outer = [] if any(one.cut_away for one in laid) else [stretchiness(cloth, turn - cloth_angle(garment, piece))]
    return together(
        [
            *outer,
            *(stretchiness(design.cloths[name], turn - usual_angle(design.cloths[name])) for name in linings),
            *(stretchiness(design.cloths[one.cloth], turn - one.along) for one in laid),
        ]
    )


def cloth_angle(garment: Garment, piece: Piece) -> float:
    """Degrees from the piece's x axis to the length of its cloth."""
    cloth = garment.design.cloths[piece.part.cloth]
    across = 0.0 if cloth.stretches_most == "length" else 90.0
    return piece.part.greatest_stretch + across


def edge_bands(garment: Garment, name: str) -> list[Band]:
    """Panels' edges called ``name`` as bands in series: one leg, or the whole waist (both halves).

    Where another part is laid on the panel the edge is divided: what it covers is a band of its own.
    """
    both = 2.0 if name == "waist" else 1.0
    bands = []
    for piece in garment.outer:
        for edge in piece.edges:
            if edge.name == name and not piece.part.laid_on:
                chord = chord_of(piece.part.edge(name))
                spans = _covered(piece, edge.length, piece.edge_points(name))
                bands += [
                    Band(_named(piece, laid), both * span, layers(garment, piece, chord, laid)) for laid, span in spans
                ]
    return bands


def _covered(piece: Piece, length: float, points: Points) -> Iterator[tuple[tuple[Laid, ...], float]]:
    """What is laid on an edge and how much of its length (mm) each part covers; together they make the whole edge."""
    rest = length
    if piece.part.laid:
        path = shapely.linestrings(coordinates(points))
        for laid, area in _areas(piece.part.laid):
            span = min(rest, float(shapely.length(shapely.intersection(path, area))))
            if span > _NOTHING:
                rest -= span
                yield laid, span
    if rest > _NOTHING or rest == length:
        yield (), rest


def _areas(laid: tuple[Laid, ...]) -> Iterator[tuple[tuple[Laid, ...], shapely.Geometry]]:
    """The area of each laid part less those before it, a hair wider, so that an edge on its border is covered."""
    before = shapely.Polygon()
    for one in laid:
        area = shapely.buffer(shapely.polygons(coordinates(one.ring)), 0.02, quad_segs=1)
        yield (one,), shapely.difference(area, before)
        before = shapely.union(before, area)


def _named(piece: Piece, laid: tuple[Laid, ...]) -> str:
    if not laid:
        return piece.name
    return laid[0].name if laid[0].cut_away else f"{piece.name} with {laid[0].name}"


def chord_of(edge: Edge) -> complex:
    """Unit direction from the start of an edge to its end."""
    return unit(edge.end - edge.start)


def hip_bands(garment: Garment, *bodies: str) -> list[Band]:
    """Front and back (or only ``bodies``) at the hip as bands round the whole body, piece by piece.

    The pieces share the width as a level line across them is divided; the line lies at hip level, or where the side
    seam comes nearest to it, and is widened there by what the side seam stands in.
    """
    found = []
    for body in bodies or ("front", "back"):
        level = measured_level(garment)
        spans = [span for piece in garment.covering(body) for span in _level_spans(piece, level)]
        total = sum(width for _, _, width in spans)
        if total > 0.0:
            wider = 2.0 * (total + garment.frame.side.inset_at(-level)) / total
            found += [
                Band(_named(piece, laid), wider * width, layers(garment, piece, 1.0 + 0.0j, laid))
                for piece, laid, width in _joined(spans)
            ]
    return found


def measured_level(garment: Garment) -> float:
    """Where girth is measured on the pieces (y, mm): hip level held between both ends of the side seam."""
    draft, hip = garment.draft, garment.frame.side.hip
    return -min(max(hip, draft.side_drop + 1.0), max(draft.side_drop + 1.0, draft.leg - 1.0))


def _joined(
    spans: list[tuple[Piece, tuple[Laid, ...], float]],
) -> Iterator[tuple[Piece, tuple[Laid, ...], float]]:
    """Spans of one piece under the same laid parts as one."""
    done: dict[tuple[str, tuple[str, ...]], tuple[Piece, tuple[Laid, ...], float]] = {}
    for piece, laid, width in spans:
        key = (piece.name, tuple(one.name for one in laid))
        before = done[key][2] if key in done else 0.0
        done[key] = (piece, laid, before + width)
    return iter(done.values())


def _level_spans(piece: Piece, level: float) -> Iterator[tuple[Piece, tuple[Laid, ...], float]]:
    """The widths (mm, on the drawn half) a level line crosses on a piece, divided where another part lies on it."""
    cuts = crossings(piece.stitch, level)
    over = [(one, crossings(one.ring, level)) for one in piece.part.laid]
    places = sorted({*cuts, *(x for _, xs in over for x in xs if cuts and cuts[0] < x < cuts[-1])})
    for low, high in itertools.pairwise(places):
        middle = (low + high) / 2.0
        if high - low > _NOTHING and _inside(cuts, middle):
            yield piece, tuple(one for one, xs in over if _inside(xs, middle)), high - low


def _inside(cuts: tuple[float, ...], x: float) -> bool:
    return sum(cut < x for cut in cuts) % 2 == 1


def crossings(ring: Points, level: float) -> tuple[float, ...]:
    """Where a closed ring crosses the level line (x, rising)."""
    below = ring.imag < level
    crosses = below != np.roll(below, -1)
    a, b = ring[crosses], np.roll(ring, -1)[crosses]
    return tuple(np.sort(a.real + (level - a.imag) * (b.real - a.real) / (b.imag - a.imag)).tolist())
