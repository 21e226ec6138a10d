"""The pieces of a garment laid open as they are sewn to one another: front on top, gusset, back below; for small
drawings. Without the gusset the back stands upright below the front.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import Final, Literal

import numpy as np
import shapely

from galloon.drawing import Fill, Matrix, Path, Pen, RecordingCanvas, TextStyle
from galloon.geometry import Points, coordinates, length_of, point_along
from galloon.materials import Kind
from galloon.pieces import Garment, Piece, scallop_outline

#: Room between pieces laid open, mm on the garment.
_GAP: Final = 16.0
#: Detail that a small drawing may leave out, mm on the garment.
_DETAIL: Final = 0.25

OUTLINE: Final = Pen("outline", 0.25)
LINING: Final = Pen("lining outline", 0.25, (60, 60, 60), (1.6, 1.0))
FOLD: Final = Pen("fold", 0.18, (90, 90, 90), (3.0, 1.0, 0.6, 1.0))
SEWN: Final = Pen("sewn", 1.3)
SPOT: Final = Pen("spot", 3.0)
_CLOTH: Final = Fill((247, 247, 247))
_LACE: Final = Fill((222, 222, 222))
_LETTER: Final = 4.0

#: Opened out at the crotch, one panel below the other both upright, or pieces of one panel in their own place.
Lay = Literal["open", "upright", "alone"]
Box = tuple[float, float, float, float]


def edge_line(piece: Piece, name: str) -> Points:
    """One edge as the eye sees it: the lace's scallops where it has them, else the stitch line."""
    edge, points = piece.edge(name), piece.edge_points(name)
    strip = piece.strip
    if strip is not None and edge.finish in ("scallop", "lapped") and name in (strip.edge, strip.far_edge):
        far = strip.far_edge == name and strip.edge != name
        return scallop_outline(strip, complex(points[0]), complex(points[-1]), far=far)
    return points


def _plain(points: Points) -> Points:
    line = shapely.simplify(shapely.linestrings(coordinates(points)), _DETAIL)
    found = shapely.get_coordinates(line)
    return np.asarray(found[:, 0] + 1j * found[:, 1])


@dataclass(frozen=True)
class Copy:
    """One half of a piece on the map: its edges as lines, mirrored or not, already moved to their place."""

    piece: Piece
    lines: dict[str, Points]
    left: bool

    @cached_property
    def ring(self) -> Points:
        """Its outline."""
        return np.concatenate([line[:-1] for line in self.lines.values()])


class GarmentMap:
    """Where every piece lies when the garment is spread out; computed once and drawn many times."""

    def __init__(self, garment: Garment) -> None:
        self.garment = garment
        self._lines = {
            piece.name: {edge.name: _plain(edge_line(piece, edge.name)) for edge in piece.edges}
            for piece in garment.pieces
        }

    def copies(self, names: Iterable[str]) -> list[Copy]:
        """The named pieces, both halves: opened out at the crotch where the gusset is among them, else all upright."""
        pieces = [self.garment.piece(name) for name in dict.fromkeys(names)]
        covers = {self._under(piece).part.covers for piece in pieces}
        lay: Lay = "alone" if len(covers) == 1 else "open" if "gusset" in covers else "upright"
        return [copy for piece in pieces for copy in self._placed(piece, pieces, lay)]

    def _placed(self, piece: Piece, among: Sequence[Piece], lay: Lay) -> list[Copy]:
        beside = piece.part.lining and any(not other.part.lining for other in among)
        strip = piece.part.laid_on and piece.part.covers == "side"
        halves = [False, True] if _two_halves(piece) and not strip else [False]
        return [self._copy(piece, left, lay, beside) for left in halves]

    def _copy(self, piece: Piece, left: bool, lay: Lay, beside: bool) -> Copy:
        under = self._under(piece)
        apart = _GAP / 3.0 if under.part.fold is None and _two_halves(under) and _two_halves(piece) else 0.0
        aside = (2.0 * (float(piece.stitch.real.max()) + apart) + 2.5 * _GAP) if beside else 0.0
        lift = self._lift(under)
        moved = {}
        for name, line in self._lines[piece.name].items():
            points = line + apart + 1j * lift
            points = -points.conjugate() if left else points
            points = points if lay == "alone" else self._spread(points, under.part.covers, lay)
            moved[name] = points + aside
        return Copy(piece, moved, left)

    def _under(self, piece: Piece) -> Piece:
        """The piece whose place it shares: what it is laid on, unless it is a strip over a side seam."""
        alone = not piece.part.laid_on or piece.part.covers == "side"
        return piece if alone else self.garment.piece(piece.part.laid_on[0])

    def _lift(self, piece: Piece) -> float:
        """How far pieces of one panel are drawn apart, up or down, so that the seams between them show."""
        mates = [other for other in self.garment.covering(piece.part.covers) if not other.part.laid_on]
        if len(mates) < 2 or piece.part.laid_on:
            return 0.0
        middles = sorted(float(other.stitch.imag.mean()) for other in mates)
        return _GAP * (middles.index(min(middles, key=lambda m: abs(m - float(piece.stitch.imag.mean())))))

    def _spread(self, points: Points, covers: str, lay: Lay) -> Points:
        frame = self.garment.frame
        if covers in ("front", "side"):
            return points + (0.0 if covers == "front" else frame.front_hip + 3.0 * _GAP)
        below = -frame.front_depth - _GAP
        if covers == "gusset":
            return points + 1j * below
        if lay == "upright":
            return points + 1j * below
        bottom = below - frame.gusset - _GAP
        return points.conjugate() + 1j * (bottom - frame.back_depth)

    def draw(
        self,
        canvas: RecordingCanvas,
        box: Box,
        names: Iterable[str],
        *,
        sewn: Sequence[str] = (),
        spots: Sequence[str] = (),
        letters: bool = False,
    ) -> tuple[Matrix, float]:
        """The named pieces inside ``box`` (left, bottom, right, top on paper), the edges ``sewn`` drawn strong.

        Returns where they went (garment mm to paper mm) and the scale.
        """
        copies = self.copies(names)
        place, scale = _fit(copies, box)
        for copy in copies:
            _draw_piece(canvas, copy, place, self._lace(copy))
        marks = _letters(copies, sewn, 10.0 / scale) if letters else {}
        for copy in copies:
            for name, line in copy.lines.items():
                key = f"{copy.piece.name}/{name}"
                if key in sewn:
                    canvas.layer("sewing")
                    canvas.stroke(_path(line, place), SEWN)
                    if key in marks and not copy.left:
                        _letter(canvas, copy, line, marks[key], (place, scale))
                for point in _spots(line, [spot.partition("@")[2] for spot in spots if spot.startswith(f"{key}@")]):
                    canvas.layer("sewing")
                    canvas.stroke(Path.dot(place.apply(point.real, point.imag)), SPOT)
        return place, scale

    def _lace(self, copy: Copy) -> bool:
        return self.garment.design.cloths[copy.piece.part.cloth].kind is Kind.LACE

    def height(self, names: Iterable[str], width: float, most: float) -> float:
        """Height (mm on paper) that the named pieces take at a width, at most ``most``."""
        left, bottom, right, top = _bounds(self.copies(names))
        return min(most, (top - bottom) / max(right - left, 1.0) * width)


