"""Every row of the table of legal places, for every set of facts a lace can have, reversible or not, matched or not."""

from __future__ import annotations

from itertools import product

import pytest

from galloon.cutting import Lace, LacePiece, StripRules, legal_ways, plan_strip
from galloon.cutting.strip.problem import problem_of

from .brute import nothing_shorter
from .lace_groups import FACTS, REPEAT, WIDTH, consistent, legal
from .shapes import BACK, FRONT, PEG

PHASE = 4.0
AGREEING = [facts for facts in FACTS if consistent(facts)]


def named(facts):
    return ", ".join(f"{key} {value}" for key, value in facts.items())


def places(lace, piece, *, twin, phase=PHASE):
    return {
        (
            way.flip,
            "upper" if way.upper else "lower",
            round((way.sign * phase + way.shift) % lace.repeat, 6) % lace.repeat,
            way.other_side,
        )
        for way in legal_ways(lace, piece, twin=twin)
    }


def test_facts_that_contradict_each_other_are_the_only_ones_left_out():
    left_out = [facts for facts in FACTS if not consistent(facts)]
    assert left_out == [{"mirror_across": True, "second_edge": "half step", "half_turn": True}]


@pytest.mark.parametrize("facts", AGREEING, ids=named)
def test_a_matched_piece_lies_in_no_place_but_those_the_symmetry_gives(facts):
    lace = Lace(WIDTH, REPEAT, 15, **facts)
    piece = LacePiece("back", BACK, phase=PHASE)
    allowed = legal(facts, PHASE)
    for twin in (False, True):
        assert {place[:3] for place in places(lace, piece, twin=twin)} <= allowed[twin]


@pytest.mark.parametrize(
    "facts",
    [facts for facts in AGREEING if not (facts["second_edge"] == "half step" and facts["half_turn"])],
    ids=named,
)
def test_every_place_that_the_symmetry_gives_is_used(facts):
    """But for a second edge half a step on with a half turn: its mirror line lies a quarter on, where no phase counts
    from.
    """
    lace = Lace(WIDTH, REPEAT, 15, **facts)
    piece = LacePiece("back", BACK, phase=PHASE)
    allowed = legal(facts, PHASE)
    for twin in (False, True):
        assert {place[:3] for place in places(lace, piece, twin=twin)} == allowed[twin]


@pytest.mark.parametrize("facts", AGREEING, ids=named)
def test_a_reversible_lace_gives_each_hand_the_places_of_the_other_worn_other_side_out(facts):
    piece = LacePiece("back", BACK, phase=PHASE)
    plain, both = Lace(WIDTH, REPEAT, 15, **facts), Lace(WIDTH, REPEAT, 15, reversible=True, **facts)
    for twin in (False, True):
        turned_over = {(*place[:3], True) for place in places(plain, piece, twin=not twin)}
        assert places(both, piece, twin=twin) == places(plain, piece, twin=twin) | turned_over
    # The plain row of the table: the same piece cut again at the same phase, worn other side out, is the twin.
    assert (False, "lower", PHASE, True) in places(both, piece, twin=True)


@pytest.mark.parametrize("facts", AGREEING, ids=named)
def test_an_accepted_difference_of_motif_leaves_both_hands_on_every_edge_whose_scallops_are_known(facts):
    lace = Lace(WIDTH, REPEAT, 15, **facts)
    piece = LacePiece("back", BACK, phase=PHASE, matched=False)
    known = facts["second_edge"] != "other" or facts["half_turn"]
    edges = {"lower", "upper"} if known else {"lower"}
    for twin in (False, True):
        assert {(flip, edge) for flip, edge, *_ in places(lace, piece, twin=twin)} == {(twin, edge) for edge in edges}


def test_an_unmatched_piece_moves_by_scallops_and_a_matched_one_by_repeats():
    for matched, step in ((True, REPEAT), (False, 10.0)):
        piece = LacePiece("back", BACK, phase=PHASE, matched=matched)
        problem = problem_of(Lace(WIDTH, REPEAT, 10.0), (piece,), StripRules())
        assert problem.copies[0].spots[0].modulus * problem.unit == pytest.approx(step)


def orders():
    for facts, reversible, matched in product(AGREEING, (False, True), (True, False)):
        lace = Lace(WIDTH, REPEAT, 15, reversible=reversible, **facts)
        back = LacePiece("back", BACK, 2, mirrored=True, phase=PHASE, matched=matched)
        if all(legal_ways(lace, back, twin=twin) for twin in (False, True)):
            label = f"{named(facts)}{', reversible' if reversible else ''}{'' if matched else ', unmatched'}"
            yield pytest.param(lace, back, id=label)


@pytest.mark.parametrize(("lace", "back"), list(orders()))
def test_on_every_lace_the_proven_plan_of_up_to_five_pieces_is_one_that_brute_force_cannot_beat(lace, back):
    pegs = 1 if lace.reversible else 2
    pieces = (back, LacePiece("front", FRONT, phase=11.0), LacePiece("peg", PEG, copies=pegs, phase=2.0))
    rules = StripRules(work=2.0)
    plan = plan_strip(lace, pieces, rules)
    assert plan.lower_bound <= plan.length
    assert plan.proven
    assert nothing_shorter(problem_of(lace, pieces, rules), plan.length)
