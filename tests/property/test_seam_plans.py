"""Moving a seam moves cloth, not body: every girth, the crotch length and the leg opening stay as they were."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import HealthCheck, assume, given, seed, settings
from hypothesis import strategies as st

from galloon.design import SHAPES, Drops, GussetPlan, Shape, Split, Style
from galloon.findings import Status
from galloon.workflow.reckon import make_garment
from tests.support.bodies import everyday_wearers, make_design
from tests.support.designs import MEDIUM
from tests.support.seam_checks import SAME, centre_length, faults, half_girth, leg_opening, levels

#: Findings that say a plan does not go with a body.
REFUSED = {"no side seam"}
NARROW = (Shape.TANGA, Shape.THONG)


@st.composite
def plain_styles(draw, shapes=tuple(Shape)):
    """A style with every seam where it usually is; the waist below the body's, where no centre line ends."""
    shape = draw(st.sampled_from(shapes))
    preset = SHAPES[shape]
    return Style(shape, Drops.level(draw(st.floats(20.0, 80.0))), preset.leg_raise * draw(st.floats(0.3, 1.0)),
                 preset.coverage)  # fmt: skip


def across(y):
    return ((-50.0, y), (500.0, y + 20.0))


PLANS = {
    "centre back seam": st.just({"centre_back_seam": True}),
    "centre front seam": st.just({"centre_front_seam": True}),
    "shaped centre back": st.floats(2.0, 30.0).map(lambda mm: {"centre_back_shape": mm}),
    "shaped centre front": st.floats(2.0, 30.0).map(lambda mm: {"centre_front_shape": mm}),
    "both centres shaped": st.floats(2.0, 20.0).map(lambda mm: {"centre_front_shape": mm, "centre_back_shape": 2 * mm}),
    "side forward": st.floats(3.0, 45.0).map(lambda mm: {"side_forward": mm}),
    "side forward, centre shaped": st.floats(3.0, 30.0).map(lambda mm: {"side_forward": mm, "centre_back_shape": 15.0}),
    "no side seam": st.just({"side_forward": None, "centre_back_seam": True}),
    "no side seam, front seam": st.just({"side_forward": None, "centre_back_seam": True, "centre_front_seam": True}),
    "gusset on front": st.just({"gusset": GussetPlan.ON_FRONT}),
    "gusset on back": st.just({"gusset": GussetPlan.ON_BACK}),
    "split back": st.floats(-170.0, -110.0).map(lambda y: {"splits": (Split("back", across(y)),)}),
    "curved split front": st.floats(-170.0, -110.0).map(
        lambda y: {"splits": (Split("front", ((-50.0, y), (90.0, y + 12.0), (500.0, y)), curved=True),)}
    ),
    "gusset on front, side forward": st.floats(3.0, 45.0).map(
        lambda mm: {"gusset": GussetPlan.ON_FRONT, "side_forward": mm}
    ),
}


def moved_body(before, after):
    """What changed that must not have."""
    high, low = (bound(*pair) for bound, pair in zip((min, max), zip(levels(before), levels(after), strict=True),
                                                     strict=True))  # fmt: skip
    assume(high - low > 5.0)
    found = []
    for level in np.linspace(low + 0.5, high - 0.5, 9):
        off = 2.0 * (half_girth(after, level) - half_girth(before, level))
        if abs(off) > SAME:
            found.append(f"girth at {level:.0f} mm is off by {off:.3f} mm")
    for name, measure in (("crotch length", centre_length), ("leg opening", leg_opening)):
        off = measure(after) - measure(before)
        if abs(off) > SAME:
            found.append(f"{name} is off by {off:.3f} mm")
    return found


@pytest.mark.parametrize("plan", PLANS)
def test_a_seam_moved_leaves_the_body_where_it_was(plan):
    @seed(1)
    @settings(max_examples=25, deadline=None, database=None, suppress_health_check=[HealthCheck.filter_too_much])
    @given(everyday_wearers(), plain_styles(), PLANS[plan])
    def body_stays(wearer, style, changes):
        if "splits" in changes or changes.get("gusset") or changes.get("side_forward", 0.0) is None:
            assume(style.shape not in NARROW)
        before = make_garment(make_design(wearer, style))
        after = make_garment(make_design(wearer, replace(style, **changes)))
        refused = {note.name for note in after.notes if note.status is Status.FAIL}
        assert refused <= REFUSED
        assume(not refused)
        assert moved_body(before, after) == []
        assert faults(after) == []

    body_stays()


@settings(max_examples=40, deadline=None, derandomize=True, database=None)
@given(everyday_wearers(), plain_styles(NARROW))
def test_a_gusset_in_one_piece_with_a_narrow_back_leaves_the_body_where_it_was(wearer, style):
    before = make_garment(make_design(wearer, style))
    after = make_garment(make_design(wearer, replace(style, gusset=GussetPlan.CENTRE_SEAM)))
    assert moved_body(before, after) == []
    assert faults(after) == []


def test_a_shaped_centre_takes_in_what_it_says_and_the_sides_give_it_back():
    style = Style(waist_drop=Drops.level(30.0))
    plain, shaped = (make_garment(make_design(MEDIUM, replace(style, centre_back_shape=mm))) for mm in (0.0, 20.0))
    waists = [{name: one.piece(name).part.edge("waist") for name in ("front", "back")} for one in (plain, shaped)]
    assert waists[1]["back"].end.real == pytest.approx(20.0)
    for name in ("front", "back"):
        assert waists[1][name].start.real - waists[0][name].start.real == pytest.approx(10.0, abs=0.5)
    note = next(note for note in shaped.notes if note.name == "shaped centre back")
    assert (note.status, note.value) == (Status.PASS, pytest.approx(40.0))
