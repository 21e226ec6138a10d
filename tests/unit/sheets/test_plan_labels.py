"""Words on the pieces of a cutting plan: wholly inside, never smaller than can be read, a figure where none fit."""

import pytest
import shapely

from galloon.drawing import RecordingCanvas, Text, text_width
from galloon.drawing import paper as paper_of
from galloon.sheets import guide_drawing
from galloon.sheets.plan_labels import place_label
from tests.support.examples import EXAMPLES
from tests.unit.sheets.test_guide import matter_of

SIZES = (2.8, 3.7)


def box_of(label):
    wide = max(text_width(line, label.size) for line in label.lines)
    tall = 1.22 * label.size * len(label.lines)
    wide, tall = (tall, wide) if label.upright else (wide, tall)
    x, y = label.middle.real, label.middle.imag
    return shapely.box(x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2)


@pytest.mark.parametrize(
    ("ring", "lines", "upright"),
    [
        ([(0, 0), (60, 0), (60, 20), (0, 20)], ("gusset lining 1",), False),
        ([(0, 0), (8, 0), (8, 40), (0, 40)], ("gusset lining 1",), True),
        ([(0, 0), (16, 0), (16, 12), (0, 12)], ("gusset", "lining 1"), False),
    ],
)
def test_words_lie_inside_and_are_broken_or_turned_where_that_makes_them_larger(ring, lines, upright):
    label = place_label("gusset lining 1", ring, SIZES)
    assert (label.lines, label.upright) == (lines, upright)
    assert SIZES[0] <= label.size <= SIZES[1]
    assert shapely.covers(shapely.Polygon(ring), box_of(label))


def test_a_piece_too_narrow_for_its_name_gets_none():
    assert place_label("gusset lining 1", [(0, 0), (5, 0), (5, 5), (0, 5)], SIZES) is None
    assert place_label("front 1", [(0, 0), (0.5, 0), (0.5, 0.5)], SIZES) is None


def test_lines_are_drawn_around_the_middle():
    canvas = RecordingCanvas()
    canvas.begin_page(40, 40)
    place_label("gusset lining 1", [(0, 0), (16, 0), (16, 12), (0, 12)], SIZES).draw(canvas, (10.0, 10.0))
    canvas.end_page()
    first, second = (mark for mark in canvas.drawing().pages[0].marks if isinstance(mark, Text))
    assert first.at[1] > 16.0 > second.at[1]
    assert first.at[0] == pytest.approx(18.0, abs=0.5)


@pytest.mark.parametrize("name", EXAMPLES)
def test_no_word_of_a_guide_is_too_small_to_read(name):
    drawing = guide_drawing(matter_of(name), paper_of("a4"))
    small = [mark for page in drawing.pages for mark in page.marks if isinstance(mark, Text) and mark.style.size < 2.6]
    assert small == []


def test_a_piece_too_small_for_its_name_is_explained_below_the_plan():
    drawing = guide_drawing(matter_of("fern-applique"), paper_of("a4"))
    words = [mark.words for page in drawing.pages for mark in page.marks if isinstance(mark, Text)]
    assert any("1 is front motif 1" in line for line in words)
    assert "1" in words
