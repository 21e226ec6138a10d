"""The finished garment laid flat: its pieces joined at the sides, wrapped round them and folded at the crotch.

Both panels share one level for every height. The body is unrolled from the centre front to the centre back; the flat
garment folds half way round. At the crotch it folds where front and back have come equally far down, so that the
gusset shows partly in front and partly behind.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final, Literal

import numpy as np
import shapely

from galloon.geometry import Points, coordinates
from galloon.materials import Cloth
from galloon.pieces import Garment, Piece, PieceEdge, repeat_lies, scallop_outline, straps_of
from galloon.sheets.flat_sides import Place, Sides, View, sides_of
from galloon.sheets.flat_trims import trim_on
from galloon.sheets.lace_picture import spans
from galloon.sheets.words import finish_of
from galloon.styling import Laid

StrokeKind = Literal["finish", "seam", "elastic", "valley"]
#: Width of the second line along an elastic edge of unknown width, mm.
_ELASTIC: Final = 8.0
#: How far the end of a strap is drawn under its panel, mm.
_UNDER: Final = 8.0
_FAR: Final = 1e5


@dataclass(frozen=True, eq=False)
class Patch:
    """Half a piece as one view shows it, x from the centre line: its area, its lines by kind, its cloth.

    ``lie`` is the direction (degrees) of its cloth's length; ``single`` where it lies on one half only, or is drawn
    whole; ``strap`` where it is no cloth but a strap across an open side. ``repeat`` is where a repeat of a lace with a
    picture lies: its corner, and where its length and its width end.
    """

    piece: Piece
    cloth: Cloth
    area: Any
    strokes: tuple[tuple[StrokeKind, Any], ...]
    lie: float
    single: bool = False
    strap: bool = False
    repeat: Points | None = None

    def mapped(self, change: Callable[[Any], Any]) -> Patch:
        """The patch with its area and lines changed alike."""
        strokes = tuple((kind, change(line)) for kind, line in self.strokes)
        return replace(self, area=_areas(change(_areas(self.area))), strokes=strokes)

    def placed(self, place: Place) -> Patch:
        """The patch with all its points placed anew."""
        patch = self.mapped(_placed(place))
        if patch.repeat is None:
            return patch
        x, y = place(patch.repeat.real, patch.repeat.imag)
        return replace(patch, repeat=np.asarray(x + 1j * y))


def _areas(shape: Any) -> Any:
    """What of a shape is area, made sound where mapping has folded it over itself: lines and points are rounding."""
    sound = shape if shapely.is_valid(shape) else shapely.make_valid(shape)
    if sound.geom_type in ("Polygon", "MultiPolygon"):
        return sound
    return shapely.union_all([part for part in shapely.get_parts(sound) if part.geom_type.endswith("Polygon")])


def lay_flat(garment: Garment) -> dict[View, tuple[Patch, ...]]:
    """What each view shows of the outer pieces, the uppermost last; mm, y as in the block.

    The gusset comes first, for a lace may lap over it.
    """
    sides = sides_of(garment)
    crotch, gusset_top = _crotch(garment)
    shown: dict[View, list[Patch]] = {"front": [], "back": []}
    panels = sorted((p for p in garment.outer if not p.part.laid_on), key=lambda piece: piece.part.covers != "gusset")
    for seen_from, strap in _straps(garment, sides):
        shown[seen_from].append(strap)
    patches = [(piece, _patch(garment, piece)) for piece in panels]
    patches += _laid_patches(garment, panels)
    patches += [(piece, trim) for piece in panels for trim in trims_of(garment, piece)]
    for piece, found in patches:
        view: View = "back" if piece.part.covers == "back" else "front"
        other: View = "front" if view == "back" else "back"
        patch = found.placed(_body_place(piece, sides, gusset_top))
        near, far = _folded(patch, _above(crotch), lambda x, y: (x, 2.0 * crotch - y))
        shown[other].append(far)
        if sides.wraps:
            near, far = _folded(near, sides.within(), sides.turn_over)
            shown[other].append(far)
        shown[view].append(near)
    return {view: tuple(patch for patch in patches if not patch.area.is_empty) for view, patches in shown.items()}


def _straps(garment: Garment, sides: Sides) -> Iterator[tuple[View, Patch]]:
    """The straps across open sides, each folded where the garment folds; their ends go under the panels."""
    for strap in straps_of(garment):
        piece, half = garment.piece(strap.front_piece), 0.5j * strap.front.wide
        one = _eased(sides, "front", strap.front.at)
        other = _eased(sides, "back", strap.back.at)
        unrolled = complex(2.0 * float(np.interp(other.imag, sides.levels, sides.fold)) - other.real, other.imag)
        one, unrolled = one - _UNDER, unrolled + _UNDER
        area = _area(np.array([one - half, unrolled - half, unrolled + half, one + half]))
        edges = [shapely.linestrings(coordinates(np.array([one + side, unrolled + side]))) for side in (half, -half)]
        strokes: tuple[tuple[StrokeKind, Any], ...] = tuple(("finish", edge) for edge in edges)
        patch = Patch(piece, garment.design.cloths[piece.part.cloth], area, strokes, 0.0, strap=True)
        near, far = _folded(patch, sides.within(), sides.turn_over)
        yield "front", near
        yield "back", far


def _eased(sides: Sides, view: View, point: complex) -> complex:
    x, y = sides.ease(view)(np.array([point.real]), np.array([point.imag]))
    return complex(float(x[0]), float(y[0]))


def _laid_patches(garment: Garment, panels: Sequence[Piece]) -> Iterator[tuple[Piece, Patch]]:
    """What is laid on the panels, each with the panel whose place it takes: pieces with the panel's own measures once,
    a strip over a seam as it shows on either side.
    """
    once: set[str] = set()
    for host in panels:
        for laid in host.part.laid:
            piece = garment.piece(laid.name)
            if laid.outline is not None:
                yield host, _strip_patch(garment, piece, laid)
            elif laid.name not in once:
                once.add(laid.name)
                yield host, replace(_patch(garment, piece), single=not both_halves(piece))


def _strip_patch(garment: Garment, piece: Piece, laid: Laid) -> Patch:
    seen, ring = (shapely.make_valid(shapely.polygons(coordinates(points))) for points in (laid.seen, laid.ring))
    strokes: tuple[tuple[StrokeKind, Any], ...] = (
        ("finish", shapely.boundary(seen)),
        ("valley", shapely.boundary(ring)),
    )
    return Patch(piece, garment.design.cloths[laid.cloth], seen, strokes, laid.along)


def both_halves(piece: Piece) -> bool:
    """Whether the drawn piece stands for half of a symmetrical whole."""
    return piece.part.fold is not None or piece.part.mirrored or piece.part.quantity > 1


def _body_place(piece: Piece, sides: Sides, gusset_top: float) -> Place:
    """From a piece's own place to that on its panel; a gusset hangs from the front."""
    covers = piece.part.covers
    if covers == "gusset":
        return lambda x, y: (x, y + gusset_top)
    return sides.ease(covers) if covers in ("front", "back") else lambda x, y: (x, y)


