"""The table's drawing: front, back and gusset at one true scale as SVG text, the laces lying on them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from html import escape
from typing import Final

import numpy as np
import shapely

from galloon.geometry import Points, coordinates
from galloon.pieces import Garment, Piece, scallop_outline
from galloon.sheets.piece_lines import strap_lines
from galloon.styling import Strip
from galloon.web.lace_picture import fill_of
from galloon.web.words import Words

#: Room between pieces and round them, mm.
_GAP: Final = 26.0
#: How far a lace is drawn beyond its piece, mm.
_BEYOND: Final = 14.0


@dataclass(frozen=True)
class Sheet:
    """Pieces laid side by side: what is added to a piece's own points, and the box of it all (mm, y up)."""

    shifts: dict[str, complex]
    box: tuple[float, float, float, float]

    def place(self, piece: str, point: complex) -> complex:
        """A piece's point on the sheet."""
        return point + self.shifts[piece]

    @property
    def view_box(self) -> str:
        """The box for SVG, y down."""
        left, low, right, high = self.box
        return f"{left:.1f} {-high:.1f} {right - left:.1f} {high - low:.1f}"


def lay_sheet(garment: Garment) -> Sheet:
    """Outer pieces in a row; pieces of one panel keep their places towards one another, tops on one level."""
    shifts: dict[str, complex] = {}
    x = 0.0
    lows, highs = [0.0], [0.0]
    for group in _groups(garment):
        rings = [_reach(piece) for piece in group]
        left = min(ring.real.min() for ring in rings)
        right = max(ring.real.max() for ring in rings)
        top = 0.0 if group[0].part.covers != "gusset" else max(ring.imag.max() for ring in rings) + 20.0
        for piece in group:
            shifts[piece.name] = complex(x - left, -top)
        lows.append(min(ring.imag.min() for ring in rings) - top)
        highs.append(max(ring.imag.max() for ring in rings) - top)
        x += right - left + _GAP
    return Sheet(shifts, (-_GAP / 2.0, min(lows) - _GAP / 2.0, x - _GAP / 2.0, max(highs) + _GAP / 2.0))


def _groups(garment: Garment) -> Iterable[list[Piece]]:
    outer = list(garment.outer)
    kinds = dict.fromkeys(piece.part.covers for piece in outer)
    for covers in sorted(kinds, key=lambda kind: ("front", "wrap", "back", "side", "gusset").index(kind)):
        yield [piece for piece in outer if piece.part.covers == covers]


def _reach(piece: Piece) -> Points:
    return piece.cut if piece.strip is None else np.concatenate([piece.cut, _lace_ring(piece, piece.strip)])


def _lace_ring(piece: Piece, strip: Strip) -> Points:
    """The lace under a piece, both its edges, a little longer than the piece."""
    placed = (piece.cut - strip.origin) / strip.along
    ends = (float(placed.real.min()) - _BEYOND, float(placed.real.max()) + _BEYOND)
    near = [strip.point(end, 0.0) for end in ends]
    far = [strip.point(end, strip.solid) for end in ends[::-1]]
    return np.concatenate([scallop_outline(strip, *near), scallop_outline(strip, *far, far=True)])


def draw_sheet(garment: Garment, sheet: Sheet, words: Words) -> str:
    """The inside of the SVG element: laces lowest, on them cut and stitch lines and names."""
    laces: list[str] = []
    parts: list[str] = []
    for mark, piece in enumerate(garment.outer):
        shift = sheet.shifts[piece.name]
        ring = (piece.cut if piece.strip is None else _lace_ring(piece, piece.strip)) + shift
        if piece.strip is not None:
            laces.append(_path("lace", ring))
        pattern, fill = fill_of(piece, garment.design, shift, mark)
        if pattern:
            corners = " ".join(f"{point.real:.1f} {-point.imag:.1f}" for point in ring)
            laces.append(f'{pattern}<polygon class="picture" points="{corners}" fill="{fill}"/>')
        laid = " laid" if piece.part.laid_on else ""
        parts.append(_path(f"piece{laid}", piece.cut + shift, piece.name))
        parts.append(_path("stitch", piece.stitch + shift))
        parts += [_path("stitch", line + shift, closed=False) for line in strap_lines(piece)]
        for edge in piece.edges:
            points = piece.edge_points(edge.name) + shift
            kind = escape(edge.finish, quote=True)
            parts.append(_path(f"edge {kind}", points, f"{piece.name}/{edge.name}", closed=False))
        if not piece.part.laid_on:
            middle = inside(piece.stitch) + shift
            cloth = escape(piece.part.cloth)
            parts.append(
                f'<text class="name" x="{middle.real:.1f}" y="{-middle.imag:.1f}">{escape(words.term(piece.name))}'
                f'<tspan class="cloth" x="{middle.real:.1f}" dy="12">{cloth}</tspan></text>'
            )
    return "".join([*laces, *parts])


def inside(ring: Points) -> complex:
    """A point well inside a ring: the middle of what is left when it is worn away from its border."""
    whole = shapely.polygons(coordinates(ring))
    left, low, right, high = whole.bounds
    worn = shapely.buffer(whole, -0.2 * min(right - left, high - low))
    point = shapely.centroid(whole if worn.is_empty else worn)
    return complex(point.x, point.y)


def _path(kind: str, points: Points, about: str = "", *, closed: bool = True) -> str:
    steps = " ".join(f"{point.real:.1f} {-point.imag:.1f}" for point in points)
    name = f' data-about="{escape(about, quote=True)}"' if about else ""
    return f'<path class="{kind}"{name} d="M{steps}{"Z" if closed else ""}"/>'
