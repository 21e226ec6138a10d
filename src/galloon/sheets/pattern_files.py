"""The pattern as the bytes of its files: tiled PDF, one-sheet PDF, SVG and DXF, all from the same drawn pieces."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from galloon.drawing import (
    A0,
    Drawing,
    Mark,
    Matrix,
    Page,
    Paper,
    Path,
    RecordingCanvas,
    Stroke,
    Text,
    TileSettings,
    moved,
    plan_tiles,
    tile,
)
from galloon.drawing.marks import bounds
from galloon.export import to_dxf, to_pdf, to_svg
from galloon.pieces import Garment
from galloon.sheets import inks
from galloon.sheets.packing import widths_worth_trying
from galloon.sheets.pattern_sheet import DrawnPiece, draw_pieces, lay_out
from galloon.sheets.piece_lines import fold_ends
from galloon.sheets.words import cut_words, whose

#: Widest layout tried for tiles, mm: five sheets of A4 side by side.
_WIDEST_TILED: Final = 950.0


@dataclass(frozen=True)
class PatternFiles:
    """Bytes of the four files; ``tiled`` is a PDF for the paper asked, ``full`` one of a single sheet."""

    tiled: bytes
    full: bytes
    svg: bytes
    dxf: bytes


def pattern_files(garment: Garment, paper: Paper) -> PatternFiles:
    """All four, the pieces drawn once. Raises CannotMake where a pattern needs more sheets than can be right."""
    pieces = draw_pieces(garment)
    full = lay_out(garment, pieces, key=True)
    return PatternFiles(
        to_pdf(_tiled(garment, pieces, paper)),
        to_pdf(full),
        to_svg(full.pages[0], title=garment.design.title),
        to_dxf(_blocks(garment, pieces), layers=inks.DXF_LAYERS),
    )


def pattern_pdf(garment: Garment, paper: Paper) -> bytes:
    """The pattern cut into sheets of ``paper``, true to size; on A0 one sheet where it fits."""
    return to_pdf(_tiled(garment, draw_pieces(garment), paper))


def pattern_full_pdf(garment: Garment) -> bytes:
    """The pattern on one sheet of its own size."""
    return to_pdf(lay_out(garment, draw_pieces(garment), key=True))


def pattern_svg(garment: Garment) -> bytes:
    """The one sheet as SVG in millimetres, a group a layer."""
    return to_svg(lay_out(garment, draw_pieces(garment), key=True).pages[0], title=garment.design.title)


def pattern_dxf(garment: Garment) -> bytes:
    """A block a piece, in millimetres, layers numbered as ``inks.DXF_LAYERS`` says.

    A piece on the fold stays a half: its ring on layer 1 goes along the fold, and layer 6 has the line to mirror about.
    """
    return to_dxf(_blocks(garment, draw_pieces(garment)), layers=inks.DXF_LAYERS)


def _tiled(garment: Garment, pieces: tuple[DrawnPiece, ...], paper: Paper) -> Drawing:
    if paper == A0 and (single := _on_one_sheet(lay_out(garment, pieces, key=True), paper)) is not None:
        return single
    settings = TileSettings(paper)
    width = _fewest_sheets(garment, pieces, settings)
    page = lay_out(garment, pieces, key=False, width=width).pages[0]
    return tile(page, settings, title=whose(garment), notes=_notes(pieces))


def _fewest_sheets(garment: Garment, pieces: tuple[DrawnPiece, ...], settings: TileSettings) -> float:
    """The width to lay pieces out in that takes fewest sheets, judged by their cut lines."""
    outlines = tuple(replace(each, marks=_outline(each)) for each in pieces)
    boxes = [bounds(each.marks) or (0.0, 0.0, 0.0, 0.0) for each in outlines]
    sizes = [(right - left, top - bottom) for left, bottom, right, top in boxes]

    def sheets(width: float) -> int:
        page = lay_out(garment, outlines, key=False, width=width).pages[0]
        return len(plan_tiles(page, settings).tiles)

    return min(widths_worth_trying(sizes, _WIDEST_TILED), key=sheets)


def _outline(drawn: DrawnPiece) -> tuple[Mark, ...]:
    """A coarse cut line and the box around all marks' own extent as two dots."""
    left, bottom, right, top = bounds(drawn.marks) or (0.0, 0.0, 0.0, 0.0)
    ring = Path.polyline(drawn.piece.cut[::4], closed=True)
    corners = (Path.dot((left, bottom)), Path.dot((right, top)))
    return tuple(Stroke(inks.CUT, path, inks.GRAIN_PEN) for path in (ring, *corners))


def _on_one_sheet(drawing: Drawing, paper: Paper) -> Drawing | None:
    """The drawing in the middle of one sheet, lying or upright; None where it does not fit."""
    page = drawing.pages[0]
    for width, height in ((paper.width, paper.height), (paper.height, paper.width)):
        if page.width <= width and page.height <= height:
            place = Matrix.move((width - page.width) / 2.0, (height - page.height) / 2.0)
            marks = tuple(moved(mark, place) for mark in page.marks)
            return Drawing((Page(page.name, width, height, marks),), drawing.title)
    return None


def _notes(pieces: tuple[DrawnPiece, ...]) -> tuple[str, ...]:
    cuts = "; ".join(f"{each.piece.name}, {each.piece.part.cloth}: {cut_words(each.piece)}" for each in pieces)
    return (
        f"Pieces: {cuts}.",
        "Cut on the heavy line and stitch on the dashed one; allowances are included. Line of dashes and dots: lay on "
        "the fold, do not cut. Fine lines on lace: the valley line (innermost points of the scallops) and the far edge "
        "of solid lace.",
    )


def _blocks(garment: Garment, pieces: tuple[DrawnPiece, ...]) -> Drawing:
    return Drawing(tuple(_block(each) for each in pieces), garment.design.title)


def _block(drawn: DrawnPiece) -> Page:
    """One piece as geometry: its whole ring, its fold as the mirror line, all words on the text layer."""
    canvas = RecordingCanvas()
    canvas.begin_page(1.0, 1.0)
    canvas.layer(inks.BOUNDARY)
    canvas.stroke(Path.polyline(drawn.piece.cut, closed=True), inks.CUT_PEN)
    ends = fold_ends(drawn.piece)
    if ends is not None:
        canvas.layer(inks.MIRROR)
        canvas.stroke(Path.line(*ends), inks.FOLD_PEN)
    canvas.add(*map(_as_text, drawn.marks))
    canvas.end_page()
    marks = canvas.drawing().pages[0].marks
    left, bottom, right, top = bounds(marks) or (0.0, 0.0, 1.0, 1.0)
    place = Matrix.move(-left, -bottom)
    return Page(drawn.piece.name, right - left, top - bottom, tuple(moved(mark, place) for mark in marks))


def _as_text(mark: Mark) -> Mark:
    return replace(mark, layer=inks.TEXT) if isinstance(mark, Text) else mark