def _placed(place: Place) -> Callable[[Any], Any]:
    return lambda shape: shapely.transform(shape, lambda points: np.column_stack(place(points[:, 0], points[:, 1])))


def _folded(patch: Patch, region: Any, over: Place) -> tuple[Patch, Patch]:
    """What lies within a region, and what lies beyond it, turned over."""
    near = patch.mapped(lambda shape: shapely.intersection(shape, region))
    far = patch.mapped(lambda shape: shapely.difference(shape, region))
    return near, far.placed(over)


def _above(level: float) -> Any:
    return shapely.box(-_FAR, level, _FAR, _FAR)


def _crotch(garment: Garment) -> tuple[float, float]:
    """The level the garment folds at between the legs, and the level of the gusset's front seam."""
    front, back = _seam_level(garment, "front"), _seam_level(garment, "back")
    apart = [piece for piece in garment.covering("gusset") if piece.part.covers == "gusset"]
    lengths = [float(np.ptp(piece.stitch.imag)) for piece in apart]
    return (front + back - max(lengths, default=0.0)) / 2.0, front


def _seam_level(garment: Garment, body: View) -> float:
    pieces = garment.covering(body)
    names = ("gusset", f"{body} gusset")
    found = [(piece, edge.name) for piece in pieces for edge in piece.edges if edge.name in names]
    levels = [float(piece.edge_points(name).imag.mean()) for piece, name in found]
    return min(levels or [float(piece.stitch.imag.min()) for piece in pieces] or [0.0])


