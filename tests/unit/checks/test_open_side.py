"""Open sides on the body: gap and straps at rest, straps that fit and hold the edge, and what does not go with them."""

from dataclasses import replace

import pytest

from galloon.checks import Evidence, Opened, judge, opening_reach
from galloon.checks.girth import hip_bands
from galloon.design import Drops, LaceUse, OpenSide, Shape, Style, Use
from galloon.findings import Status
from galloon.materials import PullTest, usual_elastic
from galloon.pieces import side_height
from galloon.sewing import elastic_reach, elastic_rows
from galloon.workflow.reckon import make_garment
from tests.support.designs import EDGING, ELASTIC, MEDIUM, TESTED_MESH, design, galloon

STRAP = usual_elastic("strap elastic 12 mm")
LOW = Style(Shape.HIPSTER, Drops.level(60.0), 50.0)
#: What a strap of the tests takes, N at unit strain: a weight of 450 g stretches it by 30 %.
PULL = 0.450 * 9.80665 / 0.30


def weighed(load_g, width=12.0):
    return replace(STRAP, name="weighed", width=width, pull_tests=(PullTest("length", width, load_g, 0.30),))


def opened(side, *, style=LOW, **changes):
    plain = design(MEDIUM, style=style, **changes)
    return make_garment(replace(plain, open_side=side, finishes=replace(plain.finishes, side=ELASTIC)))


def judged(garment):
    rows = elastic_rows(garment)
    reach = {name: Opened(one.reach, one.kind) for name, one in elastic_reach(garment, rows).items()}
    return judge(Evidence(garment, reach))


def found(garment, name):
    return next(finding for finding in judged(garment) if finding.name == name)


def test_panels_and_straps_rest_where_their_forces_are_equal():
    """Whole panels pull with their stiffness times the height of the side, each strap with its own, all in one ring."""
    side = OpenSide(70.0, 70.0, weighed(450.0), 3, 0.12)
    garment = opened(side, cloths=(TESTED_MESH,))
    height = side_height(garment) / 1000.0
    mesh = 0.500 * 9.80665 / 0.050 / 0.32
    panels = sum(band.width for band in hip_bands(garment, "front", "back"))
    straps = 2.0 * 70.0 / 1.12
    force = (MEDIUM.hip - panels - straps) / (panels / (mesh * height) + straps / (3.0 * PULL))
    strain = force / (3.0 * PULL)
    assert found(garment, "strap strain").value == pytest.approx(100.0 * strain, rel=2e-3)
    assert found(garment, "gap of the open side").value == pytest.approx(70.0 / 1.12 * (1.0 + strain), rel=2e-3)
    assert found(garment, "panel strain").value == pytest.approx(100.0 * force / (mesh * height), rel=2e-3)


@pytest.mark.parametrize(
    ("load", "status", "word"),
    [(15.0, Status.FAIL, "give out"), (180.0, Status.WARN, "hip bone"), (450.0, Status.PASS, "usual"),
     (9000.0, Status.WARN, "hang loose")],
)  # fmt: skip
def test_straps_too_soft_or_too_firm_for_the_panels_are_told(load, status, word):
    finding = found(opened(OpenSide(70.0, 70.0, weighed(load), 3), cloths=(TESTED_MESH,)), "strap strain")
    assert finding.status is status
    assert word in finding.says


def test_soft_straps_let_the_gap_grow_and_the_finding_says_what_was_asked():
    finding = found(opened(OpenSide(90.0, 90.0, weighed(60.0), 2), cloths=(TESTED_MESH,)), "gap of the open side")
    assert (finding.status, finding.limit) == (Status.WARN, pytest.approx(90.0, abs=0.1))
    assert finding.value > 98.0
    assert "9 cm was asked" in finding.says


def test_the_strap_s_own_stretch_bounds_both_openings():
    for name, sides in (("waist", 2), ("leg", 1)):
        reaches = []
        for stretch in (0.2, 0.6):
            garment = opened(OpenSide(100.0, 100.0, replace(STRAP, stretch=stretch), 2, 0.1))
            rows = elastic_reach(garment, elastic_rows(garment))
            evidence = Evidence(garment, {key: Opened(one.reach, one.kind) for key, one in rows.items()})
            reaches.append(opening_reach(evidence, name)[0])
        assert reaches[1] > reaches[0] + sides * 100.0 / 1.1 * 0.3


