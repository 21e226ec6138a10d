"""The lines of one pattern piece: cut and stitch line, notches, ends of finishes, fold, and the lace it lies on."""

from __future__ import annotations

import cmath
from typing import Final

import numpy as np
import shapely

from galloon import defaults
from galloon.drawing import Path, Pen, RecordingCanvas
from galloon.geometry import Points, coordinates
from galloon.pieces import Notch, Piece
from galloon.sheets import inks
from galloon.styling import StrapEnd
from galloon.tolerance import SAME_POINT

#: Length of a notch at most, mm; it stays inside the allowance where there is one of 5 mm or more.
_NOTCH: Final = 4.5
#: Distance between the two ticks of a double notch, mm.
_DOUBLE: Final = 4.0
#: The far line of a lace is shown as far as it comes within this of the piece, mm.
_NEAR: Final = 25.0
#: How far the fold bracket stands inside the fold, mm and as a share of the piece's width.
_BRACKET: Final = (12.0, 0.12)
_ARROW: Final = 3.0


def fold_ends(piece: Piece) -> tuple[complex, complex] | None:
    """Lower and upper end of the fold on the cut line; None for a piece without a fold."""
    if piece.part.fold is None:
        return None
    on_fold = piece.cut[np.abs(piece.cut.real) < SAME_POINT]
    return complex(on_fold[np.argmin(on_fold.imag)]), complex(on_fold[np.argmax(on_fold.imag)])


def open_cut(piece: Piece) -> Points:
    """What scissors follow on a piece with a fold: the cut ring from the fold's lower end round to its upper end."""
    ends = fold_ends(piece)
    if ends is None:
        return piece.cut
    start = int(np.argmin(np.abs(piece.cut - ends[0])))
    ring = np.roll(piece.cut, -start)
    return ring[: int(np.argmin(np.abs(ring - ends[1]))) + 1]


def lace_lines(piece: Piece) -> tuple[Points | None, Points | None]:
    """Valley line inside the piece, and the far line of solid lace where it runs near it; None where there is none."""
    strip = piece.strip
    if strip is None:
        return None, None
    area = shapely.polygons(coordinates(piece.cut))
    near = shapely.buffer(area, _NEAR, quad_segs=4)
    places = (piece.cut - strip.origin) / strip.along
    low, high = float(places.real.min()) - 2.0 * _NEAR, float(places.real.max()) + 2.0 * _NEAR
    valley = np.array([strip.point(low, 0.0), strip.point(high, 0.0)])
    far = np.array([strip.point(low, strip.solid), strip.point(high, strip.solid)])
    return _within(valley, shapely.buffer(area, 0.01)), _within(far, near)


def _within(line: Points, area: shapely.Geometry) -> Points | None:
    """A straight line from where it first enters an area to where it last leaves it."""
    points = shapely.get_coordinates(shapely.intersection(shapely.linestrings(coordinates(line)), area))
    if len(points) < 2:
        return None
    found = points[:, 0] + 1j * points[:, 1]
    along = ((found - line[0]) / (line[1] - line[0])).real
    first, last = complex(found[np.argmin(along)]), complex(found[np.argmax(along)])
    return np.array([first, last]) if abs(last - first) > 1.0 else None


def laid_lines(piece: Piece) -> tuple[tuple[Points, Pen], ...]:
    """Where other pieces are laid on this one; and, inside that, where its cloth is cut away behind them.

    What lies on the left half only is drawn where it lies on the right.
    """
    found = []
    for laid in piece.part.laid:
        found.append((laid.ring, inks.LAID_PEN))
        if laid.cut_away:
            inner = shapely.buffer(shapely.polygons(coordinates(laid.ring)), -float(defaults.CUT_AWAY_EDGE))
            for area in shapely.get_parts(inner):
                points = shapely.get_coordinates(shapely.get_exterior_ring(area))[:-1]
                if len(points) > 2:
                    found.append((points[:, 0] + 1j * points[:, 1], inks.AWAY_PEN))
    return tuple(found)


def strap_lines(piece: Piece) -> tuple[Points, ...]:
    """Where the ends of straps lie, the uppermost first: from the finished edge inward, as deep as they are caught."""
    return tuple(_strap_line(piece.edge_points(end.edge), end) for end in piece.part.strap_ends)


