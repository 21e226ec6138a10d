"""The finished garment laid flat: its pieces joined at the sides, wrapped round them and folded at the crotch.

Both panels share one level for every height. The body is unrolled from the centre front to the centre back; the flat
garment folds half way round. At the crotch it folds where front and back have come equally far down, so that the
gusset shows partly in front and partly behind.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final, Literal

import numpy as np
import shapely
from numpy.typing import NDArray

from galloon.geometry import Points, coordinates
from galloon.materials import Cloth
from galloon.pieces import Garment, Piece, PieceEdge, scallop_outline
from galloon.sheets.words import finish_of

View = Literal["front", "back"]
StrokeKind = Literal["finish", "seam", "elastic", "valley"]
Array = NDArray[np.float64]

#: Panels whose widths differ by less than this share are eased so that the seam lies at the fold.
_EASED: Final = 0.1
#: Width of the second line along an elastic edge of unknown width, mm.
_ELASTIC: Final = 8.0
_FAR: Final = 1e5


@dataclass(frozen=True, eq=False)
class Patch:
    """Half a piece as one view shows it, x from the centre line: its area, its lines by kind, its cloth."""

    piece: Piece
    cloth: Cloth
    area: Any
    strokes: tuple[tuple[StrokeKind, Any], ...]

    def mapped(self, change: Callable[[Any], Any]) -> Patch:
        """The patch with its area and lines changed alike."""
        strokes = tuple((kind, change(line)) for kind, line in self.strokes)
        return Patch(self.piece, self.cloth, change(self.area), strokes)


def lay_flat(garment: Garment) -> dict[View, tuple[Patch, ...]]:
    """What each view shows of the outer pieces, the uppermost last; mm, y as in the block.

    The gusset comes first, for a lace may lap over it.
    """
    sides = _Sides.of(garment)
    crotch, gusset_top = _crotch(garment)
    shown: dict[View, list[Patch]] = {"front": [], "back": []}
    for piece in sorted(garment.outer, key=lambda piece: piece.part.covers != "gusset"):
        patch = _patch(garment, piece)
        view: View = "back" if piece.part.covers == "back" else "front"
        other: View = "front" if view == "back" else "back"
        if piece.part.covers == "gusset":
            patch = patch.mapped(_placed(lambda x, y: (x, y + gusset_top)))
        else:
            patch = patch.mapped(_placed(sides.ease(view)))
        near, far = _folded(patch, _above(crotch), lambda x, y: (x, 2.0 * crotch - y))
        shown[other].append(far)
        if sides.wraps:
            near, far = _folded(near, sides.within(), sides.turn_over)
            shown[other].append(far)
        shown[view].append(near)
    return {view: tuple(patch for patch in patches if not patch.area.is_empty) for view, patches in shown.items()}


def _placed(place: Callable[[Array, Array], tuple[Array, Array]]) -> Callable[[Any], Any]:
    return lambda shape: shapely.transform(shape, lambda points: np.column_stack(place(points[:, 0], points[:, 1])))


def _folded(patch: Patch, region: Any, over: Callable[[Array, Array], tuple[Array, Array]]) -> tuple[Patch, Patch]:
    """What lies within a region, and what lies beyond it, turned over."""
    near = patch.mapped(lambda shape: shapely.intersection(shape, region))
    far = patch.mapped(lambda shape: shapely.difference(shape, region))
    return near, far.mapped(_placed(over))


def _above(level: float) -> Any:
    return shapely.box(-_FAR, level, _FAR, _FAR)


@dataclass(frozen=True, eq=False)
class _Sides:
    """At some levels: half widths of both panels, where the seam lies when worn, and where the flat garment folds."""

    levels: Array
    front: Array
    back: Array
    seam: Array
    fold: Array

    @staticmethod
    def of(garment: Garment) -> _Sides:
        front, back = _profile(garment, "front"), _profile(garment, "back")
        levels = np.unique(np.concatenate([front[0], back[0]]))
        widths = [np.interp(levels, *profile) for profile in (front, back)]
        fold = (widths[0] + widths[1]) / 2.0
        apart = float(np.mean(np.abs(widths[0] - widths[1])) / np.mean(fold))
        return _Sides(levels, widths[0], widths[1], fold if apart < 2.0 * _EASED else widths[0], fold)

    @property
    def wraps(self) -> bool:
        """Whether a panel passes the fold at the side."""
        return self.seam is not self.fold

    def ease(self, view: View) -> Callable[[Array, Array], tuple[Array, Array]]:
        """Stretches or shrinks a panel across so that its side comes to the seam."""
        own = self.front if view == "front" else self.back
        wanted = self.seam if view == "front" else 2.0 * self.fold - self.seam
        return lambda x, y: (x * np.interp(y, self.levels, wanted / own), y)

    def within(self) -> Any:
        """The half plane up to the fold."""
        x = np.concatenate([[-_FAR], self.fold[[0]], self.fold, self.fold[[-1]], [-_FAR]]) + 1e-6
        y = np.concatenate([[-_FAR, -_FAR], self.levels, [_FAR, _FAR]])
        return shapely.polygons(np.column_stack([x, y]))

    def turn_over(self, x: Array, y: Array) -> tuple[Array, Array]:
        """Where what passes the fold comes to on the other side."""
        return 2.0 * np.interp(y, self.levels, self.fold) - x, y


def _profile(garment: Garment, body: View) -> tuple[Array, Array]:
    """Levels upwards, and the half width at each: along the side seams, else the greatest width."""
    pieces = garment.covering(body)
    sides = [piece.edge_points(edge.name) for piece in pieces for edge in piece.edges if edge.name == "side"]
    if not sides:
        widest = max((float(piece.stitch.real.max()) for piece in pieces), default=1.0)
        return np.array([0.0]), np.array([widest])
    points = np.concatenate(sides)
    points = points[np.argsort(points.imag, kind="stable")]
    return points.imag, points.real


def _crotch(garment: Garment) -> tuple[float, float]:
    """The level the garment folds at between the legs, and the level of the gusset's front seam."""
    front, back = _seam_level(garment, "front"), _seam_level(garment, "back")
    lengths = [float(np.ptp(piece.stitch.imag)) for piece in garment.covering("gusset")]
    return (front + back - max(lengths, default=0.0)) / 2.0, front


