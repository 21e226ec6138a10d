"""What stands beside the pieces on a whole sheet: title, what the lines mean, and two squares to measure."""

from __future__ import annotations

from typing import Final

from galloon.drawing import Mark, Path, Pen, RecordingCanvas, TextStyle, shorten
from galloon.pieces import Garment
from galloon.sheets import inks
from galloon.sheets.words import whose

#: Sides of the test squares, mm: 100 mm, and 4 in at 25.4 mm.
_METRIC: Final = 100.0
_INCH: Final = 4.0 * 25.4
_WIDE: Final = 2.0 * _METRIC + 10.0

_LINES: Final[tuple[tuple[Pen, str], ...]] = (
    (inks.CUT_PEN, "cut here; on lace, the edge of its own scallops"),
    (inks.STITCH_PEN, "stitch here; allowances are included"),
    (inks.FOLD_PEN, "lay on the fold of the cloth; do not cut"),
    (inks.LACE_PEN, "valley line: innermost points of the scallops"),
    (inks.FAR_PEN, "far edge of solid lace: the piece must not pass it"),
    (inks.STRETCH_PEN, "spring and double arrows: greatest stretch"),
    (inks.GRAIN_PEN, "plain arrows: along the length of the cloth or the lace"),
)
#: Only where a piece is laid on another, or the cloth is cut away behind it.
_LAID: Final = (inks.LAID_PEN, "place of a piece that is laid on top and sewn down")
_STRAPS: Final = (inks.STRAP_PEN, "an end of a strap lies here, on the wrong side, and is caught in the edge")
_AWAY: Final = (inks.AWAY_PEN, "cut the cloth away inside this line, once the piece on top is sewn")


def _lines(garment: Garment) -> tuple[tuple[Pen, str], ...]:
    laid = [one for piece in garment.pieces for one in piece.part.laid]
    straps = any(piece.part.strap_ends for piece in garment.pieces)
    away = any(one.cut_away for one in laid)
    return (*_LINES, *[_LAID] * bool(laid), *[_AWAY] * away, *[_STRAPS] * straps)


def draw_key(garment: Garment) -> tuple[Mark, ...]:
    """Marks with their lower left corner at the origin."""
    canvas = RecordingCanvas()
    canvas.begin_page(1.0, 1.0)
    draw_squares(canvas)
    canvas.layer(inks.TEXT)
    top = _draw_lines(canvas, _INCH + 8.0, _lines(garment))
    canvas.text("Print at 100 %, not fitted to the page; then measure both squares.", (0.0, top), style=TextStyle(3.6))
    title = shorten(whose(garment), 8.0, _WIDE)
    canvas.text(title, (0.0, top + 7.0), style=TextStyle(8.0, bold=True))
    canvas.end_page()
    return canvas.drawing().pages[0].marks


def draw_squares(canvas: RecordingCanvas) -> None:
    """The two test squares side by side from the origin."""
    canvas.layer(inks.SQUARE)
    _draw_square(canvas, 0.0, _METRIC, "100 mm")
    _draw_square(canvas, _METRIC + 8.4, _INCH, "4 in")


def _draw_square(canvas: RecordingCanvas, x: float, side: float, size: str) -> None:
    canvas.stroke(Path.rectangle(x, 0.0, side, side), inks.SQUARE_PEN)
    middle = TextStyle(7.0, bold=True, anchor="middle")
    canvas.text(size, (x + side / 2.0, side / 2.0 - 2.5), style=middle)


def _draw_lines(canvas: RecordingCanvas, bottom: float, lines: tuple[tuple[Pen, str], ...]) -> float:
    """A sample of each line with its meaning, from the foot up; returns the height above them."""
    y = bottom
    for pen, words in reversed(lines):
        canvas.stroke(Path.line((0.0, y + 1.2), (26.0, y + 1.2)), pen)
        canvas.text(words, (30.0, y), style=TextStyle(3.4))
        y += 6.0
    notches = "Notches: one tick front and sides, two ticks back. Dots: where a finish begins and ends."
    canvas.text(notches, (0.0, y), style=TextStyle(3.4))
    return y + 7.0
