"""The line-up's own layout: cards two by two at one scale, words where they belong."""

import pytest

from galloon.drawing import Text, paper
from galloon.sheets import Card, LineUp, line_up_drawing
from galloon.workflow import make_garment
from tests.support.designs import LARGE, MESH, design, galloon, scalloped
from tests.support.golden import assert_golden

BARS = (("coverage", 1.0), ("lace", 0.25))
WEIGHTS = (("coverage", "the back covers as much as is wanted", "2"), ("lace", "the lace is seen", "1"))


@pytest.fixture(scope="module")
def garments():
    small = make_garment(design(uses=[scalloped("back")]))
    large = make_garment(design(LARGE, uses=[scalloped("back")], lace=galloon(255.0), cloths=(MESH,)))
    return small, large


def line_up(garments, count):
    cards = tuple(
        Card(number, f"Idea {number}", 90 - number, garments[number % 2], ("mesh 30 cm", "nothing to buy"), BARS)
        for number in range(1, count + 1)
    )
    return LineUp("What could be made", "Imke", "Seven designs.", cards, WEIGHTS, (("coverage", 3, "too little"),))


def words(drawing):
    return [(page.name, mark) for page in drawing.pages for mark in page.marks if isinstance(mark, Text)]


def test_where_the_words_stand(garments):
    found = words(line_up_drawing(line_up(garments, 7), paper("a4")))
    lines = [f"{page}: {mark.at[0]:.0f} {mark.at[1]:.0f} {mark.style.size:g} {mark.words}" for page, mark in found]
    tops = [line for line in lines if "mesh" not in line]
    assert_golden("\n".join(tops) + "\n", "sheets/line-up-words.txt")


def test_a_larger_wearer_is_drawn_larger(garments):
    drawing = line_up_drawing(line_up(garments, 2), paper("a4"))
    xs = [
        [x for mark in drawing.pages[0].marks for x in _xs(mark) if low < x < high]
        for low, high in ((17.0, 99.0), (110.0, 193.0))
    ]
    wide = [max(one) - min(one) for one in xs]
    assert wide[0] > wide[1]


def _xs(mark):
    paths = mark.paths if hasattr(mark, "paths") else (mark.path,) if hasattr(mark, "path") else ()
    layer = mark.layer in ("front", "back")
    return [float(path.start[0]) for path in paths] if layer else []


def test_without_a_card_the_sheet_still_says_what_was_left_out(garments):
    found = [mark.words for _, mark in words(line_up_drawing(line_up(garments, 0), paper("a4")))]
    assert "What cannot be made, and why" in found
