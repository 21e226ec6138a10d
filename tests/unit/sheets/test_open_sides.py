"""Open sides on paper: the gap and its straps in the views, marks on the pieces, heights on the hand sheet."""

import re

import numpy as np
import pypdfium2
import pytest
import shapely

from galloon.drawing import paper as paper_of
from galloon.geometry import coordinates
from galloon.sheets import guide_pdf, pattern_files
from galloon.sheets.flat_lay import lay_flat
from galloon.sheets.garment_map import GarmentMap
from galloon.sheets.piece_lines import strap_lines
from tests.support.examples import example_garment
from tests.unit.sheets.test_guide import matter_of

EXAMPLE = "stilt-straps"


@pytest.fixture(scope="module")
def garment():
    return example_garment(EXAMPLE)


@pytest.fixture(scope="module")
def text():
    pages = pypdfium2.PdfDocument(guide_pdf(matter_of(EXAMPLE), paper_of("a4")))
    return " ".join(re.sub(r"\s+", " ", page.get_textpage().get_text_bounded()) for page in pages)


def test_each_view_shows_the_straps_from_its_panel_to_the_fold_and_nothing_else_there(garment):
    for view, patches in lay_flat(garment).items():
        panel = next(patch for patch in patches if patch.piece.name == view and not patch.strap)
        straps = [patch for patch in patches if patch.strap]
        assert len(straps) == 3
        for strap in straps:
            assert shapely.intersects(strap.area, panel.area)
            beyond = shapely.difference(strap.area, panel.area)
            assert 15.0 < shapely.area(beyond) / 12.0 < 45.0
        union = shapely.union_all([patch.area for patch in patches])
        free = shapely.difference(shapely.convex_hull(shapely.union_all([one.area for one in straps])), union)
        assert shapely.area(free) > 500.0


def test_every_end_of_a_strap_is_marked_12_mm_deep_inside_its_edge(garment):
    for name in ("front", "back"):
        piece = garment.piece(name)
        inside = shapely.buffer(shapely.polygons(coordinates(piece.stitch)), 0.1)
        lines = strap_lines(piece)
        assert len(lines) == 3
        for end, line in zip(piece.part.strap_ends, lines, strict=True):
            assert shapely.covers(inside, shapely.linestrings(coordinates(line)))
            assert end.at.real - line[1].real == pytest.approx(12.0)
            assert line[1].imag - line[2].imag == pytest.approx(12.0)
    assert strap_lines(garment.piece("gusset")) == ()


def test_the_pattern_names_each_strap_and_says_what_its_mark_means(garment):
    page = pypdfium2.PdfDocument(pattern_files(garment, paper_of("a4")).full)[0]
    words = page.get_textpage().get_text_bounded()
    for number in (1, 2, 3):
        assert words.count(f"strap {number}") == 2
    assert "an end of a strap lies here" in words


def test_the_guide_tells_lengths_steps_and_heights(text):
    assert "open side, strap 3 of 3" in text
    assert "Mark 12 mm from both ends of each length of satin strap 12 mm" in text
    assert "Straps: bar tacks" in text
    assert "their middles lie so far up (mm)" in text
    assert "open sides, with 3 straps across each" in text


def test_the_step_drawing_dots_every_end(garment):
    found = GarmentMap(garment)
    from galloon.sewing import sewing_steps

    step = next(one for one in sewing_steps(garment) if one.key == "straps")
    copies = [copy for copy in found.copies(step.pieces) if not copy.left]
    for copy in copies:
        shares = [float(spot.partition("@")[2]) for spot in step.spots if spot.startswith(f"{copy.piece.name}/side@")]
        assert len(shares) == 3
        assert np.all(np.diff(shares) < 0.0)
