"""The panels of one garment as bands of a girth or of an opening, piece by piece and layer by layer."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Literal

import numpy as np
import shapely

from galloon.drafting import Edge
from galloon.geometry import Points, coordinates, flatten, unit
from galloon.materials.tension import Band, Stretchiness, reach, stretchiness, together
from galloon.pieces import Garment, Piece, PieceEdge, Strap, gap_at, strap_stretch, straps_of, worn_strain
from galloon.said import Term, said
from galloon.styling import Laid, layers_of, usual_angle

Half = Literal["both", "right", "left"]

#: Spans shorter than this (mm) are rounding, not cloth.
_NOTHING = 0.05


def layers(garment: Garment, piece: Piece, direction: complex, laid: Iterable[Laid] = ()) -> Stretchiness:
    """How a piece with its lining, and with what is laid on it, stretches along ``direction`` on the pattern.

    Layers sewn together round their edges stretch as one: stiffnesses add. Behind a part that is laid on with the
    cloth cut away the piece's own cloth is gone.
    """
    design, laid = garment.design, tuple(laid)
    if any(one.rigid for one in laid):
        return Stretchiness(math.inf, 0.0)
    turn = math.degrees(math.atan2(direction.imag, direction.real))
    cloth = design.cloths[piece.part.cloth]
    covers = "front" if piece.part.covers == "wrap" else piece.part.covers
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

    Where another part is laid on the panel the edge is divided: what it covers is a band of its own. Of two legs that
    differ, the one that opens less. Across an open side goes the strap nearest to that edge.
    """
    halves = [_edge_bands(garment, name, half) for half in _halves(garment.outer)]
    if name == "waist":
        whole = [replace(band, width=band.width * 2.0 / len(halves)) for bands in halves for band in bands]
        return [*whole, *strap_bands(garment, *straps_of(garment)[:1], sides=2)]
    strap = strap_bands(garment, *straps_of(garment)[-1:], sides=1)
    return [*min(halves, key=lambda bands: reach(bands)[0]), *strap]


def strap_bands(garment: Garment, *straps: Strap, sides: int) -> list[Band]:
    """Straps of open sides as bands of an opening, so many ``sides`` of them; none where the sides are not open."""
    side = garment.design.open_side
    if side is None or not straps:
        return []
    stretch = strap_stretch(garment, side)
    return [Band(Term(side.elastic.name), sides * strap.relaxed, stretch, strap=True) for strap in straps]


def gap_bands(garment: Garment, level: float) -> list[Band]:
    """What bridges both open sides at a level (y, mm), as a band; none where the sides are not open."""
    side, gap = garment.design.open_side, gap_at(garment, level)
    if side is None or gap <= 0.0:
        return []
    relaxed = 2.0 * gap / (1.0 + worn_strain(garment, side))
    return [Band(Term(side.elastic.name), relaxed, strap_stretch(garment, side), strap=True)]


def _halves(pieces: Iterable[Piece]) -> tuple[Half, ...]:
    """One stands for both halves of the body, unless something is laid on one of them only."""
    alike = all(laid.half == "both" for piece in pieces for laid in piece.part.laid)
    return ("both",) if alike else ("right", "left")


def _laid(piece: Piece, half: Half) -> tuple[Laid, ...]:
    return tuple(one for one in piece.part.laid if half in (one.half, "both") or one.half == "both")


def _edge_bands(garment: Garment, name: str, half: Half) -> list[Band]:
    """The edges of one half."""
    bands = []
    for piece in garment.outer:
        for edge in piece.edges:
            if _makes(edge, name) and not piece.part.laid_on:
                chord = chord_of(piece.part.edge(edge.name))
                spans = _covered(_laid(piece, half), edge.length, piece.edge_points(edge.name))
                bands += [Band(_named(piece, laid), span, layers(garment, piece, chord, laid)) for laid, span in spans]
    return bands


def _makes(edge: PieceEdge, name: str) -> bool:
    """Whether an edge is part of an opening: a panel grown together with another has a "front leg" and a "back leg"."""
    return edge.name == name or (edge.sewn_to is None and edge.name.split()[-1] == name)


def _covered(laid_here: tuple[Laid, ...], length: float, points: Points) -> Iterator[tuple[tuple[Laid, ...], float]]:
    """What is laid on an edge and how much of its length (mm) each part covers; together they make the whole edge."""
    rest = length
    if laid_here:
        path = shapely.linestrings(coordinates(points))
        for laid, area in _areas(laid_here):
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
        return Term(piece.name)
    over = Term(laid[0].name)
    return over if laid[0].cut_away else said("{piece} with {over}", piece=Term(piece.name), over=over)


def chord_of(edge: Edge) -> complex:
    """Unit direction from the start of an edge to its end."""
    return unit(edge.end - edge.start)


