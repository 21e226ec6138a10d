"""One large page as sheets for the printer: a first sheet to measure and find the way, then a clipped drawing each."""

from __future__ import annotations

from dataclasses import replace

from galloon.drawing.canvas import RecordingCanvas
from galloon.drawing.fonts import shorten
from galloon.drawing.marks import Box, Drawing, Mark, Page, moved
from galloon.drawing.paths import Path, Point
from galloon.drawing.pens import TextStyle
from galloon.drawing.tile_cover import cover_page
from galloon.drawing.tile_marks import FRAME, GREY, JOIN, LABELS, draw_rule
from galloon.drawing.tiling import Tile, TilePlan, TileSettings, plan_tiles
from galloon.drawing.transform import Matrix

#: Half the height of a join diamond, mm; it stays inside the overlap.
_DIAMOND = 4.0


def tile(page: Page, settings: TileSettings, *, title: str = "", notes: tuple[str, ...] = ()) -> Drawing:
    """The page cut into sheets true to size, after a first sheet with squares to measure, ``notes`` and a page map.

    Sheets are named A1, B3 … (row, column). Nothing is drawn over the page: join marks lie beneath its marks (so that
    wide areas should be let through), labels and rule stand below its window. Raises CannotMake as ``plan_tiles`` does.
    """
    plan = plan_tiles(page, settings)
    boxes = [mark.bounds for mark in page.marks]
    joins = _joins(plan)
    sheets = [_sheet(page.marks, boxes, each, plan=plan, joins=joins, title=title) for each in plan.tiles]
    return Drawing((cover_page(page, plan, title=title, notes=notes), *sheets), title)


def _sheet(
    marks: tuple[Mark, ...], boxes: list[Box], tile: Tile, *, plan: TilePlan, joins: dict[Join, int], title: str
) -> Page:
    settings = plan.settings
    width, height = settings.sheet
    left, bottom, _, _ = tile.window
    place = Matrix.move(settings.margin - left, settings.margin + settings.footer - bottom)
    frame = Path.rectangle(settings.margin, settings.margin + settings.footer, *settings.window)
    canvas = RecordingCanvas()
    canvas.begin_page(width, height, name=tile.label)
    canvas.layer(JOIN)
    canvas.clip((frame,))
    _draw_joins(canvas, tile, plan, joins=joins, place=place)
    clip = ((frame,),)
    for mark, box in zip(marks, boxes, strict=True):
        if _touch(box, tile.window):
            shown = moved(mark, place)
            canvas.add(replace(shown, clip=clip + shown.clip))
    canvas.layer(LABELS)
    canvas.clip()
    canvas.stroke(frame, FRAME)
    _draw_footer(canvas, tile, plan, title=title)
    canvas.end_page()
    return canvas.drawing().pages[0]


#: A join: the sheet's row and column, and whether its neighbour is the one below (else the one to the right).
Join = tuple[int, int, bool]


def _joins(plan: TilePlan) -> dict[Join, int]:
    """Joins between sheets that are both there, numbered from 1 in reading order."""
    found = [
        (tile.row, tile.column, below)
        for tile in plan.tiles
        for below in (False, True)
        if (plan.at(tile.row + 1, tile.column) if below else plan.at(tile.row, tile.column + 1))
    ]
    return {join: index for index, join in enumerate(found, start=1)}


def _draw_joins(canvas: RecordingCanvas, tile: Tile, plan: TilePlan, *, joins: dict[Join, int], place: Matrix) -> None:
    """Diamonds on this sheet's four edges; and the lines that the trimmed edges of its neighbours are laid on."""
    row, column = tile.row, tile.column
    dashed = replace(FRAME, name="join line", dash=(2.0, 2.0))
    for join in ((row, column, False), (row, column, True), (row, column - 1, False), (row - 1, column, True)):
        if join not in joins:
            continue
        a, b = (place.apply(*end) for end in _join_line(join, plan.grid[join[:2]]))
        if join[:2] != (row, column):
            canvas.stroke(Path.line(a, b), dashed)
        for share in (0.25, 0.75):
            at = (a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1]))
            _draw_diamond(canvas, at, str(joins[join]), upright=not join[2])


def _join_line(join: Join, upper: Tile) -> tuple[Point, Point]:
    """The trimmed edge of the sheet that is laid on top, in the drawing's own place."""
    left, bottom, right, top = upper.window
    return ((left, bottom), (right, bottom)) if join[2] else ((right, bottom), (right, top))


def _draw_diamond(canvas: RecordingCanvas, at: Point, number: str, *, upright: bool) -> None:
    """An open diamond across the join, its number on both halves."""
    x, y = at
    r = _DIAMOND
    canvas.stroke(Path.polyline([(x - r, y), (x, y - r), (x + r, y), (x, y + r)], closed=True), FRAME)
    style = TextStyle(2.2, colour=GREY, anchor="middle")
    for side in (-0.42, 0.42):
        dx, dy = (side * r, 0.0) if upright else (0.0, side * r)
        canvas.text(number, (x + dx, y + dy - 0.8), style=style)


def _draw_footer(canvas: RecordingCanvas, tile: Tile, plan: TilePlan, *, title: str) -> None:
    """Rule at the left, words in the middle, the sheet's label at the right."""
    settings = plan.settings
    margin, top = settings.margin, settings.margin + settings.footer
    right = settings.sheet[0] - margin
    draw_rule(canvas, (margin, margin + 6.4))
    canvas.text(tile.label, (right, top - 10.0), style=TextStyle(10.0, bold=True, anchor="right"))
    x, room = margin + 106.0, right - margin - 106.0 - 22.0
    lines = [title or "Print at 100 %, actual size", *_advice(tile, plan)]
    for index, words in enumerate(lines):
        style = TextStyle(2.8, bold=index == 0)
        canvas.text(shorten(words, style.size, room), (x, top - 4.4 - 3.7 * index), style=style)


def _advice(tile: Tile, plan: TilePlan) -> list[str]:
    beside, below = plan.at(tile.row, tile.column + 1), plan.at(tile.row + 1, tile.column)
    lines = []
    if beside:
        lines.append(f"Trim the right edge of the frame; lay it over {beside.label}.")
    if below:
        lines.append(f"Trim the lower edge of the frame; lay it over {below.label}.")
    return lines


def _touch(one: Box, other: Box) -> bool:
    return one[0] <= other[2] and other[0] <= one[2] and one[1] <= other[3] and other[1] <= one[3]
