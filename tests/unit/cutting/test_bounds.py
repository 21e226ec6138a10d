"""Length bounds reckoned without searching: no plan is ever shorter, and plain cases are met exactly."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from galloon.cutting import (
    Cloth,
    ClothPiece,
    Lace,
    LacePiece,
    bound_cloth,
    bound_strip,
    plan_cloth,
    plan_strip,
)
from galloon.errors import CannotMake

LACE = Lace(200.0, 30.0, 30.0, mirror_across=True, second_edge="mirror", reversible=True)


def box(wide, tall):
    return ((0.0, 0.0), (wide, 0.0), (wide, tall), (0.0, tall))


def wedge(wide, tall, lean):
    return ((0.0, 0.0), (wide, 0.0), (lean, tall))


@settings(max_examples=25, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(30, 150), st.floats(40, 190), st.floats(-40, 180), st.integers(1, 2)),
        max_size=3,
        min_size=1,
    )
)
def test_no_strip_is_shorter_than_its_bound(shapes):
    pieces = [
        LacePiece(str(number), wedge(wide, tall, lean), copies, phase=5.0)
        for number, (wide, tall, lean, copies) in enumerate(shapes)
    ]
    assert bound_strip(LACE, pieces) <= plan_strip(LACE, pieces).length + 1e-6


@settings(max_examples=25, deadline=None)
@given(
    st.lists(
        st.tuples(st.floats(30, 300), st.floats(40, 480), st.floats(-40, 300), st.integers(1, 2)),
        max_size=4,
        min_size=1,
    )
)
def test_no_cloth_is_shorter_than_its_bound(shapes):
    pieces = [
        ClothPiece(str(n), wedge(wide, tall, lean), copies) for n, (wide, tall, lean, copies) in enumerate(shapes)
    ]
    cloth = Cloth(500.0)
    bound, plan = bound_cloth(cloth, pieces), plan_cloth(cloth, pieces)
    assert bound <= plan.length + 1e-6
    assert bound == pytest.approx(plan.lower_bound, abs=0.02) or bound < plan.lower_bound


def test_pieces_as_tall_as_the_lace_follow_one_another():
    piece = LacePiece("a", box(100.0, 200.0), 3)
    assert bound_strip(LACE, [piece]) == pytest.approx(300.0)


def test_pieces_on_both_edges_share_the_length():
    piece = LacePiece("a", box(100.0, 90.0), 4)
    assert bound_strip(LACE, [piece]) == pytest.approx(180.0)


def test_what_can_never_be_cut_is_refused_as_a_plan_would_refuse_it():
    with pytest.raises(CannotMake, match="fits nowhere"):
        bound_cloth(Cloth(100.0), [ClothPiece("a", box(50.0, 120.0))])
    with pytest.raises(CannotMake):
        bound_strip(LACE, [LacePiece("a", box(50.0, 220.0))])