def hip_bands(garment: Garment, *bodies: str) -> list[Band]:
    """Front and back, and what bridges open sides, at the hip as bands round the whole body; or only ``bodies``.

    The pieces share the width as a level line across them is divided; the line lies at hip level, or where the side
    seam comes nearest to it, and is widened there by what the side seam stands in.
    """
    level, found = measured_level(garment), []
    for pieces, count in _bodies(garment, bodies):
        spans = _across(pieces, level)
        total = sum(width for _, _, width in spans) / 2.0
        if total > 0.0:
            wider = (total + count * garment.frame.side.inset_at(-level)) / total
            found += _as_bands(garment, spans, wider)
    return [*found, *(gap_bands(garment, level) if not bodies else ())]


def _bodies(garment: Garment, bodies: tuple[str, ...]) -> Iterator[tuple[tuple[Piece, ...], int]]:
    """The pieces of each body, and how many bodies they make: a wrap makes two and comes once."""
    seen: set[str] = set()
    for body in bodies or ("front", "back"):
        pieces = tuple(piece for piece in garment.covering(body) if piece.name not in seen)
        seen |= {piece.name for piece in pieces}
        if pieces:
            yield pieces, 2 if any(piece.part.covers == "wrap" for piece in pieces) else 1


def course_bands(garment: Garment, level: float, *bodies: str) -> list[Band]:
    """Front and back (or only ``bodies``) as a course at ``level`` (y, mm) runs round the body, both halves; round the
    whole of it across open sides too.
    """
    spans = [span for pieces, _ in _bodies(garment, bodies) for span in _across(pieces, level)]
    return [*_as_bands(garment, spans), *(gap_bands(garment, level) if not bodies else ())]


#: A piece, what lies on it there, and the width (mm) of both, left and right together.
_Span = tuple[Piece, tuple[Laid, ...], float]


def _across(pieces: Iterable[Piece], level: float) -> list[_Span]:
    """The widths a level line crosses on pieces."""
    found = []
    for piece in pieces:
        halves = _halves((piece,))
        for half in halves:
            found += [
                (piece, laid, width * 2.0 / len(halves))
                for laid, width in _level_spans(piece.stitch, _laid(piece, half), level)
            ]
    return found


def _as_bands(garment: Garment, spans: Iterable[_Span], wider: float = 1.0) -> list[Band]:
    return [
        Band(_named(piece, laid), wider * width, layers(garment, piece, 1.0 + 0.0j, laid))
        for piece, laid, width in _joined(spans)
    ]


def measured_level(garment: Garment) -> float:
    """Where girth is measured on the pieces (y, mm): hip level, held below both waist lines and above both leg lines,
    so that no panel is cut by its own leg there; half way between the two where they leave no such level.
    """
    top, foot = (
        [flatten(garment.draft.panels[name].edge(edge).curve, 0.2).imag for name in ("front", "back")]
        for edge in ("waist", "leg")
    )
    high, low = min(float(one.min()) for one in top) - 1.0, max(float(one.max()) for one in foot) + 1.0
    return min(max(-garment.frame.side.hip, low), high) if low <= high else (low + high) / 2.0


def _joined(spans: Iterable[_Span]) -> Iterator[_Span]:
    """Spans of one piece under the same laid parts as one."""
    done: dict[tuple[str, tuple[str, ...]], _Span] = {}
    for piece, laid, width in spans:
        key = (piece.name, tuple(one.name for one in laid))
        before = done[key][2] if key in done else 0.0
        done[key] = (piece, laid, before + width)
    return iter(done.values())


def _level_spans(ring: Points, laid_here: tuple[Laid, ...], level: float) -> Iterator[tuple[tuple[Laid, ...], float]]:
    """The widths (mm, on the drawn half) a level line crosses, divided where another part lies on the piece."""
    cuts = crossings(ring, level)
    over = [(one, crossings(one.ring, level)) for one in laid_here]
    places = sorted({*cuts, *(x for _, xs in over for x in xs if cuts and cuts[0] < x < cuts[-1])})
    for low, high in itertools.pairwise(places):
        middle = (low + high) / 2.0
        if high - low > _NOTHING and _inside(cuts, middle):
            yield tuple(one for one, xs in over if _inside(xs, middle)), high - low


def _inside(cuts: tuple[float, ...], x: float) -> bool:
    return sum(cut < x for cut in cuts) % 2 == 1


def crossings(ring: Points, level: float) -> tuple[float, ...]:
    """Where a closed ring crosses the level line (x, rising)."""
    below = ring.imag < level
    crosses = below != np.roll(below, -1)
    a, b = ring[crosses], np.roll(ring, -1)[crosses]
    return tuple(np.sort(a.real + (level - a.imag) * (b.real - a.real) / (b.imag - a.imag)).tolist())
