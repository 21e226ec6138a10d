import pytest

from galloon.sewing import cut_length, strap_length


def test_a_waist_of_640_mm_at_88_percent_with_10_mm_overlap_takes_573_2_mm():
    assert cut_length([(640.0, 0.88)], 10.0) == pytest.approx(573.2)


def test_a_leg_of_260_mm_flat_in_front_and_320_mm_at_85_percent_behind_takes_542_mm():
    assert cut_length([(260.0, 1.0), (320.0, 0.85)], 10.0) == pytest.approx(542.0)


def test_a_strap_is_its_span_on_the_body_over_1_15_and_both_ends():
    assert strap_length(230.0) == pytest.approx(200.0 + 24.0)
