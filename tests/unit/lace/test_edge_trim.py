"""A narrow stretch lace as the elastic of an edge: where the cloth ends, how long the trim is, what it cannot do."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from galloon.body import Wearer
from galloon.checks import Evidence, judge
from galloon.design import Coverage, Drops, FinishKind, LaceUse, Shape, Style, Use
from galloon.findings import Status
from galloon.geometry import nearest_distance
from galloon.lace import workable
from galloon.materials import Cloth, Edges, Kind, LaceEdges, Scallops
from galloon.sewing.elastics import elastic_rows
from galloon.workflow.reckon import make_garment
from tests.support.designs import design, scalloped
from tests.support.sound import assert_sound, wearers


def edging(width=20.0, stretch=0.8):
    edges = LaceEdges(Edges.SINGLE, Scallops(12.0, 3.0), None, 24.0, True)
    return Cloth("tern", Kind.LACE, width, stretch, 0.2, recovery=0.95, lace=edges)


def trim(*panels, edge="leg", cloth="tern"):
    return LaceUse(Use.EDGE_TRIM, cloth, panels or ("front", "back"), edge_on=edge)


def trimmed(*uses, cloth=None, **changes):
    return make_garment(design(uses=uses or (trim(),), cloths=[cloth or edging()], **changes))


def findings(garment, name):
    return [found for found in judge(Evidence(garment)) if found.name == name]


def row_of(garment, opening):
    (row,) = [row for row in elastic_rows(garment) if row.opening == opening]
    return row


@given(
    wearers(),
    st.floats(10.0, 70.0),
    st.floats(0.1, 1.2),
    st.sampled_from(["waist", "leg"]),
    st.sampled_from([("front",), ("back",), ("front", "back")]),
)
@settings(max_examples=50, deadline=None)
def test_every_trimmed_edge_can_be_cut_and_sewn_or_says_why_not(wearer, width, stretch, edge, panels):
    garment = trimmed(trim(*panels, edge=edge), cloth=edging(width, stretch), wearer=wearer)
    assert_sound(garment)


@pytest.mark.parametrize(("width", "lap"), [(20.0, 8.0), (12.0, 6.0), (25.0, 8.0)])
@pytest.mark.parametrize("edge", ["waist", "leg"])
def test_the_cloth_ends_at_the_finished_edge_less_the_trims_width_plus_the_lap(edge, width, lap):
    garment = trimmed(trim(edge=edge), cloth=edging(width))
    for panel in ("front", "back"):
        piece = garment.piece(panel)
        assert piece.edge(edge).finish == "trim"
        line = piece.edge_points(edge)
        middle = line[len(line) // 4 : -len(line) // 4]
        apart = nearest_distance(middle, np.append(piece.cut, piece.cut[0]))
        assert apart == pytest.approx(width - lap, abs=0.05)


def test_the_report_says_how_much_shorter_the_cloth_is_cut():
    told = findings(trimmed(cloth=edging(20.0)), "edge trim")
    assert [(one.status, one.value, one.about) for one in told] == [
        (Status.PASS, 12.0, "front/leg"),
        (Status.PASS, 12.0, "back/leg"),
    ]
    assert "laps over it by 0.8 cm" in told[0].says


def test_a_trim_at_the_waist_goes_all_round_whatever_panel_was_named():
    garment = trimmed(trim("front", edge="waist"))
    assert {garment.piece(panel).edge("waist").finish for panel in ("front", "back")} == {"trim"}


def test_the_gussets_leg_edge_goes_with_the_fronts():
    front, back = trimmed(trim("front")), trimmed(trim("back"))
    assert (front.piece("gusset").edge("leg").finish, front.piece("back").edge("leg").finish) == ("trim", "elastic")
    assert (back.piece("gusset").edge("leg").finish, back.piece("back").edge("leg").finish) == ("elastic", "trim")


def test_the_trim_is_cut_by_the_ratio_table_on_the_finished_edge():
    row = row_of(trimmed(trim(edge="waist"), cloth=edging(20.0, 1.2)), "waist")
    (front, back) = row.zones
    assert front.ratio == front.asked == 0.95
    assert row.cut_length == pytest.approx(0.95 * (front.edge_length + back.edge_length) + row.ends)


def test_a_trim_that_stretches_little_is_cut_longer_and_worn_at_half_its_stretch_at_the_most():
    firm, soft = (row_of(trimmed(trim(edge="waist"), cloth=edging(20.0, given)), "waist") for given in (0.3, 1.2))
    assert firm.cut_length > soft.cut_length + 10.0
    assert firm.worn <= 0.5 * 0.3 + 1e-6 or firm.zones[0].ratio == pytest.approx(1.0)
    assert soft.worn <= 0.5 * 1.2


@pytest.mark.parametrize(("edge", "most"), [("waist", 50.0), ("leg", 25.0)])
def test_a_lace_too_wide_for_its_edge_is_refused_and_the_edge_keeps_its_finish(edge, most):
    garment = trimmed(trim(edge=edge), cloth=edging(most + 5.0))
    (refused,) = findings(garment, "edge trim")
    assert (refused.status, refused.value, refused.limit) == (Status.FAIL, most + 5.0, most)
    assert "waistband" in refused.says
    assert garment.piece("front").edge(edge).finish == "elastic"


def test_a_trim_that_hardly_stretches_cannot_be_laid_round_the_leg():
    stiff = findings(trimmed(cloth=edging(25.0, 0.12)), "trim lies flat")
    assert stiff
    assert all(one.status is Status.WARN and one.value > one.limit for one in stiff)
    narrow = float(stiff[0].says.split("no wider than ")[1].split(" cm")[0]) * 10.0
    about = stiff[0].about
    fits = trimmed(cloth=edging(narrow - 1.0, 0.12))
    assert about not in [one.about for one in findings(fits, "trim lies flat")]


def test_a_trim_and_a_scalloped_leg_on_one_edge_are_named_and_only_the_first_is_made():
    uses = (scalloped("back"), trim("back"))
    kept, found = workable(uses)
    assert kept == uses[:1]
    assert "scalloped leg of heron" in found[0].says
    assert "edge trim of tern" in found[0].says
    assert "leg edge of the back" in found[0].says


def test_waist_and_legs_may_be_trimmed_by_two_laces():
    other = replace(edging(30.0), name="foreland")
    uses = (trim(edge="waist", cloth="foreland"), trim())
    garment = make_garment(design(uses=uses, cloths=[edging(), other]))
    assert_sound(garment)
    kinds = {row.kind for row in elastic_rows(garment)}
    assert kinds == {"lace trim tern", "lace trim foreland"}
    assert all(finish.kind is FinishKind.LACE_TRIM for _, finish in garment.design.finishes)


def test_a_short_side_seam_ends_where_a_deep_trim_begins():
    wearer = Wearer(1163.0, 1743.0, 229.0, 1372.0)
    style = Style(Shape.TANGA, Drops.level(48.0), 98.0, Coverage.LOW, centre_back_seam=True)
    garment = trimmed(trim(edge="waist"), cloth=edging(48.0), wearer=wearer, style=style)
    assert_sound(garment)
    assert garment.piece("front").edge("side").length == pytest.approx(79.0, abs=3.0)