def _seam_level(garment: Garment, body: View) -> float:
    pieces = garment.covering(body)
    levels = [float(piece.edge_points("gusset").imag.mean()) for piece in pieces if _has(piece, "gusset")]
    return min(levels or [float(piece.stitch.imag.min()) for piece in pieces] or [0.0])


def _has(piece: Piece, name: str) -> bool:
    return any(edge.name == name for edge in piece.edges)


def _patch(garment: Garment, piece: Piece) -> Patch:
    """A piece as sewn: no allowances, scallops standing out from their valley line."""
    outlines = [_finished(piece, edge) for edge in piece.edges]
    ring = np.concatenate([points[:-1] for points in outlines])
    strokes: list[tuple[StrokeKind, Any]] = []
    for edge, points in zip(piece.edges, outlines, strict=True):
        strokes += _edge_strokes(garment, piece, edge, points)
    area = shapely.make_valid(shapely.polygons(coordinates(ring)))
    kept = tuple((kind, shapely.intersection(line, shapely.buffer(area, 0.01))) for kind, line in strokes)
    return Patch(piece, garment.design.cloths[piece.part.cloth], area, kept)


def _finished(piece: Piece, edge: PieceEdge) -> Points:
    points, strip = piece.edge_points(edge.name), piece.strip
    if strip is None or edge.finish not in ("scallop", "lapped") or edge.name not in (strip.edge, strip.far_edge):
        return points
    return scallop_outline(strip, complex(points[0]), complex(points[-1]), far=edge.name == strip.far_edge)


def _edge_strokes(garment: Garment, piece: Piece, edge: PieceEdge, outline: Points) -> list[tuple[StrokeKind, Any]]:
    """The lines an edge shows: none at a fold."""
    if edge.finish == "fold":
        return []
    line = shapely.linestrings(coordinates(outline))
    if edge.finish in ("scallop", "lapped"):
        return [("finish", line), ("valley", shapely.linestrings(coordinates(piece.edge_points(edge.name))))]
    if edge.finish == "seam":
        return [("seam", line)]
    finish = finish_of(garment.design, piece, edge)
    wide = finish.elastic.width if finish and finish.elastic else abs(edge.allowance) or _ELASTIC
    ahead = np.gradient(outline)
    inner = outline + 1j * ahead / np.abs(ahead) * wide
    return [("finish", line), ("elastic", shapely.linestrings(coordinates(inner)))]
