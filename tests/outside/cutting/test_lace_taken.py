"""How much lace a garment takes, by a fact of the trade: for a large wearer both panels in lace take roughly a metre
of it, and a lace front alone 0.3 to 0.5 of that. Common practice, no source.

Measured here, back along the leg and front upright, a hip of 118 cm: on laces 22, 25 and 27 cm wide 1.15, 1.21 and
1.22 m, the front alone 0.49, 0.46 and 0.46 of that. A front is a quarter of the girth to either side of its centre, so
its two halves take the same 56 cm of any lace; only the back gets shorter on a narrow one. On a lace of 20 cm, which
asks for a waist 19.8 cm lower on a body of 21 cm from waist to hip, the front is 0.53.
"""

from __future__ import annotations

import pytest

from galloon.design import LaceUse, Style, Use
from galloon.workflow import make_garment
from galloon.workflow.plan_cutting import plan_cutting
from tests.support.designs import LARGE, design, galloon


def taken(solid, *panels, front_seam=True, side_forward=0.0):
    """Lace (mm) that the panels of a large wearer take of a lace ``solid`` mm wide between its valleys."""
    use = LaceUse(Use.SCALLOPED_LEG, "heron", panels)
    style = Style(centre_back_seam=True, centre_front_seam=front_seam, side_forward=side_forward)
    rows, _ = plan_cutting(make_garment(design(LARGE, uses=(use,), lace=galloon(solid), style=style)))
    return next(row.plan for row in rows if row.cloth == "heron")


@pytest.mark.parametrize("solid", [200.0, 228.0, 250.0])
def test_both_panels_of_a_large_wearer_take_roughly_a_metre_and_a_front_three_to_five_tenths_of_it(solid):
    both, front = taken(solid, "front", "back"), taken(solid, "front")
    assert both.proven
    assert front.proven
    assert both.length == pytest.approx(1000.0, rel=0.25)
    assert 0.3 <= front.length / both.length <= 0.5


def test_a_front_on_the_fold_takes_as_much_less_as_its_seam_allowances():
    both, front = (taken(228.0, *panels, front_seam=False) for panels in (("front", "back"), ("front",)))
    assert front.length == pytest.approx(taken(228.0, "front").length - 2.0 * 6.0, abs=3.0)
    assert 0.3 <= front.length / both.length <= 0.5


def test_a_front_whose_side_seams_come_forward_takes_less_of_the_lace():
    both, front = (taken(228.0, *panels, side_forward=40.0) for panels in (("front", "back"), ("front",)))
    assert both.length == pytest.approx(1000.0, rel=0.25)
    assert 0.3 <= front.length / both.length <= 0.45
