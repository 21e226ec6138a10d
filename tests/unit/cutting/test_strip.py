import random

import pytest
from shapely.geometry import Polygon, box

from galloon.cutting import (
    Lace,
    LacePiece,
    StripRules,
    centred,
    clashes,
    plan_strip,
    plan_strip_longer,
    plan_strip_plain,
)
from galloon.cutting.sections import forbidden, levels_of, sections
from galloon.cutting.strip.problem import problem_of
from galloon.errors import BadValue, CannotMake

from .brute import nothing_shorter
from .shapes import ARCH, BACK, FRONT, INSET, PEG, SIDE

BOTH = Lace(200, 30, 15, mirror_across=True, second_edge="mirror")
RULES = StripRules(work=2.0)


def pair(name, outline, **more):
    return LacePiece(name, outline, copies=2, mirrored=True, **more)


CASES = {
    "two pairs, fixed phases": (BOTH, (pair("back", BACK, phase=4.0), pair("front", FRONT, phase=11.0))),
    "two pairs, any scallop": (BOTH, (pair("inset", INSET, anchor="scallop"), pair("side", SIDE, anchor="scallop"))),
    "one pair and one, phases free": (BOTH, (pair("back", BACK, anchor="free"), LacePiece("inset", INSET))),
    "half step": (
        Lace(200, 30, 15, mirror_across=True, second_edge="half step"),
        (pair("back", BACK, phase=3.0), pair("side", SIDE, phase=8.0), LacePiece("peg", PEG)),
    ),
    "mirror across only": (Lace(200, 30, 15, mirror_across=True), (pair("back", BACK), pair("front", FRONT))),
    "half turn only": (Lace(200, 30, 15, half_turn=True), (LacePiece("back", BACK, copies=3), LacePiece("peg", PEG))),
    "reversible": (Lace(200, 30, 15, reversible=True), (pair("back", BACK), pair("inset", INSET))),
    "unmatched": (Lace(200, 30, 15), (pair("back", BACK, matched=False), LacePiece("peg", PEG, matched=False))),
    "a peg under an arch": (BOTH, (LacePiece("arch", ARCH), LacePiece("peg", PEG), LacePiece("peg 2", PEG, phase=10))),
}


@pytest.mark.parametrize("case", CASES, ids=list(CASES))
def test_a_proven_plan_is_one_that_brute_force_cannot_beat(case):
    lace, pieces = CASES[case]
    plan = plan_strip(lace, pieces, RULES)
    assert plan.proven
    assert nothing_shorter(problem_of(lace, pieces, RULES), plan.length)


@pytest.mark.parametrize("case", CASES, ids=list(CASES))
def test_every_copy_lies_on_the_lace_on_a_legal_place_clear_of_the_others(case):
    lace, pieces = CASES[case]
    plan = plan_strip(lace, pieces, RULES)
    outlines = [placed.outline for placed in plan.placed]
    assert len(outlines) == sum(piece.copies for piece in pieces)
    assert clashes(outlines, RULES.clearance) == []
    strip = box(0, 0, plan.length, lace.width).buffer(1e-6)
    assert all(strip.covers(Polygon(outline)) for outline in outlines)
    assert plan.use == pytest.approx(sum(Polygon(o).area for o in outlines) / (lace.width * plan.length))


def test_a_peg_is_tucked_under_an_arch_because_forbidden_distances_are_sets_of_intervals():
    shapes = [Polygon(ARCH), Polygon(PEG)]
    levels = levels_of(shapes)
    arch, peg = (sections(shape, levels) for shape in shapes)
    assert forbidden(arch, peg) == ((-60.0, 30.0), (50.0, 140.0))
    lace = Lace(120, 10, 10)
    plan = plan_strip(lace, (LacePiece("arch", ARCH), LacePiece("peg", PEG)), StripRules(clearance=2.0))
    assert plan.length == pytest.approx(140.0)
    assert plan.proven


def test_the_same_input_gives_the_same_plan_to_the_last_digit():
    pieces = (pair("back", BACK, anchor="free"), pair("side", SIDE, anchor="free"), pair("inset", INSET, anchor="free"))
    assert plan_strip(BOTH, pieces) == plan_strip(BOTH, pieces)


def test_symmetry_alone_shortens_the_strip():
    pieces = (pair("back", BACK), pair("front", FRONT))
    poor = plan_strip(Lace(200, 30, 15, mirror_across=True), pieces, RULES)
    assert plan_strip(BOTH, pieces, RULES).length < poor.length


