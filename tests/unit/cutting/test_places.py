import pytest

from galloon.cutting import Lace, LacePiece, StripRules, legal_ways, plan_strip
from galloon.cutting.strip.problem import problem_of
from galloon.errors import CannotMake

from .shapes import BACK

PHASE = 4.0
REPEAT = 30.0


def places(twin: bool, matched: bool = True, **facts):
    lace = Lace(200, REPEAT, 15, **facts)
    piece = LacePiece("back", BACK, phase=PHASE, matched=matched)
    return {
        (way.flip, "upper" if way.upper else "lower", (way.sign * PHASE + way.shift) % REPEAT)
        for way in legal_ways(lace, piece, twin=twin)
    }


SAME = (False, "lower", PHASE)
MINUS = (-PHASE) % REPEAT
HALF = REPEAT / 2

# The table of the trade: facts of the lace; places of the mirrored twin; further places of the same piece.
TABLE = [
    ({"mirror_across": True}, {(True, "lower", MINUS)}, set()),
    ({"second_edge": "mirror"}, {(True, "upper", PHASE)}, set()),
    ({"second_edge": "half step"}, {(True, "upper", PHASE + HALF)}, set()),
    ({"half_turn": True}, set(), {(False, "upper", MINUS)}),
    (
        {"mirror_across": True, "second_edge": "mirror"},
        {(True, "lower", MINUS), (True, "upper", PHASE)},
        {(False, "upper", MINUS)},
    ),
    (
        {"mirror_across": True, "second_edge": "half step"},
        {(True, "lower", MINUS), (True, "upper", PHASE + HALF)},
        {(False, "upper", (MINUS + HALF) % REPEAT)},
    ),
]


@pytest.mark.parametrize(("facts", "twin", "same"), TABLE)
def test_a_copy_lies_only_where_the_motif_comes_out_right(facts, twin, same):
    assert places(False, **facts) == {SAME} | same
    assert places(True, **facts) == twin


@pytest.mark.parametrize(("facts", "twin", "same"), TABLE)
def test_every_legal_place_shows_the_same_motif_as_the_first_copy(facts, twin, same):
    """Independent of the table: a lace with exactly the stated symmetries is drawn and read under the moved piece."""
    group = generated(facts)
    seen = motif_under(False, "lower", PHASE, group)
    for flip, edge, phase in places(False, **facts) | places(True, **facts):
        assert motif_under(flip, edge, phase, group) == seen


def generated(facts):
    """The lace's symmetries (x sign, y sign, shift along) as a group, with y counted from the middle of the lace."""
    group = {(1, 1, 0.0)}
    moves = []
    if facts.get("mirror_across"):
        moves.append((-1, 1, 0.0))
    if facts.get("second_edge") == "mirror":
        moves.append((1, -1, 0.0))
    if facts.get("second_edge") == "half step":
        moves.append((1, -1, HALF))
    if facts.get("half_turn"):
        moves.append((-1, -1, 0.0))
    for _ in range(3):
        group |= {(a * c, b * d, (e + a * f) % REPEAT) for a, b, e in group for c, d, f in moves}
    return group


def motif_under(flip, edge, phase, group):
    """What is seen at three points of the piece: the orbit of each point of the lace under its symmetries."""
    seen = []
    for px, py in ((3.0, 20.0), (11.0, 47.0), (23.0, 80.0)):
        x, y = (-px if flip else px), py
        if edge == "upper":
            x, y = -x, 200 - y
        x, y = x + phase, y - 100
        seen.append(frozenset((round((a * x + e) % REPEAT, 6) % REPEAT, round(b * y, 6)) for a, b, e in group))
    return seen


def test_a_reversible_lace_gives_the_twin_as_the_same_piece_worn_other_side_out():
    lace = Lace(200, REPEAT, 15, reversible=True)
    ways = legal_ways(lace, LacePiece("back", BACK), twin=True)
    assert [(way.flip, way.upper, way.other_side) for way in ways] == [(False, False, True)]


def test_a_motif_that_must_stand_up_keeps_every_piece_on_one_edge():
    facts = {"mirror_across": True, "second_edge": "mirror", "motif_up": True}
    assert all(edge == "lower" for twin in (False, True) for _, edge, _ in places(twin, **facts))


def test_an_unmatched_motif_frees_the_twin_and_binds_only_the_scallops():
    assert (True, "lower", MINUS) in places(True, matched=False)
    piece = LacePiece("back", BACK, copies=2, mirrored=True, matched=False, phase=PHASE)
    problem = problem_of(Lace(200, REPEAT, 15), (piece,), StripRules())
    assert problem.unit == pytest.approx(15)


def test_a_twin_that_no_symmetry_gives_is_refused_with_what_would_help():
    piece = LacePiece("back", BACK, copies=2, mirrored=True)
    with pytest.raises(CannotMake, match="unmatched"):
        plan_strip(Lace(200, REPEAT, 15), (piece,))