def _spots(line: Points, where: Sequence[str]) -> list[complex]:
    """The points of an edge meant by "start", "end" or a share of its length."""
    shares = (float({"start": "0", "end": "1"}.get(one, one)) for one in where)
    return [complex(point_along(line, share * length_of(line))) for share in shares]


def _two_halves(piece: Piece) -> bool:
    return piece.part.fold is not None or piece.part.mirrored or piece.part.quantity > 1


def _bounds(copies: Sequence[Copy]) -> Box:
    every = np.concatenate([copy.ring for copy in copies])
    return float(every.real.min()), float(every.imag.min()), float(every.real.max()), float(every.imag.max())


def _fit(copies: Sequence[Copy], box: Box) -> tuple[Matrix, float]:
    left, bottom, right, top = _bounds(copies)
    room = (box[2] - box[0], box[3] - box[1])
    scale = min(room[0] / (right - left), room[1] / (top - bottom))
    middle = ((left + right) / 2.0, (bottom + top) / 2.0)
    centre = ((box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0)
    moved = Matrix.move(-middle[0], -middle[1]).then(Matrix.scale(scale)).then(Matrix.move(*centre))
    return moved, scale


def _path(points: Points, place: Matrix, *, closed: bool = False) -> Path:
    return Path.polyline([place.apply(float(p.real), float(p.imag)) for p in points], closed=closed)


def _draw_piece(canvas: RecordingCanvas, copy: Copy, place: Matrix, lace: bool) -> None:
    part = copy.piece.part
    canvas.layer("pieces")
    canvas.fill((_path(copy.ring, place, closed=True),), _LACE if lace else _CLOTH)
    for name, line in copy.lines.items():
        if name == part.fold:
            if not copy.left:
                canvas.stroke(_path(line, place), FOLD)
        else:
            canvas.stroke(_path(line, place), LINING if part.lining else OUTLINE)


def _letters(copies: Sequence[Copy], sewn: Sequence[str], near: float) -> dict[str, str]:
    """The same letter for edges that are sewn to each other, where they are drawn further apart than ``near`` mm of
    cloth.
    """
    middles = {
        f"{copy.piece.name}/{name}": complex(line.mean())
        for copy in copies
        if not copy.left
        for name, line in copy.lines.items()
    }
    partners = {f"{copy.piece.name}/{edge.name}": edge.sewn_to for copy in copies for edge in copy.piece.edges}
    found: dict[str, str] = {}
    for key in sewn:
        other = partners.get(key)
        if key in found or other is None or other == key or other not in sewn or partners.get(other) != key:
            continue
        if abs(middles[key] - middles[other]) > near:
            found[key] = found[other] = "ABCDEFGHJKLMN"[len(found) // 2 % 13]
    return found


def _letter(canvas: RecordingCanvas, copy: Copy, line: Points, letter: str, at: tuple[Matrix, float]) -> None:
    place, scale = at
    middle = point_along(line, length_of(line) / 2.0)
    along = point_along(line, length_of(line) / 2.0 + 1.0) - point_along(line, length_of(line) / 2.0 - 1.0)
    normal = along * 1j / abs(along)
    inside = shapely.polygons(coordinates(copy.ring))
    step = 4.0 / scale
    if not shapely.contains_xy(inside, (middle + normal * 0.5).real, (middle + normal * 0.5).imag):
        normal = -normal
    x, y = place.apply((middle + normal * step).real, (middle + normal * step).imag)
    canvas.layer("letters")
    canvas.text(letter, (x, y - 0.35 * _LETTER), style=TextStyle(_LETTER, bold=True, anchor="middle"))