def _strap_line(edge: Points, end: StrapEnd) -> Points:
    inner = end.at.real - float(defaults.STRAP_END)
    upper, lower = (end.at.imag + side * end.wide / 2.0 for side in (1.0, -1.0))
    outer = [float(np.interp(level, edge.imag, edge.real)) for level in (upper, lower)]
    return np.array([complex(outer[0], upper), complex(inner, upper), complex(inner, lower), complex(outer[1], lower)])


def draw_lines(canvas: RecordingCanvas, piece: Piece) -> None:
    """Everything on a piece but its words and arrows, in the piece's own place."""
    canvas.layer(inks.STITCH)
    canvas.stroke(Path.polyline(piece.stitch, closed=True), inks.STITCH_PEN)
    canvas.layer(inks.LACE)
    for line, pen in zip(lace_lines(piece), (inks.LACE_PEN, inks.FAR_PEN), strict=True):
        if line is not None:
            canvas.stroke(Path.polyline(line), pen)
    for line, pen in laid_lines(piece):
        canvas.stroke(Path.polyline(line, closed=True), pen)
    canvas.layer(inks.STRAPS)
    for line in strap_lines(piece):
        canvas.stroke(Path.polyline(line), inks.STRAP_PEN)
    canvas.layer(inks.CUT)
    canvas.stroke(Path.polyline(open_cut(piece), closed=piece.part.fold is None), inks.CUT_PEN)
    canvas.layer(inks.NOTCHES)
    for notch in piece.notches:
        for tick in notch_ticks(notch):
            canvas.stroke(Path.polyline(tick), inks.NOTCH_PEN)
    canvas.layer(inks.TEXT)
    for end in finish_ends(piece):
        canvas.stroke(Path.dot(end), inks.FINISH_PEN)
    if (bracket := fold_bracket(piece)) is not None:
        _draw_fold(canvas, piece, bracket)


def notch_ticks(notch: Notch) -> tuple[Points, ...]:
    """The ticks of a notch, from the cut line inwards."""
    along = notch.inward * 1j
    shifts = [(index - (notch.count - 1) / 2.0) * _DOUBLE for index in range(notch.count)]
    return tuple(
        np.array([notch.at + shift * along, notch.at + shift * along + _NOTCH * notch.inward]) for shift in shifts
    )


def finish_ends(piece: Piece) -> tuple[complex, ...]:
    """Corners of the stitch line where the finish of an open edge begins or ends."""
    corners: dict[int, complex] = {}
    for edge in piece.edges:
        if edge.finish not in ("seam", "fold", "lapped"):
            corners.update({index: complex(piece.stitch[index]) for index in (edge.start, edge.end)})
    return tuple(corner for corner in corners.values() if piece.part.fold is None or corner.real > SAME_POINT)


def fold_bracket(piece: Piece) -> Points | None:
    """The upright line of the bracket that points at the fold, downwards; None for a piece without a fold."""
    ends = fold_ends(piece)
    if ends is None:
        return None
    stand = min(_BRACKET[0], _BRACKET[1] * float(piece.stitch.real.max()))
    low, high = sorted(end.imag for end in (piece.stitch[index] for index in _fold_corners(piece)))
    tall = high - low
    return np.array([complex(stand, high - 0.12 * tall), complex(stand, low + 0.12 * tall)])


def _fold_corners(piece: Piece) -> tuple[int, int]:
    edge = piece.edge(piece.part.fold or "")
    return edge.start, edge.end


def _draw_fold(canvas: RecordingCanvas, piece: Piece, bracket: Points) -> None:
    ends = fold_ends(piece)
    canvas.layer(inks.FOLD)
    if ends is not None:
        canvas.stroke(Path.line(*ends), inks.FOLD_PEN)
    tips = [complex(0.8, end.imag) for end in bracket]
    canvas.stroke(Path.polyline([tips[0], *bracket, tips[1]]), inks.BRACKET_PEN)
    for tip in tips:
        canvas.stroke(arrow_head(tip, -1.0 + 0.0j), inks.BRACKET_PEN)


def arrow_head(tip: complex, direction: complex, size: float = _ARROW) -> Path:
    """An open arrow head at ``tip`` that points along the unit ``direction``."""
    sides = [tip - size * direction * cmath.exp(turn * 1j) for turn in (0.35, -0.35)]
    return Path.polyline([sides[0], tip, sides[1]])
