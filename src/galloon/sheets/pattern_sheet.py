"""Every piece of a garment on one sheet, true to size."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from galloon.drawing import Drawing, Mark, Matrix, RecordingCanvas, moved
from galloon.drawing.marks import bounds
from galloon.pieces import Garment, Piece
from galloon.sheets.packing import shelves, widths_worth_trying
from galloon.sheets.piece_labels import piece_labels
from galloon.sheets.piece_lines import draw_lines
from galloon.sheets.sheet_key import draw_key

#: Blank border of the sheet, mm.
_BORDER: Final = 15.0
#: The widest sheet made of its own accord, mm: what the usual roll of 914 mm prints.
WIDEST: Final = 880.0


@dataclass(frozen=True)
class DrawnPiece:
    """A piece and its marks, in the piece's own place."""

    piece: Piece
    marks: tuple[Mark, ...]


def draw_pieces(garment: Garment) -> tuple[DrawnPiece, ...]:
    """Every piece with its lines, words and arrows."""
    return tuple(DrawnPiece(piece, _draw(garment, piece)) for piece in garment.pieces)


def _draw(garment: Garment, piece: Piece) -> tuple[Mark, ...]:
    canvas = RecordingCanvas()
    canvas.begin_page(1.0, 1.0)
    draw_lines(canvas, piece)
    canvas.add(*piece_labels(garment, piece))
    canvas.end_page()
    return canvas.drawing().pages[0].marks


def pattern_sheet(garment: Garment, *, key: bool = True, width: float | None = None) -> Drawing:
    """One true-size page with every piece; ``key`` adds the title, what the lines mean, and two test squares.

    Pieces stand on shelves within ``width`` mm; left out, the width that takes least paper up to ``WIDEST``.
    """
    return lay_out(garment, draw_pieces(garment), key=key, width=width)


def lay_out(garment: Garment, pieces: tuple[DrawnPiece, ...], *, key: bool, width: float | None = None) -> Drawing:
    """The sheet of pieces already drawn."""
    groups = [piece.marks for piece in pieces]
    if key:
        groups.append(draw_key(garment))
    return set_out(garment.design.title, groups, width)


def set_out(title: str, groups: list[tuple[Mark, ...]], width: float | None = None) -> Drawing:
    """One page with groups of marks on shelves within ``width`` mm; left out, what takes least paper."""
    boxes = [bounds(marks) or (0.0, 0.0, 0.0, 0.0) for marks in groups]
    sizes = [(right - left, top - bottom) for left, bottom, right, top in boxes]
    spots, whole = shelves(sizes, width if width is not None else least_paper(sizes))
    canvas = RecordingCanvas(title)
    canvas.begin_page(whole[0] + 2.0 * _BORDER, whole[1] + 2.0 * _BORDER, name="pattern")
    for marks, box, spot in zip(groups, boxes, spots, strict=True):
        place = Matrix.move(spot[0] - box[0] + _BORDER, spot[1] - box[1] + _BORDER)
        canvas.add(*(moved(mark, place) for mark in marks))
    canvas.end_page()
    return canvas.drawing()


def least_paper(sizes: list[tuple[float, float]]) -> float:
    """The shelf width whose sheet has the least area, long thin sheets counting for more."""

    def cost(width: float) -> tuple[float, float]:
        wide, high = shelves(sizes, width)[1]
        return wide * high * (max(wide, high) / min(wide, high)) ** 0.25, wide

    return min(widths_worth_trying(sizes, WIDEST), key=cost)
