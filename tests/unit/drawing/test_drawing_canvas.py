"""What is drawn on the recording canvas is what is kept, and a replay draws it again."""

import pytest

from galloon.drawing import Path, Pen, RecordingCanvas, TextStyle, listing, replay
from galloon.errors import BadValue
from tests.support.golden import assert_golden
from tests.support.sketch import small_sheet

PEN = Pen("line", 0.5)


def test_a_drawing_reads_as_one_mark_a_line():
    assert_golden(listing(small_sheet()), "drawing/sketch.txt")


def test_a_replay_onto_another_canvas_lists_the_same():
    drawing = small_sheet()
    again = RecordingCanvas(drawing.title)
    for page in drawing.pages:
        replay(page, again)
    assert listing(again.drawing()) == listing(drawing)


def test_a_replay_paints_each_layer_once_in_the_order_first_named():
    names = [line for line in listing(small_sheet()).splitlines() if line.startswith(" layer")]
    assert names == [" layer 'cut line'", " layer 'lace'", " layer 'stitch line'", " layer 'text'"]


def test_layer_and_clip_do_not_carry_over_to_the_next_page():
    canvas = RecordingCanvas()
    for _ in range(2):
        canvas.begin_page(10.0, 10.0)
        canvas.stroke(Path.dot((1, 1)), PEN)
        canvas.layer("late")
        canvas.clip((Path.rectangle(0, 0, 1, 1),))
        canvas.end_page()
    second = canvas.drawing().pages[1].marks[0]
    assert (second.layer, second.clip) == ("", ())


def test_numbers_in_a_listing_are_rounded_and_never_minus_nothing():
    canvas = RecordingCanvas()
    canvas.begin_page(10.0, 10.0)
    canvas.stroke(Path.line((-0.0001, 1.23456), (1e-9, 2.0)), PEN)
    canvas.end_page()
    assert "0,1.23 0,2\n" in listing(canvas.drawing())


def test_drawing_off_a_page_is_refused():
    canvas = RecordingCanvas()
    with pytest.raises(BadValue, match="begin_page"):
        canvas.text("lost", (0, 0), style=TextStyle(3.0))
    with pytest.raises(BadValue, match="begin_page"):
        canvas.end_page()


def test_a_page_left_open_is_noticed():
    canvas = RecordingCanvas()
    canvas.begin_page(10.0, 10.0, name="open")
    with pytest.raises(BadValue, match="ended"):
        canvas.begin_page(10.0, 10.0)
    with pytest.raises(BadValue, match="open"):
        canvas.drawing()
