"""A lace's symmetries as a group of motions, worked out without the planner's table."""

from __future__ import annotations

from itertools import product

REPEAT = 30.0
WIDTH = 200.0
#: (sign of x, sign of y about the lace's middle, shift along mm).
Move = tuple[int, int, float]

FACTS = [
    {"mirror_across": across, "second_edge": second, "half_turn": turn}
    for across, second, turn in product((False, True), ("mirror", "half step", "other"), (False, True))
]


def motions(facts: dict) -> set[Move]:
    """Every motion that leaves the lace as it is."""
    known: set[Move] = {(1, 1, 0.0)}
    if facts.get("mirror_across"):
        known.add((-1, 1, 0.0))
    if facts.get("second_edge") == "mirror":
        known.add((1, -1, 0.0))
    if facts.get("second_edge") == "half step":
        known.add((1, -1, REPEAT / 2))
    if facts.get("half_turn"):
        known.add((-1, -1, 0.0))
    while True:
        more = {after(one, two) for one in known for two in known}
        if more <= known:
            return known
        known |= more


def after(one: Move, two: Move) -> Move:
    """First ``two``, then ``one``."""
    (a, b, c), (d, e, f) = one, two
    return a * d, b * e, (c + a * f) % REPEAT


def consistent(facts: dict) -> bool:
    """Whether the facts can hold of one lace whose motif repeats no sooner than REPEAT."""
    found = motions(facts)
    return not any((a, b) == (1, 1) and c for a, b, c in found)


def legal(facts: dict, phase: float) -> dict[bool, set[tuple[bool, str, float]]]:
    """For the drawn hand (False) and the twin (True): (mirrored outline, edge, phase) of every place right side up.

    A motion that keeps right side up and the motif takes the first copy's place to a place of the same piece where it
    turns without mirroring, and to one of the twin where it mirrors. The outline's flip is read off the motion: the
    lower edge is flipped where x is, the upper edge where x is not (head to tail is half a turn).
    """
    places: dict[bool, set[tuple[bool, str, float]]] = {False: set(), True: set()}
    for a, b, c in motions(facts):
        twin = a * b < 0
        edge = "lower" if b > 0 else "upper"
        places[twin].add((twin, edge, round((a * phase + c) % REPEAT, 6) % REPEAT))
    return places