def test_reading_order_is_never_shorter_than_the_interlocked_plan():
    pieces = (pair("back", BACK), pair("front", FRONT), LacePiece("inset", INSET))
    plain = plan_strip_plain(BOTH, pieces)
    assert plain.length >= plan_strip(BOTH, pieces).length
    lefts = [min(x for x, _ in placed.outline) for placed in plain.placed]
    rights = [max(x for x, _ in placed.outline) for placed in plain.placed]
    assert all(left >= right + 2.0 - 1e-6 for left, right in zip(lefts[1:], rights, strict=False))


def test_a_centred_piece_has_its_middle_on_the_mirror_line_of_a_motif():
    piece = centred(BOTH, pair("back", BACK, anchor="free"))
    plan = plan_strip(BOTH, (piece,))
    for placed in plan.placed:
        xs = [x for x, _ in placed.outline]
        offset = ((min(xs) + max(xs)) / 2 + plan.start) % BOTH.repeat
        assert min(offset, BOTH.repeat - offset) == pytest.approx(0.0, abs=1e-6)


def test_a_centred_piece_that_sits_on_scallops_moves_by_whole_scallops():
    piece = centred(BOTH, pair("back", BACK, phase=4.0, anchor="scallop"))
    assert (piece.phase - 4.0) % BOTH.pitch == pytest.approx(0.0)


def test_pieces_off_the_edge_may_lie_one_above_the_other():
    pieces = (LacePiece("peg", PEG, copies=3, on_edge=False, matched=False),)
    plan = plan_strip(Lace(200, 30, 15), pieces, RULES)
    assert plan.length == pytest.approx(60.0)
    assert {placed.edge for placed in plan.placed} == {"inside"}


def test_a_piece_taller_than_the_lace_is_refused():
    with pytest.raises(CannotMake, match="across"):
        plan_strip(Lace(160, 30, 15), (LacePiece("back", BACK),))


def test_more_pieces_than_could_ever_fit_are_refused_with_the_area_arithmetic():
    lace = Lace(200, 30, 15, length=500)
    with pytest.raises(CannotMake, match=r"cm²: \d+ cm² too little"):
        plan_strip(lace, (LacePiece("back", BACK, copies=40),))


@pytest.mark.parametrize(
    "wrong",
    [
        lambda: Lace(0, 30, 15),
        lambda: Lace(200, 30, 14),
        lambda: Lace(float("nan"), 30, 15),
        lambda: LacePiece("bow tie", ((0, 0), (10, 10), (10, 0), (0, 10))),
        lambda: LacePiece("line", ((0, 0), (10, 10), (0, 0))),
        lambda: LacePiece("odd", BACK, copies=3, mirrored=True),
        lambda: LacePiece("none", BACK, copies=0),
        lambda: StripRules(clearance=-1),
        lambda: plan_strip(BOTH, ()),
    ],
)
def test_values_that_cannot_be_are_refused(wrong):
    with pytest.raises(BadValue):
        wrong()


def test_the_longer_search_is_never_worse_and_can_be_stopped():
    pieces = (pair("back", BACK, anchor="free"), pair("front", FRONT, anchor="free"), pair("side", SIDE, anchor="free"))
    heard = []
    plan = plan_strip_longer(BOTH, pieces, seconds=20.0, progress=heard.append)
    assert plan.length <= plan_strip(BOTH, pieces).length + 1e-6
    assert heard
    stopped = plan_strip_longer(BOTH, pieces * 1, seconds=600.0, cancelled=lambda: True)
    assert clashes([placed.outline for placed in stopped.placed], 2.0) == []


def test_forbidden_distances_agree_with_measured_overlaps_on_random_outlines():
    rng = random.Random(3)
    for _ in range(60):
        one, two = (random_outline(rng) for _ in range(2))
        levels = levels_of([one, two])
        gaps = forbidden(sections(one, levels), sections(two, levels))
        for _ in range(20):
            move = rng.uniform(-150, 150)
            edge = min((abs(move - end) for gap in gaps for end in gap), default=1.0)
            if edge < 1e-3:
                continue
            moved = Polygon([(x + move, y) for x, y in two.exterior.coords])
            overlaps = one.intersection(moved).area > 1e-9
            assert overlaps == any(low < move < high for low, high in gaps)


def random_outline(rng):
    from math import cos, pi, sin

    count = rng.randrange(5, 14)
    return Polygon(
        [
            (60 * r * cos(2 * pi * k / count), 60 * r * sin(2 * pi * k / count))
            for k in range(count)
            for r in [rng.uniform(0.25, 1.0)]
        ]
    )


def test_brute_force_does_find_what_is_shorter():
    lace, pieces = CASES["two pairs, fixed phases"]
    plan = plan_strip(lace, pieces, RULES)
    assert not nothing_shorter(problem_of(lace, pieces, RULES), plan.length + 0.1)