def test_an_edge_with_straps_far_apart_is_told_how_many_would_hold_it():
    few = found(
        opened(OpenSide(80.0, 80.0, STRAP, 2), style=Style(waist_drop=Drops.level(0.0))), "straps hold the side edge"
    )
    assert few.status is Status.WARN
    asked = int(few.says.split("Take ")[1].split()[0])
    enough = opened(OpenSide(80.0, 80.0, STRAP, asked), style=Style(waist_drop=Drops.level(0.0)))
    assert found(enough, "straps hold the side edge").status is Status.PASS


@pytest.mark.parametrize(("end", "where"), [("waist", "at the waist"), ("leg", "beside the gusset")])
def test_a_gap_that_leaves_too_little_cloth_is_drawn_as_wide_as_it_can_be_at_that_end(end, where):
    slim = replace(MEDIUM, waist=600.0, hip=800.0, top_hip=None, thigh=None)
    plain = design(slim, style=replace(LOW, waist_drop=Drops.level(10.0)))
    side = replace(OpenSide(60.0, 60.0, STRAP), **{end: 300.0})
    garment = make_garment(replace(plain, open_side=side, finishes=replace(plain.finishes, side=ELASTIC)))
    finding = found(garment, "open side leaves a panel")
    assert finding.status is Status.FAIL
    assert where in finding.says
    other = {"waist": "leg", "leg": "waist"}[end]
    assert getattr(garment.design.open_side, end) == pytest.approx(finding.limit)
    assert getattr(garment.design.open_side, other) == 60.0


def test_more_straps_than_lie_above_one_another_are_not_planned():
    garment = opened(OpenSide(60.0, 60.0, usual_elastic("strap elastic 30 mm"), 8))
    finding = found(garment, "straps fit the open side")
    assert finding.status is Status.FAIL
    assert garment.design.open_side.straps * 30.0 <= finding.limit


@pytest.mark.parametrize(
    ("use", "status", "says"),
    [
        (LaceUse(Use.WAISTBAND, "heron", ("front", "back")), Status.FAIL, "waistband of heron and the open side"),
        (LaceUse(Use.INSERTION, "heron", ("front", "back"), over_seam="side"), Status.FAIL, "over the side seam and"),
        (LaceUse(Use.EDGE_TRIM, "edging", ("front", "back"), edge_on="waist"), Status.WARN, "stops at the open side"),
    ],
)
def test_a_lace_that_would_run_across_the_gap_is_told_by_both_names(use, status, says):
    garment = opened(OpenSide(60.0, 60.0, STRAP), uses=[use], lace=galloon(40.0), cloths=(EDGING,))
    finding = next(one for one in garment.notes if one.name == "lace uses go together")
    assert (finding.status, finding.about) == (status, f"lace {use.cloth}")
    assert says in finding.says
    assert (use in garment.design.lace) == (status is Status.WARN)


def test_a_strip_over_the_centre_seam_goes_well_with_open_sides():
    use = LaceUse(Use.INSERTION, "heron", ("front", "back"), over_seam="centre back")
    garment = opened(
        OpenSide(60.0, 60.0, STRAP), style=replace(LOW, centre_back_seam=True), uses=[use], lace=galloon(20.0)
    )
    assert use in garment.design.lace
    assert not any(note.name == "lace uses go together" for note in garment.notes)


def test_one_piece_that_wraps_is_cut_apart_and_says_why():
    garment = opened(OpenSide(60.0, 60.0, STRAP), style=replace(LOW, side_forward=None, centre_back_seam=True))
    finding = next(one for one in garment.notes if one.name == "no side seam")
    assert finding.status is Status.FAIL
    assert 'side_seam = "none" and [open_side]' in finding.says
    assert {piece.name for piece in garment.outer} == {"front", "back", "gusset"}
