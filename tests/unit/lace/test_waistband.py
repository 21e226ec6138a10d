"""A deep band of lace at the waist: what it lowers, how long it is, where it would stand off."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from galloon.checks import Evidence, judge
from galloon.design import Drops, LaceUse, Panels, Style, Use
from galloon.findings import Status
from galloon.lace import workable
from galloon.materials import Cloth, Edges, Kind, LaceEdges, Scallops, SecondEdge
from galloon.sewing import sewing_steps
from galloon.sewing.elastics import elastic_rows
from galloon.workflow.job import reckon_design
from galloon.workflow.reckon import make_garment
from tests.support.designs import MEDIUM, design, galloon, scalloped
from tests.support.sound import assert_sound, wearers


def lace(width=75.0, stretch=0.75, depth=7.0):
    edge = Scallops(25.0, depth)
    edges = LaceEdges(Edges.DOUBLE, edge, edge, 75.0, True, SecondEdge.MIRROR)
    return Cloth("curlew", Kind.LACE, width, stretch, 0.25, recovery=0.95, lace=edges)


def band(**keys):
    return LaceUse(Use.WAISTBAND, "curlew", ("front", "back"), **keys)


def band_design(drop=50.0, *, use=None, cloth=None, wearer=MEDIUM, **changes):
    style = Style(waist_drop=None if drop is None else Drops.level(drop))
    given = {"uses": [use or band()], "cloths": [cloth or lace()], "style": style, **changes}
    return design(wearer, **given)


def banded(drop=50.0, **changes):
    return make_garment(band_design(drop, **changes))


def finding(garment, name):
    return next((found for found in judge(Evidence(garment)) if found.name == name), None)


@given(
    wearers(),
    st.floats(30.0, 160.0),
    st.floats(0.1, 1.2),
    st.one_of(st.none(), st.floats(0.0, 120.0)),
    st.floats(0, 30),
)
@settings(max_examples=50, deadline=None)
def test_every_band_can_be_cut_and_sewn_or_says_why_not(wearer, width, stretch, drop, lap):
    assert_sound(banded(drop, use=band(lap=lap), cloth=lace(width, stretch), wearer=wearer))


def test_a_set_drop_is_meant_for_the_upper_edge_of_the_band():
    garment = banded(50.0)
    assert garment.draft.front_drop == pytest.approx(50.0 + 75.0 - 7.0)
    placed = garment.placements[0]
    assert placed.far[0].imag - placed.valley[0].imag == pytest.approx(75.0 - 7.0, abs=1.0)


def test_with_nothing_asked_the_upper_edge_lies_at_the_waist():
    garment = banded(None)
    assert garment.draft.back_drop == pytest.approx(68.0)
    assert "its upper edge lies at the waist" in finding(garment, "waistband").says


def test_a_lace_that_needs_more_governs_and_the_band_stands_on_it():
    panels = Panels("mesh", "heron", "mesh", "mesh")
    both = banded(None, uses=[scalloped("back"), band()], panels=panels, lace=galloon(200.0))
    alone = banded(None, uses=[scalloped("back")], panels=panels, lace=galloon(200.0))
    assert both.draft.back_drop >= alone.draft.back_drop - 10.0
    assert both.draft.back_drop > 68.0
    assert_sound(both)


@pytest.mark.parametrize("lap", [None, 5.0, 15.0])
def test_the_cloth_reaches_up_under_the_band_by_the_lap(lap):
    piece = banded(50.0, use=band(lap=lap)).piece("front")
    asked = 8.0 if lap is None else lap
    assert (piece.edge("waist").finish, piece.edge("waist").allowance) == ("trim", asked)
    at_centre = piece.cut[np.abs(piece.cut.real) < 1e-6].imag.max()
    assert at_centre - piece.edge_points("waist")[-1].imag == pytest.approx(asked, abs=0.05)


def test_a_single_scallop_stands_up_with_its_whole_straight_edge_below():
    cloth = Cloth("curlew", Kind.LACE, 60.0, 0.7, 0.2, lace=LaceEdges(Edges.STRAIGHT))
    assert banded(0.0, cloth=cloth).draft.front_drop == pytest.approx(60.0)


def test_the_band_is_cut_by_the_ratio_table_and_opens_over_the_hips():
    garment = banded(50.0)
    (row,) = [row for row in elastic_rows(garment) if row.opening == "waist"]
    assert row.kind == "lace trim curlew"
    assert 0.9 <= row.zones[0].ratio <= 1.0
    assert finding(garment, "waist opens over the hips").status is Status.PASS


def test_a_band_that_hardly_stretches_does_not_go_over_the_hips():
    stiff = reckon_design(band_design(20.0, cloth=lace(75.0, 0.05))).findings
    assert next(one for one in stiff if one.name == "waist opens over the hips").status is Status.FAIL


def test_a_deep_firm_band_high_on_the_body_stands_off_and_it_is_said():
    off = finding(banded(0.0, cloth=lace(110.0, 0.3)), "waistband lies close")
    assert off.status is Status.WARN
    assert off.value > off.limit
    assert finding(banded(90.0, cloth=lace(40.0, 0.9)), "waistband lies close") is None


def test_a_band_and_a_trim_cannot_both_make_the_waist():
    trim = LaceUse(Use.EDGE_TRIM, "curlew", ("front",), edge_on="waist")
    kept, found = workable((band(), trim))
    assert kept == (band(),)
    assert "waistband of curlew" in found[0].says
    assert "edge trim of curlew" in found[0].says


def test_the_panels_keep_their_legs_under_a_band():
    garment, plain = banded(50.0), make_garment(design(style=Style(waist_drop=Drops.level(118.0))))
    legs = [np.asarray(one.piece("front").edge_points("leg")) for one in (garment, plain)]
    assert np.abs(legs[0][0] - legs[1][0]) < 1e-6


def test_the_step_says_how_the_band_stands_and_how_much_cloth_lies_beneath():
    step = next(step for step in sewing_steps(banded(50.0, use=band(lap=15.0))) if "lace band" in step.title)
    assert "stands above it" in step.do
    assert "15 mm of cloth beneath it" in step.do
