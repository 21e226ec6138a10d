"""The plain block over real and random bodies: every body is drafted, or refused by name."""

from collections import Counter

import pytest
from hypothesis import event, given, settings

from galloon.body import Wearer
from galloon.design import Shape
from galloon.errors import CannotMake
from galloon.workflow.reckon import make_garment
from tests.support.bodies import cloths, make_design, plain_style, styles, wearers
from tests.support.seam_checks import centre_length, faults
from tests.support.women import women


def crotch_fault(garment):
    """How far centre front, gusset and centre back miss the reduced crotch length less the drops in force."""
    draft, wearer = garment.draft, garment.design.wearer
    asked = wearer.crotch_length * (1.0 - garment.reductions.length) - draft.front_drop - draft.back_drop
    off = centre_length(garment) - asked
    return [f"crotch length is off by {off:.3f} mm"] if abs(off) > 0.1 else []


@pytest.mark.parametrize("reduction", [0.0, 0.1, 0.2])
@pytest.mark.parametrize("shape", [Shape.BRIEF, Shape.HIPSTER, Shape.BIKINI])
def test_the_block_keeps_every_promise_on_260_real_women(shape, reduction):
    """Girths: open data set bdims (tests/support/women.py); waist to hip and crotch length are estimated there."""
    refused, broken = Counter(), []
    for number, woman in enumerate(women()):
        wearer = Wearer(woman.waist, woman.hip, woman.waist_to_hip, woman.crotch_length)
        try:
            garment = make_garment(make_design(wearer, plain_style(shape), reduction=reduction))
        except CannotMake as err:
            refused[str(err)] += 1
            continue
        broken += [f"woman {number}: {fault}" for fault in (*faults(garment), *crotch_fault(garment))]
    assert not broken
    assert not refused


@settings(max_examples=100, deadline=None)
@given(wearers(), styles(), cloths())
def test_a_random_body_in_any_cloth_is_drafted_soundly_or_refused_by_name(wearer, style, cloth):
    try:
        garment = make_garment(make_design(wearer, style, cloth=cloth))
    except CannotMake as err:
        event(f"refused: {err.args[0] if err.args else err}")
        return
    assert faults(garment) + crotch_fault(garment) == []
