"""A galloon slit lengthwise into the edgings of two legs: what each keeps, what is left, what cannot be slit."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from galloon.checks import Evidence, judge
from galloon.design import LaceUse, Style, Use
from galloon.findings import Status
from galloon.lace import workable
from galloon.materials import Edges, LaceEdges, Scallops
from galloon.sewing import sewing_steps, shopping
from galloon.sewing.elastics import elastic_rows
from galloon.workflow.reckon import make_garment
from tests.support.designs import design, galloon, scalloped
from tests.support.sound import assert_sound, wearers


def slit(*panels, **keys):
    return LaceUse(Use.SPLIT_EDGING, "heron", panels or ("front", "back"), **keys)


def edged(solid=30.0, *, use=None, lace=None, depth=5.0, **changes):
    lace = lace or galloon(solid, depth=depth, pitch=16.0, repeat=48.0)
    return make_garment(design(uses=[use or slit()], lace=lace, **changes))


def finding(garment, name="split edging"):
    return next(found for found in judge(Evidence(garment)) if found.name == name)


@given(
    wearers(),
    st.floats(10.0, 250.0),
    st.floats(2.0, 15.0),
    st.one_of(st.none(), st.floats(5.0, 60.0)),
    st.sampled_from([("front",), ("back",), ("front", "back")]),
    st.floats(0.0, 90.0),
)
@settings(max_examples=60, deadline=None)
def test_every_edging_can_be_cut_and_sewn_or_says_why_not(wearer, solid, depth, width, panels, up):
    garment = edged(solid, use=slit(*panels, width=width), depth=depth, wearer=wearer, style=Style(leg_raise=up))
    assert_sound(garment)


@pytest.mark.parametrize(
    ("solid", "asked", "keeps", "left"), [(30.0, None, 20.0, 0.0), (30.0, 15.0, 15.0, 10.0), (70.0, None, 25.0, 30.0)]
)
def test_each_edging_keeps_its_width_and_the_rest_is_told(solid, asked, keeps, left):
    garment = edged(solid, use=slit(width=asked))
    told = finding(garment)
    assert (told.status, told.value, told.limit) == (Status.PASS, keeps, (solid + 10.0) / 2.0)
    strip = f"A strip {left / 10:g} cm wide is left over" if left else "Nothing of its width is left over"
    assert strip in told.says
    assert "The slit edges are raw" in told.says
    assert garment.design.finishes.front_leg.trim.width == keeps


def test_the_edging_has_one_scalloped_edge_and_one_raw():
    trim = edged().design.finishes.back_leg.trim
    assert trim.lace.edges is Edges.SINGLE
    assert trim.lace.second is None
    assert trim.lace.first == Scallops(16.0, 5.0)


def test_the_cloth_is_cut_short_beneath_the_edging():
    piece = edged(30.0).piece("back")
    assert (piece.edge("leg").finish, piece.edge("leg").allowance) == ("trim", -12.0)


def test_one_length_of_galloon_gives_both_legs():
    garment = edged()
    (row,) = elastic_rows(garment)[1:]
    bought = next(each for each in shopping(garment, {}) if each.cloth == "heron")
    assert row.count == 2
    assert bought.need == pytest.approx(row.cut_length)


def test_an_edging_round_the_back_legs_only_leaves_the_front_its_elastic():
    garment = edged(use=slit("back"))
    assert garment.piece("front").edge("leg").finish == "elastic"
    assert garment.piece("back").edge("leg").finish == "trim"


def test_only_a_galloon_can_be_slit():
    lace = replace(galloon(40.0), lace=LaceEdges(Edges.SINGLE, Scallops(16.0, 5.0)))
    garment = edged(lace=lace)
    assert finding(garment).status is Status.FAIL
    assert "edge trim" in finding(garment).says
    assert garment.piece("back").edge("leg").finish == "elastic"


def test_an_edging_that_is_all_scallop_is_refused_with_the_limit():
    refused = finding(edged(10.0, use=slit(width=9.0), depth=10.0))
    assert (refused.status, refused.value, refused.limit) == (Status.FAIL, 9.0, 10.0)


def test_an_edging_and_a_scalloped_leg_on_one_panel_are_named():
    _, found = workable((scalloped("back"), slit()))
    assert "scalloped leg of heron" in found[0].says
    assert "split edging of heron" in found[0].says


def test_the_galloon_is_slit_before_it_is_laid_on():
    step = next(step for step in sewing_steps(edged(use=slit(width=15.0))) if "lace laid on" in step.title)
    assert step.do.startswith("Slit the heron lengthwise, between its motifs, into two edgings 15 mm wide")
