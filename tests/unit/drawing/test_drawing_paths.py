"""Paths hold what they were given, and their chords stay near them."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from galloon.drawing import Matrix, Path
from galloon.drawing.paths import moved_path
from galloon.errors import BadValue
from galloon.geometry import curve_through

coordinates = st.floats(-500.0, 500.0, allow_nan=False).map(lambda value: round(value, 3))
points = st.tuples(coordinates, coordinates)
cubics = st.tuples(*[coordinates] * 6)


def test_points_may_be_pairs_complex_numbers_or_arrays_of_either():
    expected = Path((1.0, 2.0), ((3.0, 4.0),))
    for given_points in ([(1, 2), (3, 4)], [1 + 2j, 3 + 4j], np.array([1 + 2j, 3 + 4j]), np.array([[1, 2], [3, 4]])):
        assert Path.polyline(given_points) == expected


def test_a_run_of_cubics_becomes_steps_with_handles():
    run = curve_through([0j, 10 + 10j, 20 + 0j])
    path = Path.curve(run)
    assert path.corners == ((0.0, 0.0), (10.0, 10.0), (20.0, 0.0))
    assert path.steps[0][:2] == (run[0].out.real, run[0].out.imag)


@pytest.mark.parametrize("radius", [0.5, 25.0, 400.0])
def test_a_circle_is_round_within_three_parts_in_ten_thousand(radius):
    circle = Path.circle((7.0, -3.0), radius)
    distances = [math.dist(point, (7.0, -3.0)) for point in circle.flat(radius / 1e5)]
    assert max(distances) <= radius * 1.0003
    assert min(distances) >= radius * (1 - 1e-4)


@given(points, cubics, st.sampled_from([0.1, 1.0]))
def test_chords_of_a_curve_stay_within_the_sag(start, step, sag):
    import shapely

    path = Path(start, (step,))
    fine = shapely.points(path.flat(sag / 20.0))
    assert shapely.distance(fine, shapely.LineString(path.flat(sag))).max() <= sag * 1.001 + 1e-9


def test_the_flat_form_of_a_closed_path_does_not_repeat_its_start():
    ring = Path((0, 0), ((10, 0), (10, 10), (0, 0)), closed=True)
    assert ring.flat() == ((0, 0), (10, 0), (10, 10))


@given(points, st.lists(st.one_of(points, cubics), min_size=1, max_size=5))
def test_bounds_hold_every_point_of_the_path(start, steps):
    path = Path(start, tuple(steps))
    left, bottom, right, top = path.bounds
    assert all(left - 1e-6 <= x <= right + 1e-6 and bottom - 1e-6 <= y <= top + 1e-6 for x, y in path.flat(0.5))


@given(points, st.lists(st.one_of(points, cubics), min_size=1, max_size=4))
def test_moving_a_path_moves_each_of_its_points(start, steps):
    path, by = Path(start, tuple(steps)), Matrix.turn(30.0).then(Matrix.move(5.0, -2.0))
    moved = moved_path(path, by)
    assert np.allclose(moved.corners, [by.apply(*corner) for corner in path.corners])
    assert [len(step) for step in moved.steps] == [len(step) for step in path.steps]


@pytest.mark.parametrize("bad", [(math.nan, 0.0), (0.0, math.inf)])
def test_a_path_with_a_point_nowhere_is_refused(bad):
    with pytest.raises(BadValue, match="finite"):
        Path((0.0, 0.0), (bad,))


def test_a_step_of_the_wrong_size_is_refused():
    with pytest.raises(BadValue, match="2 or 6"):
        Path((0.0, 0.0), ((1.0, 2.0, 3.0),))


def test_a_polyline_without_points_is_refused():
    with pytest.raises(BadValue, match="at least one point"):
        Path.polyline([])
