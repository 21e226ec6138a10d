"""Straps across open sides: how long they are cut, how far they go, when they are caught and tacked."""

from dataclasses import replace

import pytest

from galloon.design import Finish, FinishKind, OpenSide
from galloon.materials import PullTest, usual_elastic
from galloon.pieces import straps_of, worn_strain
from galloon.sewing import elastic_reach, elastic_rows, notions, replay, sewing_steps, shopping
from galloon.sewing.seams import sewable
from galloon.workflow.reckon import make_garment
from tests.support.designs import ELASTIC, MEDIUM, design

STRAP = usual_elastic("strap elastic 12 mm")
EDGES = {
    "elastic": ELASTIC,
    "fold-over": Finish(FinishKind.FOLD_OVER, usual_elastic("fold-over elastic 15 mm")),
    "hem": Finish(FinishKind.HEM),
    "binding": Finish(FinishKind.BINDING),
}


def opened(side=None, *, edge=ELASTIC, **changes):
    plain = design(MEDIUM, **changes)
    return make_garment(
        replace(plain, open_side=side or OpenSide(80.0, 80.0, STRAP, 3), finishes=replace(plain.finishes, side=edge))
    )


def rows_of(garment, kind=STRAP.name):
    return [row for row in elastic_rows(garment) if row.kind == kind]


def test_a_strap_is_its_span_on_the_body_over_its_worn_stretch_and_12_mm_caught_at_both_ends():
    garment = opened()
    rows = rows_of(garment)
    assert [row.count for row in rows] == [2, 2, 2]
    assert rows[0].edge_length == pytest.approx(80.0, abs=0.1)
    for row, strap in zip(rows, straps_of(garment), strict=True):
        assert row.edge_length == strap.span
        assert row.cut_length == pytest.approx(strap.span / 1.15 + 24.0)


def test_the_brief_s_own_stretch_wins_and_a_pull_test_keeps_it_within_10_to_20_percent():
    side = OpenSide(80.0, 80.0, STRAP, 3)
    assert worn_strain(opened(), side) == pytest.approx(0.15)
    assert worn_strain(opened(), replace(side, strain=0.05)) == 0.05
    for load, usual in ((5.0, 0.20), (30000.0, 0.10)):
        weighed = replace(STRAP, pull_tests=(PullTest("length", 12.0, load, 0.3),))
        assert worn_strain(opened(), replace(side, elastic=weighed)) == pytest.approx(usual)


def test_waist_and_leg_go_as_far_as_their_elastics_and_the_straps_of_that_edge():
    garment = opened()
    rows = elastic_rows(garment)
    reach = elastic_reach(garment, rows)
    straps = straps_of(garment)
    waist = sum(row.reach for row in rows if row.opening == "waist")
    assert reach["waist"].reach == pytest.approx(waist + 2.0 * straps[0].relaxed * 1.6)
    leg = sum(row.reach for row in rows if row.opening == "leg")
    assert reach["leg"].reach == pytest.approx(leg + straps[-1].relaxed * 1.6)
    assert set(reach) == {"waist", "leg"}


def test_straps_are_bought_with_all_that_is_cut():
    garment = opened()
    need = next(row.need for row in shopping(garment, {}) if row.cloth == STRAP.name)
    assert need == pytest.approx(2.0 * sum(row.cut_length for row in rows_of(garment)))
    assert notions(garment)


@pytest.mark.parametrize("edge", EDGES)
def test_every_edge_is_closed_once_and_the_straps_are_caught_before_they_are_tacked(edge):
    garment = opened(edge=EDGES[edge])
    steps = sewing_steps(garment)
    assert replay(garment, steps) == ()
    closed = [each for step in steps for each in step.edges]
    assert sorted(closed) == sorted(sewable(garment))
    place = {name: step.step for step in steps for name in step.edges}
    tacked = next(step for step in steps if step.key == "straps")
    for name in ("front/side", "back/side"):
        step = steps[place[name] - 1]
        assert "12 mm of each inside the finished edge" in step.do
        for other in ("waist", "leg"):
            assert place[f"{name.partition('/')[0]}/{other}"] < place[name] < tacked.step
    assert len(tacked.spots) == 2 * 3
    assert not any("Right sides together, sew front to back" in step.do for step in steps)


def test_an_elastic_s_ends_lie_in_the_edge_that_catches_them():
    hem = opened(edge=Finish(FinishKind.HEM, wide=9.0))
    fold = opened(edge=EDGES["fold-over"])
    for garment, end in ((hem, 9.0), (fold, 0.0)):
        waists = [row for row in elastic_rows(garment) if row.opening == "waist"]
        assert [row.edge for row in waists] == ["front waist", "back waist"]
        assert all(row.ends == pytest.approx(2.0 * end) and not row.closed for row in waists)


def test_nothing_is_stretched_on_to_the_edge_of_an_open_side():
    sides = [row for row in elastic_rows(opened()) if row.opening == "side"]
    assert [row.count for row in sides] == [2, 2]
    assert all(row.relaxed == pytest.approx(row.edge_length) for row in sides)


def test_sides_that_are_sewn_have_no_straps():
    garment = make_garment(design(MEDIUM))
    assert straps_of(garment) == ()
    assert not rows_of(garment)
    assert not any(step.key == "straps" for step in sewing_steps(garment))
