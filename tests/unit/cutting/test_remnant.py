import pytest
from shapely.geometry import Polygon

from galloon.cutting import ClothPiece, Remnant, RemnantRules, clashes, plan_remnant
from galloon.errors import BadValue, CannotMake

from .shapes import BACK, PEG, SIDE

L_SHAPE = ((0, 0), (400, 0), (400, 200), (180, 200), (180, 420), (0, 420))
HOLE = ((60, 60), (120, 60), (120, 120), (60, 120))


def test_places_are_found_inside_the_outline_and_beside_the_hole():
    remnant = Remnant(L_SHAPE, (HOLE,))
    fit = plan_remnant(remnant, (ClothPiece("back", BACK), ClothPiece("side", SIDE), ClothPiece("peg", PEG, copies=2)))
    assert fit.fits
    outlines = [placed.outline for placed in fit.placed]
    assert clashes(outlines, 2.0) == []
    assert all(remnant.shape.buffer(1e-6).covers(Polygon(outline)) for outline in outlines)
    assert fit.use == pytest.approx(sum(Polygon(o).area for o in outlines) / remnant.shape.area)


def test_both_hands_of_a_pair_are_cut():
    fit = plan_remnant(Remnant(L_SHAPE), (ClothPiece("side", SIDE, copies=2, mirrored=True),))
    assert sorted(placed.flipped for placed in fit.placed) == [False, True]


def test_nothing_is_turned_where_the_cloth_has_a_nap():
    fit = plan_remnant(Remnant(L_SHAPE, nap=True), (ClothPiece("side", SIDE, copies=3),))
    assert fit.fits
    assert not any(placed.turned for placed in fit.placed)


def test_a_remnant_elsewhere_on_the_cloth_gives_places_in_its_own_coordinates():
    moved = tuple((x + 1000.0, y - 300.0) for x, y in L_SHAPE)
    fit = plan_remnant(Remnant(moved), (ClothPiece("peg", PEG),))
    assert Polygon(moved).buffer(1e-6).covers(Polygon(fit.placed[0].outline))


def test_the_same_input_gives_the_same_answer():
    pieces = (ClothPiece("back", BACK), ClothPiece("side", SIDE))
    assert plan_remnant(Remnant(L_SHAPE), pieces) == plan_remnant(Remnant(L_SHAPE), pieces)


def test_a_search_that_finds_nothing_says_that_it_proves_nothing():
    square = ((0, 0), (100, 0), (100, 100), (0, 100))
    pieces = (ClothPiece("peg", PEG, copies=2),)
    fit = plan_remnant(Remnant(square), pieces, RemnantRules(moves=50))
    assert not fit.fits
    assert fit.placed == ()
    assert "not prove" in fit.says


def test_a_piece_in_a_hole_is_no_place():
    frame = Remnant(((0, 0), (100, 0), (100, 100), (0, 100)), (((15, 15), (85, 15), (85, 85), (15, 85)),))
    assert not plan_remnant(frame, (ClothPiece("peg", PEG),), RemnantRules(moves=50)).fits


def test_more_than_could_ever_fit_is_refused_with_the_arithmetic():
    with pytest.raises(CannotMake, match="cm² too little"):
        plan_remnant(Remnant(L_SHAPE), (ClothPiece("back", BACK, copies=9),))


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: Remnant(((0, 0), (10, 10), (10, 0), (0, 10))),
        lambda: Remnant(L_SHAPE, (((500, 500), (510, 500), (510, 510)),)),
        lambda: Remnant(((0, 0), (1, 1))),
        lambda: RemnantRules(moves=0),
        lambda: RemnantRules(clearance=-2),
    ],
)
def test_a_remnant_that_crosses_itself_or_has_stray_holes_is_refused(wrong):
    with pytest.raises(BadValue):
        wrong()
