"""An open side takes cloth away and nothing else: panels and gap together are as wide, at every level, as panels that
meet; whatever uses, seams and finishes go with it, the pattern stays sound.
"""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import HealthCheck, Phase, assume, given, seed, settings
from hypothesis import strategies as st

from galloon.design import Drops, OpenSide, Shape, Style
from galloon.errors import CannotMake
from galloon.materials import usual_elastic
from galloon.pieces import gap_at, straps_of
from galloon.workflow.reckon import make_garment
from tests.property.test_designs import QUIET, broken
from tests.property.test_seam_plans import plain_styles
from tests.support.bodies import everyday_wearers, make_design
from tests.support.designs import MEDIUM
from tests.support.seam_checks import SAME, centre_length, faults, half_girth, levels
from tests.support.technique_designs import technique_designs

STRAP = usual_elastic("strap elastic 10 mm")
UNLIKE = {"front": 0.20, "back": 0.05}
PLANS = {
    "plain": st.just({}),
    "centre back seam": st.just({"centre_back_seam": True}),
    "side forward": st.floats(3.0, 30.0).map(lambda mm: {"side_forward": mm}),
    "shaped centres": st.floats(2.0, 20.0).map(lambda mm: {"centre_back_shape": mm, "centre_front_shape": mm / 2.0}),
}


def pair(wearer, style, side):
    """The same garment with its sides sewn and with them open."""
    shut = make_design(wearer, style)
    finishes = replace(shut.finishes, side=shut.finishes.waist)
    return make_garment(shut), make_garment(replace(shut, finishes=finishes, open_side=side))


def missing(garment):
    """What half the girth lacks in relaxed cloth for 1 mm of gap on the body: half of it on either panel."""
    cut = garment.reductions
    return ((1.0 - cut.front) + (1.0 - cut.back)) / 2.0


def beyond(before, after, panel):
    """How much (mm) of a panel's leg line has gone with what was cut back."""
    leg = before.piece(panel).edge_points("leg")
    end = after.piece(panel).edge_points("leg")[-1]
    steps = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(leg)))])
    nearest = min(range(len(leg) - 1), key=lambda i: _away(end, leg[i], leg[i + 1]))
    return steps[-1] - steps[nearest] - abs(end - leg[nearest])


def _away(point, start, end):
    along = (point - start) / (end - start)
    held = min(1.0, max(0.0, along.real))
    return abs(point - start - held * (end - start))


@pytest.mark.parametrize("plan", PLANS)
def test_panels_and_gap_together_keep_every_girth_and_length(plan):
    @seed(3)
    @settings(max_examples=25, deadline=None, database=None, suppress_health_check=[HealthCheck.filter_too_much])
    @given(everyday_wearers(), plain_styles(), PLANS[plan], st.floats(20.0, 120.0), st.integers(1, 4))
    def body_stays(wearer, style, changes, gap, straps):
        style = replace(style, **changes)
        before, after = pair(wearer, style, OpenSide(gap, gap, STRAP, straps))
        gap = after.design.open_side.waist
        high, low = (bound(*ends) for bound, ends in zip((min, max), zip(levels(before), levels(after), strict=True),
                                                         strict=True))  # fmt: skip
        assume(high - low > 5.0)
        for level in np.linspace(low + 0.5, high - 0.5, 9):
            off = 2.0 * (half_girth(after, level) + gap * missing(after) - half_girth(before, level))
            assert abs(off) <= SAME, f"girth at {level:.0f} mm is off by {off:.3f} mm"
            assert gap_at(after, level) == pytest.approx(gap, abs=SAME)
        assert centre_length(after) == pytest.approx(centre_length(before), abs=SAME)
        for panel in ("front", "back"):
            legs = [one.piece(panel).edge("leg").length for one in (before, after)]
            assert legs[0] - legs[1] == pytest.approx(beyond(before, after, panel), abs=SAME)
        assert faults(after) == []

    body_stays()


@seed(5)
@settings(max_examples=40, deadline=None, database=None)
@given(everyday_wearers(), plain_styles(), st.floats(15.0, 110.0), st.floats(15.0, 110.0), st.integers(2, 5))
def test_a_gap_that_narrows_measures_what_was_asked_at_waist_and_leg(wearer, style, waist, leg, straps):
    garment = pair(wearer, style, OpenSide(waist, leg, STRAP, straps))[1]
    side = garment.design.open_side
    for panel in ("front", "back"):
        share = (1.0 - getattr(garment.reductions, panel)) / 2.0
        points = garment.piece(panel).edge_points("side")
        for point, gap in ((points[-1], side.waist), (points[0], side.leg)):
            short = garment.frame.side_x(panel, -point.imag) - point.real
            assert short == pytest.approx(gap * share, abs=1e-6)
    found = straps_of(garment)
    assert [strap.number for strap in found] == list(range(1, side.straps + 1))
    for strap in found:
        apart = (strap.front.at - strap.back.at).imag / (1.0 - garment.reductions.length)
        widest, narrowest = max(side.waist, side.leg), min(side.waist, side.leg)
        assert np.hypot(narrowest, apart) - SAME <= strap.span <= np.hypot(widest, apart) + SAME


def test_cloths_that_stretch_differently_are_cut_back_by_their_own_share():
    shut = make_design(MEDIUM, Style(Shape.HIPSTER, Drops.level(60.0), 30.0), girth_reduction=UNLIKE)
    finishes = replace(shut.finishes, side=shut.finishes.waist)
    garment = make_garment(replace(shut, finishes=finishes, open_side=OpenSide(100.0, 100.0, STRAP)))
    for panel, short in (("front", 40.0), ("back", 47.5)):
        point = garment.piece(panel).edge_points("side")[-1]
        assert garment.frame.side_x(panel, -point.imag) - point.real == pytest.approx(short)


@pytest.mark.parametrize("start", [11, 12])
def test_open_sides_are_sound_whatever_uses_seams_and_finishes_go_with_them(start):
    refused = []

    @seed(start)
    @settings(max_examples=60, deadline=None, database=None, phases=[Phase.generate], suppress_health_check=QUIET)
    @given(technique_designs(opened=True))
    def sound(design):
        try:
            assert broken(design) == []
        except CannotMake as error:
            refused.append(error.subject)

    sound()
    assert set(refused) <= {"crotch_length"}
    assert len(refused) <= 6
