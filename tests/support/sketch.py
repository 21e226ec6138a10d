"""Small neutral drawings that the tests of drawing and export share."""

import math

from galloon.drawing import Fill, Path, Pen, RecordingCanvas, TextStyle

CUT = Pen("cut", 0.4)
STITCH = Pen("stitch", 0.25, (180, 0, 0), dash=(3.0, 1.5))


def square(x, y, side):
    return Path.rectangle(x, y, side, side)


def small_sheet():
    """One A6-sized page with every kind of mark but a picture."""
    canvas = RecordingCanvas(title="Sketch <&> one")
    canvas.begin_page(105.0, 148.0, name="sketch")
    canvas.layer("cut line")
    canvas.stroke(Path((20, 20), ((80, 20), (90, 40, 90, 60, 80, 80), (20, 80)), closed=True), CUT)
    canvas.layer("lace")
    canvas.fill((square(30, 30, 40), square(40, 40, 20)), Fill((230, 200, 240), 0.5))
    canvas.layer("cut line")
    canvas.stroke(Path.dot((50, 100)), CUT)
    canvas.layer("stitch line")
    canvas.clip((square(0, 0, 60),))
    canvas.stroke(Path.circle((50, 50), 25), STITCH)
    canvas.clip()
    canvas.layer("text")
    canvas.text("Łucja & <b>", (50, 110), style=TextStyle(5.0, bold=True, anchor="middle"))
    canvas.text("turned", (90, 100), style=TextStyle(4.0, anchor="right"), angle=90.0)
    canvas.end_page()
    return canvas.drawing()


def wavy_ring(x, y, radius, points=240):
    """A closed ring of many short lines."""
    turns = [2 * math.pi * index / points for index in range(points)]
    return Path.polyline(
        [(x + radius * (1 + 0.1 * math.cos(6 * t)) * math.cos(t), y + radius * math.sin(t)) for t in turns], closed=True
    )


def large_page(*paths, pen=CUT, width=900.0, height=700.0):
    """One page with the given paths on the layer "cut line"."""
    canvas = RecordingCanvas(title="Large")
    canvas.begin_page(width, height, name="large")
    canvas.layer("cut line")
    for path in paths:
        canvas.stroke(path, pen)
    canvas.end_page()
    return canvas.drawing().pages[0]
