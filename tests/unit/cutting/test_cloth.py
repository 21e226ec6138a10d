import pytest
from shapely.geometry import Polygon, box

from galloon.cutting import (
    Cloth,
    ClothPiece,
    ClothRules,
    clashes,
    plan_cloth,
    plan_cloth_longer,
    plan_cloth_plain,
)
from galloon.errors import BadValue, CannotMake

from .shapes import BACK, FRONT, INSET, PEG, SIDE

PIECES = tuple(
    ClothPiece(name, outline, copies=2, mirrored=True)
    for name, outline in (("back", BACK), ("front", FRONT), ("inset", INSET), ("side", SIDE))
)


def good(plan, clearance=2.0):
    outlines = [placed.outline for placed in plan.placed]
    cloth = box(0, 0, plan.length, plan.width).buffer(1e-6)
    return clashes(outlines, clearance) == [] and all(cloth.covers(Polygon(outline)) for outline in outlines)


def congruent(outline, drawn, *, flip, turn):
    """The outline is the drawn one mirrored in x if ``flip``, then turned half round if ``turn``, then moved."""
    moved = [(-x if flip else x, y) for x, y in drawn]
    moved = [(-x, -y) if turn else (x, y) for x, y in moved]
    (ax, ay), (bx, by) = (min(p[i] for p in outline) for i in (0, 1)), (min(p[i] for p in moved) for i in (0, 1))
    shifted = Polygon([(x + ax - bx, y + ay - by) for x, y in moved])
    return shifted.symmetric_difference(Polygon(outline)).area < 1e-6


@pytest.mark.parametrize("width", [300, 450, 700, 1500])
@pytest.mark.parametrize("nap", [False, True])
def test_every_layout_is_clear_and_on_the_cloth_with_both_hands(width, nap):
    plan = plan_cloth(Cloth(width, nap=nap), PIECES)
    assert good(plan)
    drawn = {piece.name: piece.outline for piece in PIECES}
    for placed in plan.placed:
        assert congruent(placed.outline, drawn[placed.piece], flip=placed.flipped, turn=placed.turned)
        assert not (nap and placed.turned)
    assert sorted((p.piece, p.copy, p.flipped) for p in plan.placed) == sorted(
        (piece.name, copy, copy == 2) for piece in PIECES for copy in (1, 2)
    )


def test_a_row_of_pieces_across_a_wide_cloth_is_proven_by_its_longest_piece():
    plan = plan_cloth(Cloth(1500), PIECES)
    assert plan.proven
    assert plan.length == pytest.approx(230.0)


def test_pieces_too_tall_to_pass_each_other_are_bounded_by_the_middle_line():
    piece = ClothPiece("slab", ((0, 0), (100, 0), (100, 80), (0, 80)), copies=3)
    plan = plan_cloth(Cloth(120), (piece,), ClothRules(clearance=0.0))
    assert plan.proven
    assert plan.length == pytest.approx(300.0)


def test_mirrored_pairs_on_folded_cloth_come_out_of_one_outline():
    plan = plan_cloth(Cloth(900, folded=True), PIECES)
    assert plan.folded
    assert plan.width == 450
    one, two = (placed for placed in plan.placed if placed.piece == "back")
    assert one.outline == two.outline
    assert one.flipped != two.flipped
    assert good_layers(plan)


def good_layers(plan):
    outlines = list(dict.fromkeys(placed.outline for placed in plan.placed))
    return clashes(outlines, 2.0) == []


def test_a_piece_cut_on_the_fold_has_its_edge_on_the_fold():
    half = ClothPiece("half front", FRONT, copies=2, on_fold=True)
    plan = plan_cloth(Cloth(900, folded=True), (half, *PIECES))
    for placed in plan.placed:
        if placed.piece == "half front":
            assert placed.edge == "fold"
            assert min(y for _, y in placed.outline) == 0.0
    assert good_layers(plan)


def test_the_same_input_gives_the_same_layout():
    assert plan_cloth(Cloth(450), PIECES) == plan_cloth(Cloth(450), PIECES)


def test_reading_order_turns_nothing():
    assert not any(placed.turned for placed in plan_cloth_plain(Cloth(450), PIECES).placed)


def test_the_longer_search_is_checked_and_never_worse():
    heard = []
    plan = plan_cloth_longer(Cloth(300), PIECES, seconds=3.0, progress=heard.append)
    assert good(plan)
    assert plan.length <= plan_cloth(Cloth(300), PIECES).length
    assert heard


def test_the_longer_search_lets_pieces_fill_the_width_exactly():
    low, high = (ClothPiece(f"{h}", ((0, 0), (100, 0), (100, h), (0, h)), copies=2) for h in (80, 120))
    plan = plan_cloth_longer(Cloth(200), (low, high), ClothRules(clearance=0.0, tries=0), seconds=10.0)
    assert good(plan, 0.0)
    assert plan.length == pytest.approx(200.0, abs=0.01)
    assert plan.proven


def test_the_longer_search_stops_when_asked():
    plan = plan_cloth_longer(Cloth(300), PIECES, seconds=600.0, cancelled=lambda: True)
    assert good(plan)


def test_what_can_never_fit_is_refused_at_once():
    with pytest.raises(CannotMake, match="too little"):
        plan_cloth(Cloth(450, length=100), PIECES)
    with pytest.raises(CannotMake, match="across"):
        plan_cloth(Cloth(100), PIECES)


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: Cloth(-1),
        lambda: Cloth(450, length=0),
        lambda: ClothPiece("a", PEG, copies=3, mirrored=True),
        lambda: ClothPiece("a", PEG, copies=0),
        lambda: ClothPiece("a", ((0, 5), (10, 5), (10, 20)), on_fold=True),
        lambda: plan_cloth(Cloth(450), (ClothPiece("a", PEG, on_fold=True),)),
        lambda: ClothRules(tries=-1),
        lambda: plan_cloth(Cloth(450), ()),
    ],
)
def test_values_that_cannot_be_are_refused(wrong):
    with pytest.raises(BadValue):
        wrong()
