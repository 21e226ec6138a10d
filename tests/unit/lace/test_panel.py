"""A front or back cut whole from lace: what its width asks, a scallop at the waist or the leg, and what each costs."""

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from galloon.checks import Evidence, judge
from galloon.design import Drops, LaceUse, Meet, Panels, Style, Use
from galloon.findings import Status
from galloon.lace import workable
from galloon.materials import Cloth, Edges, Kind, LaceEdges
from galloon.pieces import off_strip
from galloon.workflow.plan_cutting import plan_cutting
from galloon.workflow.reckon import make_garment
from tests.support.designs import LARGE, MEDIUM, RIGID, design, galloon
from tests.support.sound import assert_sound, wearers

ALLOVER = Cloth("wren", Kind.LACE, 1400.0, 0.30, 0.45, lace=LaceEdges(Edges.NONE), openness=0.3)


def whole(*panels, **keys):
    return LaceUse(Use.PANEL, keys.pop("cloth", "heron"), panels or ("front",), **keys)


def panel_design(use, width=300.0, wearer=MEDIUM, **changes):
    cloth = {panel: use.cloth if panel in use.panels else "mesh" for panel in ("front", "back")}
    changes.setdefault("style", Style(centre_back_seam=use.edge_on == "leg"))
    given_lace = changes.pop("lace", galloon(width))
    panels = Panels(cloth["front"], cloth["back"], "mesh", "mesh")
    return design(wearer, uses=[use], lace=given_lace, panels=panels, cloths=changes.pop("cloths", ()), **changes)


def finding(garment, name):
    return next(found for found in judge(Evidence(garment)) if found.name == name)


@given(
    wearers(),
    st.sampled_from([("front",), ("back",), ("front", "back")]),
    st.sampled_from(["", "waist", "leg"]),
    st.floats(150.0, 420.0),
    st.one_of(st.none(), st.floats(0.0, 150.0)),
)
@settings(max_examples=60, deadline=None)
def test_every_panel_of_lace_can_be_cut_and_sewn_or_says_why_not(wearer, panels, edge, width, drop):
    style = Style(waist_drop=None if drop is None else Drops.level(drop))
    assert_sound(make_garment(panel_design(whole(*panels, edge_on=edge), width, wearer, style=style)))


def test_the_width_of_the_lace_limits_the_drop_and_the_whole_panel_lies_on_it():
    garment = make_garment(panel_design(whole("back"), 250.0))
    closed = garment.frame.back_depth + 6.0 + 6.0 - 250.0
    assert garment.draft.back_drop == pytest.approx(closed, abs=12.0), "corners of turned allowances may take some more"
    assert garment.draft.back_drop >= closed - 0.01
    assert off_strip(garment.piece("back")) <= 0.02


def test_a_wide_allover_asks_for_no_drop():
    garment = make_garment(panel_design(whole("back", cloth="wren"), cloths=[ALLOVER]))
    assert garment.draft.back_drop == 0.0
    rows, found = plan_cutting(garment)
    assert next(row.plan.width for row in rows if row.cloth == "wren") == 1400.0
    assert found == ()


def test_an_allover_lies_with_its_greatest_stretch_round_the_body():
    across = make_garment(panel_design(whole("back", cloth="wren"), cloths=[ALLOVER]))
    along = replace(ALLOVER, stretch_length=0.45, stretch_width=0.30)
    turned = make_garment(panel_design(whole("back", cloth="wren"), cloths=[along]))
    assert (across.placements[0].tilt, turned.placements[0].tilt) == (90.0, 0.0)
    assert across.frame.back_hip == pytest.approx(turned.frame.back_hip)
    lengths = [
        next(row.plan.length for row in plan_cutting(each)[0] if row.cloth == "wren") for each in (across, turned)
    ]
    tall, wide = (np.ptp(axis) for axis in (across.piece("back").cut.imag, across.piece("back").cut.real))
    assert lengths == pytest.approx([tall, 2.0 * wide], abs=12.0), "on its side it takes the width of both halves"


@pytest.mark.parametrize(("width", "reason"), [(1400.0, ""), (300.0, "wren")])
def test_an_allover_too_narrow_for_the_panel_is_told(width, reason):
    cloth = replace(ALLOVER, width=width)
    _, found = plan_cutting(make_garment(panel_design(whole("back", cloth="wren"), cloths=[cloth])))
    assert [reason in note.says for note in found] == ([True] if reason else [])


def test_a_scallop_at_the_waist_makes_it_straight_level_and_without_allowance():
    garment = make_garment(panel_design(whole(edge_on="waist")))
    piece = garment.piece("front")
    waist = piece.edge_points("waist")
    assert np.ptp(waist.imag) < 1e-9
    assert (piece.edge("waist").finish, piece.edge("waist").allowance) == ("scallop", 0.0)
    assert piece.cut.imag.max() == pytest.approx(waist[0].imag + 11.0, abs=0.2), "the scallops stand above it"


