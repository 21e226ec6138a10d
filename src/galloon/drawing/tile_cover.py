"""The first sheet of a tiled print: squares to measure, what to do, and a map of the sheets."""

from __future__ import annotations

from collections.abc import Sequence

from galloon.drawing.canvas import RecordingCanvas
from galloon.drawing.fonts import shorten, wrap
from galloon.drawing.marks import Page, Stroke
from galloon.drawing.paths import Path, Point, moved_path
from galloon.drawing.pens import Pen, TextStyle
from galloon.drawing.tile_marks import FRAME, INCH, LABELS
from galloon.drawing.tiling import TilePlan
from galloon.drawing.transform import Matrix

_SQUARE = Pen("square", 0.2)
_MAP_SHEET = Pen("map sheet", 0.3)
_MAP_LINE = Pen("map line", 0.1)
_TITLE = TextStyle(7.0, bold=True)
_WORDS = TextStyle(3.2)
_MAP_TEXT = TextStyle(4.0, bold=True, anchor="middle")
#: Detail finer than this is left out of the map, mm on the map.
_MAP_STEP = 0.3

Box = tuple[float, float, float, float]


def cover_page(page: Page, plan: TilePlan, *, title: str, notes: tuple[str, ...]) -> Page:
    """An upright sheet of the plan's paper, named "first"."""
    paper, margin = plan.settings.paper, plan.settings.margin
    canvas = RecordingCanvas()
    canvas.begin_page(paper.width, paper.height, name="first")
    canvas.layer(LABELS)
    right, top = paper.width - margin, paper.height - margin
    _draw_square(canvas, (margin, margin), 4 * INCH, "4 in")
    _draw_square(canvas, (margin, margin + 4 * INCH + 5.0), 100.0, "100 mm")
    canvas.text(shorten(title or "First sheet", 7.0, right - margin), (margin, top - 7.0), style=_TITLE)
    squares = margin + 4 * INCH + 105.0
    words = [*_instructions(plan), *notes]
    beside = margin + 4 * INCH + 8.0
    left_over = _draw_words(canvas, words, (margin, squares + 3.0, right, top - 9.0))
    under = _draw_map(canvas, page, plan, room=(beside, margin, right, squares))
    if left_over and _draw_words(canvas, left_over, (beside, margin, right, under - 6.0)):
        canvas.text("…", (beside, margin), style=_WORDS)
    canvas.end_page()
    return canvas.drawing().pages[0]


def _draw_square(canvas: RecordingCanvas, at: Point, side: float, size: str) -> None:
    x, y = at
    canvas.stroke(Path.rectangle(x, y, side, side), _SQUARE)
    middle = (x + side / 2, y + side / 2)
    canvas.text(size, middle, style=TextStyle(7.0, bold=True, anchor="middle"))
    canvas.text(
        "each side of the square, edge to edge", (middle[0], middle[1] - 6.0), style=TextStyle(3.0, anchor="middle")
    )


def _draw_words(canvas: RecordingCanvas, paragraphs: Sequence[str], room: Box) -> Sequence[str]:
    """Paragraphs from the top of a box, each whole; those that find no room in it."""
    left, y, size = room[0], room[3], _WORDS.size
    for number, paragraph in enumerate(paragraphs):
        lines = wrap(paragraph, size, room[2] - left)
        if y - 1.3 * size * (len(lines) + 0.3) < room[1]:
            return paragraphs[number:]
        for line in lines:
            y -= 1.3 * size
            canvas.text(line, (left, y), style=_WORDS)
        y -= 0.4 * size
    return ()


def _instructions(plan: TilePlan) -> list[str]:
    count, name = len(plan.tiles), plan.settings.paper.name
    left_out = plan.rows * plan.columns - count
    gaps = f" {left_out} blank left out." if left_out else ""
    return [
        "Print this sheet first, at 100 % (actual size), not fitted to the page. Measure both squares, across and up. "
        "If one is off by more than half a millimetre, change the printer's setting before you print the rest.",
        "Then trim each sheet on its frame at the right and at the lower edge, and lay it over its neighbour: the edge "
        "meets the dashed line, and diamonds with the same number close.",
        f"{count} {'sheet' if count == 1 else 'sheets'} of {name} follow, {plan.rows} down by {plan.columns} across."
        + gaps,
    ]


def _draw_map(canvas: RecordingCanvas, page: Page, plan: TilePlan, *, room: Box) -> float:
    """The sheets to scale, with their labels, over a small copy of the lines; how far down it comes (mm)."""
    boxes = [tile.window for tile in plan.tiles]
    left, bottom = min(box[0] for box in boxes), min(box[1] for box in boxes)
    right, top = max(box[2] for box in boxes), max(box[3] for box in boxes)
    scale = min((room[2] - room[0]) / (right - left), (room[3] - room[1]) / (top - bottom), 0.25)
    place = Matrix.move(-left, -top).then(Matrix.scale(scale)).then(Matrix.move(room[0], room[3]))
    for mark in page.marks:
        if isinstance(mark, Stroke):
            canvas.stroke(_thinned(moved_path(mark.path, place)), _MAP_LINE)
    for tile in plan.tiles:
        x0, y0 = place.apply(tile.window[0], tile.window[1])
        x1, y1 = place.apply(tile.window[2], tile.window[3])
        canvas.stroke(Path.rectangle(x0, y0, x1 - x0, y1 - y0), FRAME if len(plan.tiles) == 1 else _MAP_SHEET)
        canvas.text(tile.label, ((x0 + x1) / 2, (y0 + y1) / 2 - 1.4), style=_MAP_TEXT)
    return room[3] - (top - bottom) * scale


def _thinned(path: Path) -> Path:
    """The path as chords, points nearer than the map's step to the last one left out."""
    points = list(path.flat(_MAP_STEP / 3))
    kept = [points[0]]
    for point in points[1:]:
        if abs(point[0] - kept[-1][0]) + abs(point[1] - kept[-1][1]) >= _MAP_STEP:
            kept.append(point)
    if len(points) > 1 and kept[-1] != points[-1]:
        kept.append(points[-1])
    return Path.polyline(kept, closed=path.closed)
