"""Neutral strokes, areas, words and pictures on pages measured in millimetres; knows no garment words.

One canvas protocol stands between shapes and every output. Draw on a ``RecordingCanvas``, take its
``Drawing`` (a frozen value), and hand that to ``galloon.export`` (PDF, SVG, DXF) or to ``tile`` first::

    from galloon.drawing import Fill, Path, Pen, RecordingCanvas, TextStyle

    canvas = RecordingCanvas(title="A square")
    canvas.begin_page(210.0, 297.0, name="sheet")        # mm; origin at the lower left, y upwards
    canvas.layer("cut line")                             # layers paint in the order they are first named
    canvas.stroke(Path.polyline([(20, 20), (120, 20), (120, 120), (20, 120)], closed=True), Pen("cut", 0.4))
    canvas.layer("text")
    canvas.text("100 mm", (70, 70), style=TextStyle(4.0, anchor="middle"))
    canvas.end_page()
    drawing = canvas.drawing()

- ``Path`` is a start point and steps: ``(x, y)`` a line, ``(x1, y1, x2, y2, x, y)`` a cubic Bezier.
  Makers: ``Path.polyline`` (pairs, complex points or arrays of them), ``Path.curve`` (cubics of
  ``galloon.geometry``), ``Path.line``, ``Path.rectangle``, ``Path.circle``, ``Path.dot``.
- ``fill`` takes several paths at once, even-odd: a ring inside a ring is a hole.
- ``clip`` limits what follows to regions (rings, even-odd); ``clip()`` lifts the limit.
- ``Pen`` widths and text sizes are millimetres on paper; angles are degrees anticlockwise.
- ``moved(mark, matrix)`` and ``Matrix`` place marks; pens keep their width when things are scaled.
- ``text_width``, ``shorten`` and ``wrap`` measure with the very font that the PDF embeds;
  ``unprintable(text)`` lists what that font cannot show, and drawing such text raises ``CannotMake``.
- ``tile(page, TileSettings(paper("a4")), title=...)`` cuts one large page into sheets for the home printer, with a
  first sheet to measure, a page map, join marks and a rule on every sheet; ``plan_tiles`` tells which sheets.
- ``listing(drawing)`` is the readable text form used by golden files.
"""

from galloon.drawing.canvas import Canvas, RecordingCanvas, replay
from galloon.drawing.fonts import shorten, text_width, unprintable, wrap
from galloon.drawing.listing import listing
from galloon.drawing.marks import Area, Drawing, Image, Mark, Page, Region, Stroke, Text, moved
from galloon.drawing.paper import A0, A1, A2, A3, A4, LETTER, Paper, paper
from galloon.drawing.paths import Path, Point
from galloon.drawing.pens import Anchor, Colour, Fill, Pen, TextStyle
from galloon.drawing.pictures import Picture
from galloon.drawing.tile_pages import tile
from galloon.drawing.tiling import Tile, TilePlan, TileSettings, plan_tiles
from galloon.drawing.transform import Matrix

__all__ = [
    "A0",
    "A1",
    "A2",
    "A3",
    "A4",
    "LETTER",
    "Anchor",
    "Area",
    "Canvas",
    "Colour",
    "Drawing",
    "Fill",
    "Image",
    "Mark",
    "Matrix",
    "Page",
    "Paper",
    "Path",
    "Pen",
    "Picture",
    "Point",
    "RecordingCanvas",
    "Region",
    "Stroke",
    "Text",
    "TextStyle",
    "Tile",
    "TilePlan",
    "TileSettings",
    "listing",
    "moved",
    "paper",
    "plan_tiles",
    "replay",
    "shorten",
    "text_width",
    "tile",
    "unprintable",
    "wrap",
]
