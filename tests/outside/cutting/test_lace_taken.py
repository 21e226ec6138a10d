"""How much lace a garment takes, by a fact of the trade: for a large wearer both panels in lace take roughly a metre
of it, and a lace front alone 0.3 to 0.5 of that. Common practice, no source.

Measured here: 1.06 m and 1.21 m on laces 20 and 25 cm wide; the front alone 0.53 and 0.46 of that.
"""

from __future__ import annotations

import pytest

from galloon.design import LaceUse, Style, Use
from galloon.workflow import make_garment
from galloon.workflow.plan_cutting import plan_cutting
from tests.support.designs import LARGE, design, galloon


def taken(solid, *panels):
    """Lace (mm) that the panels of a large wearer take of a lace ``solid`` mm wide between its valleys."""
    use = LaceUse(Use.SCALLOPED_LEG, "heron", panels)
    style = Style(centre_back_seam=True, centre_front_seam=True)
    rows, _ = plan_cutting(make_garment(design(LARGE, uses=(use,), lace=galloon(solid), style=style)))
    return next(row.plan for row in rows if row.cloth == "heron")


@pytest.mark.parametrize("solid", [180.0, 228.0])
def test_both_panels_of_a_large_wearer_take_roughly_a_metre_and_a_front_about_half_of_it(solid):
    both, front = taken(solid, "front", "back"), taken(solid, "front")
    assert both.proven
    assert front.proven
    assert both.length == pytest.approx(1000.0, rel=0.25)
    assert 0.3 <= front.length / both.length <= 0.55