@pytest.mark.parametrize("drop", [None, Drops.level(60.0)])
def test_a_scalloped_waist_stays_level_on_its_lace_where_the_side_seam_comes_forward(drop):
    style = Style(side_forward=40.0, waist_drop=drop)
    garment = make_garment(panel_design(whole("front", edge_on="waist"), 250.0, style=style))
    piece = garment.piece("front")
    waist = piece.part.edge("waist")
    assert waist.start.imag == pytest.approx(waist.end.imag, abs=1e-9)
    assert off_strip(piece) == pytest.approx(0.0, abs=1e-6)
    assert plan_cutting(garment)


def test_a_scallop_at_the_waist_says_what_the_straight_line_costs():
    garment = make_garment(panel_design(whole(edge_on="waist"), style=Style(waist_drop=Drops.level(60.0))))
    figures = garment.placements[0].figures
    slant = garment.frame.side.slant(garment.draft.side_drop)
    assert figures["waist_kink"] == pytest.approx(math.degrees(slant), abs=0.01)
    assert 1.0 < figures["waist_deviation"] < 11.0
    cost = finding(garment, "scallop at the waist")
    assert cost.status is Status.PASS
    assert cost.value == pytest.approx(figures["waist_deviation"])
    assert f"{figures['waist_kink']:.0f} degrees off square" in cost.says


def test_a_waist_that_bends_more_than_the_scallops_are_deep_is_warned_of():
    style = Style(waist_drop=Drops.level(60.0))
    garment = make_garment(panel_design(whole(edge_on="waist"), lace=galloon(300.0, depth=3.0), style=style))
    assert finding(garment, "scallop at the waist").status is Status.WARN


def test_a_dipped_waist_cannot_be_the_laces_straight_edge():
    style = Style(waist_drop=Drops(60.0, 30.0, 60.0))
    garment = make_garment(panel_design(whole(edge_on="waist"), style=style))
    assert finding(garment, "scallop at the waist").status is Status.FAIL
    assert garment.piece("front").edge("waist").finish == "elastic"


def test_a_lace_without_scallops_cannot_make_the_waist():
    garment = make_garment(panel_design(whole(cloth="wren", edge_on="waist"), cloths=[ALLOVER]))
    assert "no scalloped edge" in finding(garment, "scallop at the waist").says


@pytest.mark.parametrize(("meet", "height"), [(Meet.PEAK, 11.0), (Meet.VALLEY, 0.0), (None, 0.0)])
def test_what_stands_at_the_centre_of_the_waist_is_a_valley_or_a_peak_as_asked(meet, height):
    piece = make_garment(panel_design(whole(edge_on="waist", meet=meet))).piece("front")
    at_centre = piece.cut[np.abs(piece.cut.real) < 1e-6].imag.max()
    assert at_centre == pytest.approx(piece.edge_points("waist")[0].imag + height, abs=0.01)


def test_a_scallop_on_the_leg_is_a_strip_along_the_leg():
    garment = make_garment(panel_design(whole("back", edge_on="leg")))
    piece = garment.piece("back")
    assert piece.edge("leg").finish == "scallop"
    assert garment.placements[0].use is Use.PANEL
    assert piece.part.quantity == 2


def test_flowers_hang_where_the_scallop_is_at_the_waist_and_it_is_said():
    garment = make_garment(panel_design(whole(edge_on="waist"), lace=galloon(300.0, motif_up=True)))
    assert "hang" in finding(garment, "motif stands up").says


def test_a_full_rigid_front_fails_and_the_report_says_how_far_the_side_seam_must_come_forward():
    use = whole(cloth="tulle")
    garment = make_garment(panel_design(use, cloths=[RIGID]))
    refused = finding(garment, "rigid panel leaves room")
    assert refused.status is Status.FAIL
    assert finding(garment, "waist opens over the hips").status is Status.FAIL
    told = float(refused.says.split('side_seam = "')[1].split(" cm")[0]) * 10.0
    moved = make_garment(panel_design(use, cloths=[RIGID], style=Style(side_forward=told)))
    assert finding(moved, "rigid panel leaves room").status is Status.PASS
    assert finding(moved, "waist opens over the hips").status is Status.PASS
    less = make_garment(panel_design(use, cloths=[RIGID], style=Style(side_forward=told - 3.0)))
    assert finding(less, "waist opens over the hips").status is Status.FAIL
    assert f'side_seam = "{told / 10.0:g} cm"' in finding(less, "rigid panel leaves room").says


def test_front_and_back_both_rigid_leave_nothing_that_gives():
    garment = make_garment(panel_design(whole("front", "back", cloth="tulle"), wearer=LARGE, cloths=[RIGID]))
    assert any(f.status is Status.FAIL for f in judge(Evidence(garment)) if f.name == "waist opens over the hips")


def test_a_panel_and_a_waistband_cannot_both_make_the_waist():
    kept, found = workable((whole(edge_on="waist"), LaceUse(Use.WAISTBAND, "heron", ("front", "back"))))
    assert len(kept) == 1
    assert "waist edge of the front" in found[0].says
