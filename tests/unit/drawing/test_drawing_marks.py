"""Marks know their room and move without losing what makes them readable."""

import math

import numpy as np
import pytest

from galloon.drawing import Area, Drawing, Fill, Image, Matrix, Page, Path, Pen, Picture, Stroke, Text, TextStyle, moved
from galloon.errors import BadValue, CannotMake

PEN = Pen("line", 0.5)


def test_the_bounds_of_a_stroke_hold_its_ink():
    assert Stroke("a", Path.line((0, 0), (10, 0)), PEN).bounds == (-0.25, -0.25, 10.25, 0.25)


def test_a_pen_keeps_its_width_when_the_drawing_is_scaled():
    small = moved(Stroke("a", Path.line((0, 0), (10, 0)), PEN), Matrix.scale(0.1))
    assert small.pen == PEN
    assert small.path.corners[1] == (1.0, 0.0)


def test_words_are_scaled_and_turned_with_the_drawing():
    text = moved(Text("a", "back", (10.0, 0.0), TextStyle(4.0)), Matrix.turn(90.0).then(Matrix.scale(0.5)))
    assert text.at == pytest.approx((0.0, 5.0))
    assert text.angle == pytest.approx(90.0)
    assert text.style.size == pytest.approx(2.0)


def test_words_keep_reading_forwards_in_a_mirror():
    text = moved(Text("a", "back", (10.0, 3.0), TextStyle(4.0)), Matrix.mirror_x())
    assert (text.at, text.words) == ((-10.0, 3.0), "back")
    assert math.remainder(text.angle, 360.0) == pytest.approx(0.0)


@pytest.mark.parametrize(("anchor", "left", "right"), [("left", 0, 1), ("middle", -0.5, 0.5), ("right", -1, 0)])
def test_the_anchor_tells_which_end_of_the_words_is_placed(anchor, left, right):
    text = Text("a", "anchor", (0.0, 0.0), TextStyle(4.0, anchor=anchor))
    width = text.bounds[2] - text.bounds[0]
    assert (text.bounds[0], text.bounds[2]) == pytest.approx((left * width, right * width))
    assert width > 8.0


def test_a_clip_moves_with_its_mark():
    area = Area("a", (Path.rectangle(0, 0, 5, 5),), Fill((0, 0, 0)), clip=((Path.rectangle(0, 0, 2, 2),),))
    assert moved(area, Matrix.move(1.0, 2.0)).clip[0][0].start == (1.0, 2.0)


def test_a_picture_moves_by_its_matrix():
    picture = Picture(1, 1, b"abc")
    image = moved(Image("a", picture, Matrix(10.0, 0.0, 0.0, 20.0, 1.0, 2.0)), Matrix.move(5.0, 5.0))
    assert image.bounds == (6.0, 7.0, 16.0, 27.0)


def test_a_picture_is_made_from_an_array_top_row_first():
    array = np.arange(18, dtype=np.uint8).reshape(2, 3, 3)
    picture = Picture.from_array(array)
    assert (picture.columns, picture.rows, picture.samples) == (3, 2, bytes(range(18)))


@pytest.mark.parametrize(
    ("make", "rule"),
    [
        (lambda: Picture(2, 2, b"short"), "three bytes"),
        (lambda: Picture(100_000, 100_000, b""), "samples"),
        (lambda: Picture(1, 1, b"abc", opacity=0.0), "opacity"),
        (lambda: Picture.from_array(np.zeros((2, 2), np.uint8)), "rows, columns, 3"),
        (lambda: Pen("p", 0.0), "more than 0"),
        (lambda: Pen("p", math.nan), "more than 0"),
        (lambda: Pen("p", 1.0, dash=(1.0, -1.0)), "dash"),
        (lambda: Pen("p", 1.0, (0, 0, 256)), "0 to 255"),
        (lambda: Fill((0, 0, 0), 1.5), "opacity"),
        (lambda: TextStyle(-1.0), "text size"),
        (lambda: TextStyle(3.0, anchor="centre"), "left, middle, right"),
        (lambda: Text("a", "x", (math.inf, 0.0), TextStyle(3.0)), "finite"),
        (lambda: Area("a", (), Fill((0, 0, 0))), "at least one ring"),
        (lambda: Page("p", 0.0, 10.0), "sides"),
        (lambda: Page("p", math.nan, 10.0), "sides"),
    ],
)
def test_a_value_that_cannot_be_drawn_is_refused_when_it_is_made(make, rule):
    with pytest.raises(BadValue, match=rule):
        make()


@pytest.mark.parametrize(
    "make",
    [
        lambda words: Text("a", words, (0.0, 0.0), TextStyle(3.0)),
        lambda words: Page(words, 10.0, 10.0),
        lambda words: Drawing((), words),
        lambda words: Page("p", 10.0, 10.0, (Stroke(words, Path.dot((0, 0)), PEN),)),
    ],
)
def test_words_that_cannot_be_printed_are_refused_wherever_they_stand(make):
    with pytest.raises(CannotMake, match="U\\+0000"):
        make("a\x00b")


def test_layers_are_listed_in_the_order_they_are_first_used():
    marks = [Stroke(name, Path.dot((0, 0)), PEN) for name in ("b", "a", "b", "c")]
    assert Page("p", 10.0, 10.0, tuple(marks)).layers == ("b", "a", "c")
