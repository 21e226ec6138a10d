"""What holds of every plan: pieces clear of each other, on the cloth, all there; the bound never above the length."""

from __future__ import annotations

from collections import Counter
from math import cos, pi, sin

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from galloon.cutting import (
    Cloth,
    ClothPiece,
    ClothRules,
    Lace,
    LacePiece,
    Remnant,
    RemnantRules,
    StripRules,
    bound_cloth,
    bound_strip,
    legal_ways,
    length_to_buy,
    plan_cloth,
    plan_cloth_plain,
    plan_remnant,
    plan_strip,
    plan_strip_plain,
)
from galloon.errors import CannotMake
from tests.support.clipper import outside, rectangle, too_near

SETTINGS = settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck), derandomize=True)
CLEARANCE = 2.0


@st.composite
def outlines(draw, tallest=150.0):
    """A star-shaped outline up to ``tallest`` across, its least y at 0."""
    count = draw(st.integers(3, 10))
    reach = [draw(st.floats(0.3, 1.0)) for _ in range(count)]
    wide, tall = draw(st.floats(20.0, 200.0)), draw(st.floats(20.0, tallest))
    ring = [
        (wide / 2 * r * cos(2 * pi * k / count + 0.1), tall / 2 * r * sin(2 * pi * k / count + 0.1))
        for k, r in enumerate(reach)
    ]
    low = min(y for _, y in ring)
    return tuple((x, y - low) for x, y in ring)


@st.composite
def laces(draw):
    second = draw(st.sampled_from(["mirror", "half step", "other", "none"]))
    across = draw(st.booleans())
    return Lace(
        draw(st.sampled_from([150.0, 200.0, 260.0])),
        30.0,
        draw(st.sampled_from([10.0, 15.0, 30.0])),
        mirror_across=across,
        second_edge=second,
        half_turn=across and second == "mirror",
        reversible=draw(st.booleans()),
    )


@st.composite
def strip_orders(draw):
    lace = draw(laces())
    pieces = []
    for number in range(draw(st.integers(1, 3))):
        mirrored = draw(st.booleans())
        anchor = draw(st.sampled_from(["motif", "scallop", "free"]))
        matched = draw(st.booleans())
        pieces.append(
            LacePiece(
                f"piece {number}",
                draw(outlines()),
                2 if mirrored else draw(st.integers(1, 2)),
                mirrored,
                on_edge=matched or draw(st.booleans()),
                phase=draw(st.floats(0.0, 30.0)),
                anchor=anchor,
                matched=matched,
            )
        )
    return lace, tuple(pieces)


@SETTINGS
@given(strip_orders())
def test_every_strip_plan_is_clear_complete_and_not_under_its_bound(order):
    lace, pieces = order
    if not all(legal_ways(lace, piece, twin=True) for piece in pieces if piece.mirrored):
        with pytest.raises(CannotMake, match="twin"):
            plan_strip(lace, pieces)
        return
    plan = plan_strip(lace, pieces, StripRules(work=0.05))
    check(plan, lace.width, pieces)
    assert bound_strip(lace, pieces) <= plan.length + 1e-6
    plain = plan_strip_plain(lace, pieces)
    check(plain, lace.width, pieces)
    assert plan.lower_bound <= plain.length + 1e-6
    assert plan == plan_strip(lace, pieces, StripRules(work=0.05))


@SETTINGS
@given(
    st.lists(st.tuples(outlines(), st.booleans()), min_size=1, max_size=5),
    st.sampled_from([160.0, 300.0, 900.0]),
    st.booleans(),
    st.booleans(),
)
def test_every_cloth_plan_is_clear_complete_and_not_under_its_bound(shapes, width, nap, folded):
    cloth = Cloth(width * (2 if folded else 1), nap, folded)
    pieces = tuple(
        ClothPiece(f"piece {n}", ring, 2 if mirrored else 1, mirrored) for n, (ring, mirrored) in enumerate(shapes)
    )
    plan = plan_cloth(cloth, pieces, ClothRules(tries=5))
    check(plan, width, pieces)
    assert bound_cloth(cloth, pieces) <= plan.length + 1e-6
    check(plan_cloth_plain(cloth, pieces), width, pieces)


@SETTINGS
@given(st.lists(outlines(90.0), min_size=1, max_size=4), st.integers(0, 10**6))
def test_whatever_is_found_in_a_leftover_lies_on_it_and_clear(shapes, seed):
    room = ((0.0, 0.0), (420.0, 20.0 + seed % 37), (400.0, 260.0), (150.0, 240.0), (20.0, 300.0))
    hole = ((150.0, 90.0), (220.0, 80.0), (230.0, 150.0), (160.0, 160.0))
    pieces = tuple(ClothPiece(f"piece {n}", ring) for n, ring in enumerate(shapes))
    try:
        fit = plan_remnant(Remnant(room, (hole,)), pieces, RemnantRules(clearance=CLEARANCE, moves=300))
    except CannotMake:
        return
    found = [placed.outline for placed in fit.placed]
    assert len(found) == (len(pieces) if fit.fits else 0)
    assert too_near(found, CLEARANCE) == []
    assert outside(found, room, [hole]) == []


def check(plan, width, pieces):
    """By pyclipper, which the planner does not know: apart by the clearance, on the cloth, every copy once."""
    found = list(dict.fromkeys(placed.outline for placed in plan.placed)) if plan.folded else None
    found = found or [placed.outline for placed in plan.placed]
    assert too_near(found, CLEARANCE) == []
    assert outside(found, rectangle(plan.length, width)) == []
    assert Counter(p.piece for p in plan.placed) == {piece.name: piece.copies for piece in pieces}
    assert plan.lower_bound <= plan.length + 1e-9
    assert plan.proven == (plan.lower_bound == plan.length)
    for piece in pieces:
        hands = [placed.flipped != placed.other_side for placed in plan.placed if placed.piece == piece.name]
        assert sum(hands) == (piece.copies // 2 if piece.mirrored else 0)


@given(st.floats(0.0, 50_000.0), st.sampled_from(["mm", "cm", "in"]))
def test_what_is_bought_is_enough_and_less_than_a_step_too_much(need, unit):
    step = 914.4 / 8 if unit == "in" else 100.0
    buy = length_to_buy(need, unit)
    assert need - 1e-6 * step <= buy < need + step
    assert buy / step == pytest.approx(round(buy / step))
