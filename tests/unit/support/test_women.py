"""The open body data that other tests sweep over is the data its source describes."""

import numpy as np
import pytest

from tests.support.women import Woman, women

# Percentiles 1, 50 and 99 in mm, as noted from the data set when it was chosen (data set bdims, 260 women).
PUBLISHED = {
    "waist": (580, 683, 950),
    "hip": (818, 950, 1121),
    "thigh": (489, 564, 696),
    "height": (1506, 1645, 1798),
}


def test_the_sample_is_the_260_women_of_the_data_set():
    assert len(women()) == 260


@pytest.mark.parametrize("measure", PUBLISHED)
def test_percentiles_equal_the_published_ones(measure):
    seen = np.percentile([getattr(woman, measure) for woman in women()], [1, 50, 99])
    assert seen == pytest.approx(PUBLISHED[measure], abs=0.51), f"{measure} to the nearest mm"


def test_thigh_and_waist_stand_to_the_hip_as_published():
    thigh = np.percentile([woman.thigh / woman.hip for woman in women()], [5, 95])
    waist = np.percentile([woman.hip / woman.waist for woman in women()], [5, 95])
    assert thigh == pytest.approx([0.563, 0.630], abs=0.0005)
    assert waist == pytest.approx([1.245, 1.502], abs=0.0005)


def test_estimated_lengths_follow_the_ratios_seen_on_generated_bodies():
    woman = Woman(waist=700, navel=800, hip=997, thigh=570, height=1640)
    assert woman.waist_to_hip == pytest.approx(205.0)
    assert woman.crotch_length == pytest.approx(997 * 0.74)
    slight = Woman(waist=500, navel=600, hip=800, thigh=450, height=1640)
    assert slight.crotch_length == pytest.approx(800 * 0.72)


def test_every_estimated_crotch_length_is_a_plausible_share_of_the_hip():
    assert all(0.62 <= woman.crotch_length / woman.hip <= 0.85 for woman in women())
