"""The cutting plans at true size: the lace's own scallops where the pieces have them, a page a cloth."""

from __future__ import annotations

import numpy as np
import pytest
from shapely.geometry import LineString, Polygon

from galloon.drawing import listing
from galloon.sheets import cutting_page
from galloon.sheets.plan_marks import edges_of
from galloon.workflow.job import make_files, reckon_brief
from tests.support.golden import assert_golden

BRIEF = "examples/heron-hipster.toml"


@pytest.fixture(scope="module")
def made():
    return reckon_brief(BRIEF)


def plans(made):
    return {row.cloth: row.plan for row in made.cutting}


def test_the_page_is_drawn_as_ever(made):
    assert_golden(listing(cutting_page(made.garment, plans(made))), "sheets/cutting-heron-hipster.txt")


def test_every_scalloped_piece_lies_in_the_scallops_of_its_edge(made):
    plan = plans(made)["heron"]
    lower, upper = edges_of(made.garment.design.cloths["heron"], plan)
    strip = Polygon([*lower, *upper[::-1]]).buffer(0.15)
    for placed in plan.placed:
        assert strip.covers(Polygon(placed.outline))
        edge = LineString(lower if placed.edge == "lower" else upper)
        near = [edge.distance(Polygon(placed.outline).boundary.interpolate(d)) < 0.15 for d in np.arange(0, 800, 2.0)]
        assert sum(near) > 50


def test_the_page_is_written_on_request_only(made):
    assert "cutting.pdf" not in make_files(made, "a4")
    assert make_files(made, "a4", cutting_page=True)["cutting.pdf"].startswith(b"%PDF")
