"""Laces that once misled the reader: deep narrow valleys, fringe beside a cusp, unlike edges, one scalloped edge."""

import numpy as np
import pytest

from galloon.reading import read_lace
from galloon.reading.pitch import simple_ratio
from galloon.reading.profile import fold
from tests.support import lace_scans


def drawn_lace(*, width=80.0, pitch=24.0, depth=7.0, **changes):
    return lace_scans.plain_lace(width, pitch, depth, **changes)


def read(lace, seed=3, level="easy"):
    drawn = lace_scans.scan(seed, level, lace=lace, dpi=150)
    return read_lace(drawn.pixels, mm_per_px=drawn.mm_per_px), drawn.truth


def test_valleys_that_leave_less_than_half_the_width_are_measured_too():
    found, truth = read(drawn_lace(width=72.0, pitch=40.0, depth=22.0, second_depth=22.0, second_pitch=40.0, pitches=1))
    assert found.scallop_depth.value == pytest.approx(truth["scallop_depth"], rel=0.01)
    assert found.width.value == pytest.approx(truth["width"], abs=0.15)


def test_one_repeat_binds_the_pitches_of_unlike_edges():
    lace = drawn_lace(second_edge="other", half_turn=False, second_pitch=12.0, second_depth=4.0)
    found, truth = read(lace, level="hard")
    told = sorted((found.scallop_pitch.value, found.second_pitch.value))
    assert told == pytest.approx(sorted((truth["scallop_pitch"], truth["second_pitch"])), rel=0.002)
    assert told[1] == pytest.approx(2 * told[0])


def test_the_pitch_of_one_scalloped_edge_is_not_spoilt_by_its_motifs():
    found, truth = read(drawn_lace(edges="single scallop", half_turn=False))
    assert found.scallop_pitch.value == pytest.approx(truth["scallop_pitch"], rel=0.001)


@pytest.mark.parametrize(("ratio", "pair"), [(1.004, (1, 1)), (0.502, (1, 2)), (1.331, (4, 3)), (2.99, (3, 1))])
def test_pitches_of_one_repeat_stand_in_whole_numbers_in_lowest_terms(ratio, pair):
    assert simple_ratio(ratio)[:2] == pair


def cusped(step=0.127, passes=3.0, pitch=13.0, depth=6.5):
    """Steep arches that meet in cusps, sampled once per column."""
    x = np.arange(0, passes * pitch, step)
    return x / pitch, depth * np.abs(np.sin(np.pi * x / pitch)), pitch, depth


def test_a_steep_cusp_is_known_better_than_its_rise_within_one_column():
    turns, heights, pitch, depth = cusped()
    rng = np.random.default_rng(1)
    noisy = np.where(heights < 0.25, 0.25, heights) + rng.normal(0, 0.02, len(heights))
    found = fold(turns, noisy, pitch)
    assert found.depth == pytest.approx(depth, abs=0.1)
    assert abs(found.depth - depth) < 3 * np.hypot(found.peak_error, found.valley_error)


def test_a_fringe_thread_along_one_flank_of_a_valley_does_not_fill_it():
    turns, heights, pitch, depth = cusped()
    beside = (turns > 0.92) & (turns < 1.0)
    found = fold(turns, heights + np.where(beside, 0.6, 0.0), pitch)
    assert found.depth == pytest.approx(depth, abs=0.25)


def test_a_stretch_that_no_scallop_shows_is_reported():
    turns, heights, pitch, _ = cusped()
    seen = np.mod(turns, 1.0) > 0.2
    assert fold(turns[seen], heights[seen], pitch).blank == pytest.approx(0.2 * pitch, abs=0.2)
    assert fold(turns, heights, pitch).blank < 0.2
