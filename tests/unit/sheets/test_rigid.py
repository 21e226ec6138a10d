"""Cloth that does not stretch: no arrow says it does, and it looks different in the views."""

from galloon.drawing import Stroke, Text
from galloon.drawing import paper as paper_of
from galloon.sheets import garment_views, guide_drawing, inks
from galloon.sheets.piece_labels import piece_labels
from tests.support.examples import example_garment
from tests.unit.sheets.test_guide import matter_of


def words(marks):
    return [mark.words for mark in marks if isinstance(mark, Text)]


def test_a_rigid_piece_has_an_arrow_along_the_cloth_and_none_of_greatest_stretch():
    garment = example_garment("linnet-panel")
    rigid = piece_labels(garment, garment.piece("front"))
    soft = piece_labels(garment, garment.piece("back"))
    assert "along the cloth" in words(rigid)
    assert "greatest stretch" not in words(rigid)
    assert "greatest stretch" in words(soft)
    assert not [mark for mark in rigid if getattr(mark, "layer", "") == inks.STRETCH]


def test_the_guide_says_that_it_does_not_stretch_and_shows_no_arrow_for_it_in_the_plan():
    pages = guide_drawing(matter_of("linnet-panel"), paper_of("a4")).pages
    whole = [line for page in pages for line in words(page.marks)]
    assert "linnet, which does not stretch" in whole
    assert any("It does not stretch." in line for line in whole)
    assert whole.count("stretches most") == 1
    assert whole.count("length of the cloth") == 2


def test_tulle_is_drawn_as_a_net_and_cloth_that_stretches_is_not():
    marks = {name: garment_views(example_garment(name)).pages[0].marks for name in ("linnet-panel", "sanderling-trim")}
    nets = {
        name: [one for one in found if isinstance(one, Stroke) and one.pen.name == "tulle"]
        for name, found in marks.items()
    }
    assert nets["linnet-panel"]
    assert not nets["sanderling-trim"]
