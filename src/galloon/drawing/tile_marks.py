"""The pens, layers and rule that every tiled sheet shares."""

from __future__ import annotations

from typing import Final

from galloon.drawing.canvas import RecordingCanvas
from galloon.drawing.paths import Path, Point
from galloon.drawing.pens import Anchor, Colour, Pen, TextStyle

#: Layers of what tiling adds.
JOIN: Final = "join marks"
LABELS: Final = "sheet labels"

GREY: Final[Colour] = (130, 130, 130)
FRAME: Final = Pen("frame", 0.15, GREY)
_RULE: Final = Pen("rule", 0.2)
#: One inch, exact (international inch 1959).
INCH: Final = 25.4


def draw_rule(canvas: RecordingCanvas, at: Point) -> None:
    """A level rule from ``at``: 100 mm with its ticks upwards, 4 in with its ticks downwards; 101.6 mm × 13 mm."""
    x, y = at
    canvas.stroke(Path.line((x, y), (x + 4 * INCH, y)), _RULE)
    for millimetre in range(0, 101, 5):
        tall = 4.0 if millimetre % 50 == 0 else 2.6 if millimetre % 10 == 0 else 1.5
        canvas.stroke(Path.line((x + millimetre, y), (x + millimetre, y + tall)), _RULE)
    for eighth in range(33):
        tall = 3.4 if eighth % 8 == 0 else 2.2 if eighth % 4 == 0 else 1.2
        canvas.stroke(Path.line((x + eighth * INCH / 8, y), (x + eighth * INCH / 8, y - tall)), _RULE)
    _number(canvas, ["0", "50", "100 mm"], (x, y + 4.6), pitch=50.0)
    _number(canvas, ["0", "1", "2", "3", "4 in"], (x, y - 5.6), pitch=INCH)


def _number(canvas: RecordingCanvas, words: list[str], at: Point, *, pitch: float) -> None:
    for index, word in enumerate(words):
        anchor: Anchor = "left" if index == 0 else "right" if index == len(words) - 1 else "middle"
        canvas.text(word, (at[0] + index * pitch, at[1]), style=TextStyle(2.4, anchor=anchor))
