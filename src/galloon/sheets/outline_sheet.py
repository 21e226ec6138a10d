"""A pattern drawn elsewhere, true to size: its outlines just as they came in, with the names of their edges."""

from __future__ import annotations

import cmath
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import shapely

from galloon.drawing import (
    Drawing,
    Mark,
    Matrix,
    Page,
    Paper,
    Path,
    RecordingCanvas,
    TextStyle,
    TileSettings,
    moved,
    plan_tiles,
    shorten,
    tile,
)
from galloon.drawing.marks import bounds
from galloon.export import to_dxf, to_pdf, to_svg
from galloon.geometry import Points, coordinates
from galloon.sheets import inks
from galloon.sheets.packing import widths_worth_trying
from galloon.sheets.pattern_files import PatternFiles
from galloon.sheets.pattern_sheet import set_out
from galloon.sheets.sheet_key import draw_squares

_EDGE_WORDS: Final = TextStyle(3.2, anchor="middle")
_NAME: Final = TextStyle(6.0, bold=True, anchor="middle")
#: Clear of the line, height of capitals as a share of the size, and the least room for words, mm.
_CLEAR, _CAPITALS, _LEAST_ROOM = 1.6, 0.69, 18.0
#: Widest layout tried for tiles, mm: five sheets of A4 side by side.
_WIDEST: Final = 950.0
_SAYS: Final = (
    "Outlines just as they were drawn: nothing was added. Seam allowances are in them only if the drawing has them.",
    "Dots: where one named edge ends and the next begins.",
)


@dataclass(frozen=True)
class OutlinePiece:
    """A closed outline (mm, anticlockwise, y upwards) and its edges: name, first and last place in the outline."""

    name: str
    outline: Points
    edges: tuple[tuple[str, int, int], ...] = ()


def outline_files(title: str, pieces: Sequence[OutlinePiece], paper: Paper) -> PatternFiles:
    """The drawing as a tiled PDF, a one-sheet PDF, an SVG and a DXF, all of the same lines.

    Raises CannotMake for a name that the printed font lacks characters for, or for more sheets than can be right.
    """
    groups = [_drawn(piece) for piece in pieces]
    full = set_out(title, [*groups, _key(title)])
    blocks = Drawing(tuple(_block(piece, marks) for piece, marks in zip(pieces, groups, strict=True)), title)
    return PatternFiles(
        to_pdf(_tiled(title, groups, TileSettings(paper))),
        to_pdf(full),
        to_svg(full.pages[0], title=title),
        to_dxf(blocks, layers=inks.DXF_LAYERS),
    )


def _tiled(title: str, groups: list[tuple[Mark, ...]], settings: TileSettings) -> Drawing:
    boxes = [bounds(marks) or (0.0, 0.0, 0.0, 0.0) for marks in groups]
    widths = widths_worth_trying([(right - left, top - low) for left, low, right, top in boxes], _WIDEST)
    pages = [set_out(title, groups, width).pages[0] for width in widths]
    fewest = min(pages, key=lambda page: len(plan_tiles(page, settings).tiles))
    return tile(fewest, settings, title=title, notes=_SAYS)


def _key(title: str) -> tuple[Mark, ...]:
    canvas = RecordingCanvas()
    canvas.begin_page(1.0, 1.0)
    draw_squares(canvas)
    canvas.layer(inks.TEXT)
    lines = ("Print at 100 %, not fitted to the page; then measure both squares.", _SAYS[1], _SAYS[0])
    for number, words in enumerate(lines):
        canvas.text(words, (0.0, 108.0 + 6.0 * number), style=TextStyle(3.4))
    canvas.text(shorten(title, 8.0, 210.0), (0.0, 128.0), style=TextStyle(8.0, bold=True))
    canvas.end_page()
    return canvas.drawing().pages[0].marks


def _drawn(piece: OutlinePiece) -> tuple[Mark, ...]:
    canvas = RecordingCanvas()
    canvas.begin_page(1.0, 1.0)
    canvas.layer(inks.CUT)
    canvas.stroke(Path.polyline(piece.outline, closed=True), inks.CUT_PEN)
    edges = piece.edges if len(piece.edges) > 1 else ()  # one edge all round is the piece itself
    canvas.layer(inks.NOTCHES)
    for _, start, _ in edges:
        at = piece.outline[start % len(piece.outline)]
        canvas.stroke(Path.dot((at.real, at.imag)), inks.FINISH_PEN)
    canvas.layer(inks.TEXT)
    for name, start, end in edges:
        _name_edge(canvas, name, _along(piece.outline, start, end))
    _name_piece(canvas, piece)
    canvas.end_page()
    return canvas.drawing().pages[0].marks


def _along(outline: Points, start: int, end: int) -> Points:
    count = len(outline)
    last = end if end > start else end + count
    return outline[np.arange(start, last + 1) % count]


def _name_edge(canvas: RecordingCanvas, name: str, line: Points) -> None:
    """The edge's name inside the piece, along the edge at its middle, never upside down."""
    steps = np.abs(np.diff(line))
    reach = np.concatenate([[0.0], np.cumsum(steps)])
    at = int(np.clip(np.searchsorted(reach, reach[-1] / 2.0) - 1, 0, len(steps) - 1))
    way = complex(line[at + 1] - line[at]) / max(float(steps[at]), 1e-9)
    middle = complex(line[at]) + way * (reach[-1] / 2.0 - reach[at])
    upright = way.real > -1e-9
    away = _CLEAR if upright else _CLEAR + _CAPITALS * _EDGE_WORDS.size
    spot = middle + way * 1j * away
    angle = np.degrees(cmath.phase(way if upright else -way))
    words = shorten(name, _EDGE_WORDS.size, max(_LEAST_ROOM, float(reach[-1]) * 0.8))
    canvas.text(words, (spot.real, spot.imag), style=_EDGE_WORDS, angle=float(angle))


def _name_piece(canvas: RecordingCanvas, piece: OutlinePiece) -> None:
    inside = shapely.point_on_surface(shapely.polygons(coordinates(piece.outline)))
    x, y = float(inside.x), float(inside.y)
    wide, high = np.ptp(piece.outline.real), np.ptp(piece.outline.imag)
    canvas.text(shorten(piece.name, _NAME.size, max(_LEAST_ROOM, wide * 0.6)), (x, y), style=_NAME)
    canvas.text(f"{wide:.1f} × {high:.1f} mm", (x, y - 5.5), style=_EDGE_WORDS)


def _block(piece: OutlinePiece, drawn: tuple[Mark, ...]) -> Page:
    canvas = RecordingCanvas()
    canvas.begin_page(1.0, 1.0)
    canvas.layer(inks.BOUNDARY)
    canvas.stroke(Path.polyline(piece.outline, closed=True), inks.CUT_PEN)
    canvas.add(*(mark for mark in drawn if mark.layer in inks.DXF_LAYERS))
    canvas.end_page()
    marks = canvas.drawing().pages[0].marks
    left, low, right, top = bounds(marks) or (0.0, 0.0, 1.0, 1.0)
    place = Matrix.move(-left, -low)
    return Page(piece.name, right - left, top - low, tuple(moved(mark, place) for mark in marks))
