"""Scallops cut apart by deep narrow notches, narrower than fringe is told apart by: the depth is right, or doubted."""

import pytest

from galloon.errors import BadInput
from galloon.reading import read_lace
from tests.support import lace_kept
from tests.support.lace_scans import Lace

#: Names under which a reading may say that its depth or edge is not to be trusted.
DOUBTS = ("depth", "edge", "scallop", "edges")


def notched(share):
    family = f"notched {share}"
    changes = {"family": family, "second_family": family, "depth": 9.0, "second_depth": 9.0, "pitch": 24.0}
    lace = Lace(**{**lace_kept.BASE, **changes, "second_pitch": 24.0, "width": 80.0})
    return lace_kept.scan_of(lace, light=True)


@pytest.mark.parametrize("share", [0.025, 0.05, 0.1, 0.2])
def test_a_notch_is_measured_to_its_ground_or_the_depth_is_doubted(share):
    drawn = notched(share)
    try:
        found = read_lace(drawn.pixels, mm_per_px=drawn.mm_per_px)
    except BadInput:
        return
    if any(word in doubt.name for doubt in found.warnings for word in DOUBTS):
        return
    assert found.scallop_depth.value == pytest.approx(9.0, rel=0.05)
    assert found.scallop_pitch.value == pytest.approx(24.0, rel=0.005)
    assert found.width.value == pytest.approx(80.0, abs=0.3)


def test_a_wide_notch_is_measured():
    drawn = notched(0.2)
    found = read_lace(drawn.pixels, mm_per_px=drawn.mm_per_px)
    assert found.scallop_depth.value == pytest.approx(9.0, rel=0.05)
