"""Placings combine and keep what they promise."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from galloon.drawing import Matrix
from galloon.errors import BadValue

numbers = st.floats(-100.0, 100.0, allow_nan=False)


@st.composite
def matrices(draw):
    first = Matrix.mirror_x(draw(numbers)) if draw(st.booleans()) else Matrix.move(draw(numbers), draw(numbers))
    return first.then(Matrix.turn(draw(numbers))).then(Matrix.scale(draw(st.floats(0.1, 10.0))))


@given(matrices(), matrices(), numbers, numbers)
def test_one_placing_then_another_is_both_in_that_order(first, second, x, y):
    assert first.then(second).apply(x, y) == pytest.approx(second.apply(*first.apply(x, y)), abs=1e-6)


@given(numbers, numbers, numbers, numbers, numbers)
def test_a_turn_keeps_its_centre_and_all_distances_from_it(angle, cx, cy, x, y):
    turn = Matrix.turn(angle, about=(cx, cy))
    assert turn.apply(cx, cy) == pytest.approx((cx, cy), abs=1e-9)
    assert math.dist(turn.apply(x, y), (cx, cy)) == pytest.approx(math.dist((x, y), (cx, cy)), abs=1e-9)


def test_a_quarter_turn_is_anticlockwise():
    assert Matrix.turn(90.0).apply(1.0, 0.0) == pytest.approx((0.0, 1.0))


def test_a_mirror_turns_the_plane_over_and_keeps_lengths():
    mirror = Matrix.mirror_x(10.0)
    assert mirror.apply(12.0, 5.0) == (8.0, 5.0)
    assert mirror.determinant < 0.0
    assert mirror.growth == 1.0


@pytest.mark.parametrize("bad", [{"a": math.nan}, {"e": math.inf}, {"a": 0.0}])
def test_a_placing_that_loses_the_plane_is_refused(bad):
    with pytest.raises(BadValue, match="matrix"):
        Matrix(**bad)
