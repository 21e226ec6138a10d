"""A lace slid along its edge: what its scallops read on the centre line, and what that does at the seams."""

import pytest

from galloon.brief import brief_from, to_data
from galloon.design import Lie, Meet
from galloon.errors import BadInput, BadValue
from galloon.findings import Status
from galloon.workflow.reckon import make_garment
from tests.support.designs import design, scalloped

PITCH = 42.0


def laid(**keys):
    return make_garment(design(uses=[scalloped("back", **keys)]))


@pytest.mark.parametrize(("phase", "missed"), [(0.0, 0.0), (5.0, 10.0), (10.5, 21.0), (21.0, 0.0), (40.0, 4.0)])
def test_left_and_right_miss_each_other_by_twice_what_a_scallop_lies_off_the_seam(phase, missed):
    """Mirrored about the seam, one scale runs up to it and the other away from it: x beyond a peak meets -x."""
    garment = laid(phase=phase)
    assert garment.placements[0].phase == phase
    assert garment.placements[0].centre_mismatch == pytest.approx(missed, abs=1e-9)
    said = [one for one in garment.notes if one.name == "scallops meet at the centre"]
    assert [one.status for one in said] == ([Status.WARN] if missed > 1.0 else [])


@pytest.mark.parametrize(("meet", "phase"), [(Meet.PEAK, 0.0), (Meet.VALLEY, PITCH / 2.0)])
def test_a_peak_and_a_valley_are_two_of_its_places(meet, phase):
    said, slid = laid(meet=meet), laid(phase=phase)
    assert said.placements[0] == slid.placements[0]
    assert (said.piece("back").cut == slid.piece("back").cut).all()


def test_an_upright_lace_on_a_fold_meets_no_twin():
    garment = make_garment(design(uses=[scalloped("front", lie=Lie.UPRIGHT, phase=5.0)]))
    assert garment.placements[0].centre_mismatch is None


def test_a_phase_of_the_makers_own_is_not_moved_to_match_the_sides():
    uses = [scalloped("back"), scalloped("front", lie=Lie.ALONG_LEG, phase=7.0)]
    garment = make_garment(design(uses=uses))
    assert {one.piece: one.phase for one in garment.placements}["front"] == 7.0


def test_either_a_phase_or_what_meets():
    with pytest.raises(BadValue, match="beside meet"):
        scalloped("back", phase=5.0, meet=Meet.PEAK)


def test_the_brief_takes_and_gives_it_as_a_length(starter):
    starter["lace"][0] = {**starter["lace"][0], "meet": None, "phase": "1/2 in"}
    del starter["lace"][0]["meet"]
    brief = brief_from(starter, file="brief")
    assert brief.design.lace[0].phase == pytest.approx(12.7)
    assert to_data(brief.design)["lace"][0]["phase"] == pytest.approx(1.27)
    starter["lace"][0]["meet"] = "peak"
    with pytest.raises(BadInput, match="phase"):
        brief_from(starter, file="brief")


@pytest.fixture
def starter():
    import tomllib

    from galloon.brief import starter_brief

    return tomllib.loads(starter_brief())