def _patch(garment: Garment, piece: Piece) -> Patch:
    """A piece as sewn: no allowances, scallops standing out from their valley line."""
    outlines = [_finished(piece, edge) for edge in piece.edges]
    ring = np.concatenate([points[:-1] for points in outlines])
    strokes: list[tuple[StrokeKind, Any]] = []
    for edge, points in zip(piece.edges, outlines, strict=True):
        strokes += _edge_strokes(garment, piece, edge, points)
    area = _area(ring)
    for edge in piece.edges:
        if (trim := trim_on(garment, piece, edge)) is not None:
            area = shapely.difference(area, _area(trim.instead))
    kept = tuple((kind, shapely.intersection(line, shapely.buffer(area, 0.01))) for kind, line in strokes)
    return Patch(
        piece, garment.design.cloths[piece.part.cloth], area, kept, _lie(piece), repeat=_repeat(garment, piece)
    )  # fmt: skip


def _repeat(garment: Garment, piece: Piece) -> Points | None:
    """A repeat of her own lace in the middle of a piece: its corner, and where its length and its width end."""
    cloth = garment.design.cloths[piece.part.cloth]
    lies = repeat_lies(piece, cloth)
    if cloth.picture is None or lies is None:
        return None
    (corner, along), (length, width) = lies, spans(cloth)
    middle = complex(piece.stitch.mean() - corner) / along
    corner += round(middle.real / length - 0.5) * length * along
    return np.array([corner, corner + length * along, corner + width * along * 1j])


def _lie(piece: Piece) -> float:
    """Degrees from the x axis to the length of a piece's lace."""
    return math.degrees(cmath.phase(piece.strip.along)) if piece.strip else piece.part.greatest_stretch


def trims_of(garment: Garment, piece: Piece) -> Iterator[Patch]:
    """The laces laid on the edges of a piece."""
    for edge in piece.edges:
        if (trim := trim_on(garment, piece, edge)) is not None:
            lines = [shapely.linestrings(coordinates(line)) for line in (trim.outer, trim.inner)]
            yield Patch(piece, trim.cloth, _area(trim.ring), (("finish", lines[0]), ("seam", lines[1])), _lie(piece))


def _area(ring: Points) -> Any:
    return shapely.make_valid(shapely.polygons(coordinates(ring)))


def _finished(piece: Piece, edge: PieceEdge) -> Points:
    """The edge as sewn: a scallop's own outline, cut off where the neighbouring edges run on."""
    points, strip = piece.edge_points(edge.name), piece.strip
    if strip is None or edge.finish not in ("scallop", "lapped") or edge.name not in (strip.edge, strip.far_edge):
        return points
    start, end = complex(points[0]), complex(points[-1])
    outline = scallop_outline(strip, start, end, far=edge.name == strip.far_edge)
    ring, place = piece.stitch, (edge.start, edge.end % len(piece.stitch))
    before, after = start - complex(ring[place[0] - 1]), complex(ring[(place[1] + 1) % len(ring)]) - end
    near = min(60.0, abs(end - start) / 3.0)
    beyond = (np.imag(np.conj(before) * (outline - start)) < 0.0) & (np.abs(outline - start) < near)
    beyond |= (np.imag(np.conj(after) * (outline - end)) < 0.0) & (np.abs(outline - end) < near)
    return np.concatenate([[start], outline[1:-1][~beyond[1:-1]], [end]])


def _edge_strokes(garment: Garment, piece: Piece, edge: PieceEdge, outline: Points) -> list[tuple[StrokeKind, Any]]:
    """The lines an edge shows: none at a fold."""
    if edge.finish == "fold":
        return []
    line = shapely.linestrings(coordinates(outline))
    if edge.finish in ("scallop", "lapped"):
        return [("finish", line), ("valley", shapely.linestrings(coordinates(piece.edge_points(edge.name))))]
    if edge.finish == "trim":
        return []
    if edge.finish == "seam":
        return [("seam", line)]
    finish = finish_of(garment.design, piece, edge)
    wide = finish.elastic.width if finish and finish.elastic else abs(edge.allowance) or _ELASTIC
    ahead = np.gradient(outline)
    inner = outline + 1j * ahead / np.abs(ahead) * wide
    return [("finish", line), ("elastic", shapely.linestrings(coordinates(inner)))]
