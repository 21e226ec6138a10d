"""SVG comes out in millimetres, by layers, with everything the maker wrote escaped."""

import numpy as np
import pytest
from lxml import etree

from galloon.drawing import Matrix, Path, Pen, Picture, RecordingCanvas, TextStyle
from galloon.errors import BadValue
from galloon.export import to_svg
from tests.support.golden import assert_golden
from tests.support.sketch import small_sheet

SVG = "{http://www.w3.org/2000/svg}"
HOSTILE = "\"><script>alert(1)</script>&amp; ../../etc ]]> ' é"


def page_with(draw):
    canvas = RecordingCanvas()
    canvas.begin_page(100.0, 50.0, name="p")
    draw(canvas)
    canvas.end_page()
    return canvas.drawing().pages[0]


def test_a_page_as_svg_reads_as_kept():
    assert_golden(to_svg(small_sheet().pages[0], title="Sketch").decode("utf-8"), "drawing/sketch.svg")


def test_hostile_words_come_back_as_the_words_they_are():
    def draw(canvas):
        canvas.layer(HOSTILE)
        canvas.text(HOSTILE, (1.0, 1.0), style=TextStyle(3.0))

    root = etree.fromstring(to_svg(page_with(draw), title=HOSTILE))
    assert root.findtext(f"{SVG}title") == HOSTILE
    assert root.findtext(f".//{SVG}text") == HOSTILE
    assert root.find(f"{SVG}g").get("data-layer") == HOSTILE
    assert {element.tag.removeprefix(SVG) for element in root.iter()} == {"svg", "title", "g", "text"}


def test_the_prefix_goes_before_every_id_and_every_use_of_one():
    text = to_svg(small_sheet().pages[0], prefix="front").decode("utf-8")
    assert 'id="layer' not in text
    assert 'id="frontclip-1"' in text
    assert "url(#frontclip-1)" in text


@pytest.mark.parametrize("prefix", ['"', "a b", "1a", "a-b"])
def test_a_prefix_that_could_break_an_id_is_refused(prefix):
    with pytest.raises(BadValue, match="letters and digits"):
        to_svg(small_sheet().pages[0], prefix=prefix)


def test_the_top_row_of_a_picture_stands_at_the_top_of_its_place():
    picture = Picture.from_array(np.zeros((2, 2, 3), np.uint8))
    page = page_with(lambda canvas: canvas.image(picture, Matrix(30.0, 0.0, 0.0, 20.0, 10.0, 5.0)))
    image = etree.fromstring(to_svg(page)).find(f".//{SVG}image")
    numbers = image.get("transform").removeprefix("matrix(").removesuffix(")").split()
    place = Matrix(*map(float, numbers))
    # On paper the picture's top left is (10, 25), 25 mm under the top of a 50 mm page; its lower right (40, 5).
    assert place.apply(0.0, 0.0) == pytest.approx((10.0, 25.0))
    assert place.apply(1.0, 1.0) == pytest.approx((40.0, 45.0))


def test_a_dot_is_a_line_of_no_length_so_that_its_round_ends_show():
    page = page_with(lambda canvas: canvas.stroke(Path.dot((5, 5)), Pen("dot", 1.0)))
    assert b'd="M5 45 L5 45"' in to_svg(page)
