"""The second model: copies that stand on one edge form a circuit, its arcs carry the least steps from one to the next.

Where every two spots of a group overlap for exactly one run of steps, the copies on them stand in one order, and the
sum of the arcs bounds the length. One group per edge always has that on ordinary pieces; often the whole strip has it.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import combinations, permutations

import numpy as np

from galloon.cutting.strip.layout import Layout
from galloon.cutting.strip.models import Written, add_pairs, base_model
from galloon.cutting.strip.offsets import Offsets
from galloon.cutting.strip.problem import Problem, Spot

#: A place in a group: the copy and the number of its spot.
Node = tuple[int, int]


def circuit_model(problem: Problem, offsets: Offsets, best: Layout) -> Written | None:
    """The model with circuits; None where outlines have gaps that let an order on one edge be passed over."""
    every = _nodes(problem)
    groups = [every] if ordered(problem, offsets, every) else _by_edge(problem)
    if not all(ordered(problem, offsets, group) for group in groups):
        return None
    w = base_model(problem, offsets, best)
    for group in groups:
        _add_circuit(w, group)
        _add_leaps(w, group)
    if len(groups) > 1:
        add_pairs(w, list(combinations(range(len(problem.copies)), 2)), same_edge=False)
    return w


def _nodes(problem: Problem) -> list[Node]:
    return [(i, k) for i, copy in enumerate(problem.copies) for k in range(len(copy.spots))]


def _by_edge(problem: Problem) -> list[list[Node]]:
    nodes = _nodes(problem)
    groups = ([n for n in nodes if problem.copies[n[0]].spots[n[1]].way.upper == upper] for upper in (False, True))
    return [group for group in groups if group]


def _spot(problem: Problem, node: Node) -> Spot:
    return problem.copies[node[0]].spots[node[1]]


def ordered(problem: Problem, offsets: Offsets, nodes: Sequence[Node]) -> bool:
    """True when any two of the spots, of different copies, forbid exactly one run of steps that holds step 0's side."""
    for a, b in combinations(nodes, 2):
        if a[0] != b[0] and len(offsets.ranges(_spot(problem, a).shape, _spot(problem, b).shape)) != 1:
            return False
    return True


def least(problem: Problem, offsets: Offsets, a: Node, b: Node) -> int:
    """Least steps from a to b when b comes after a and both phases are fixed or free."""
    one, two = _spot(problem, a), _spot(problem, b)
    step = offsets.ranges(one.shape, two.shape)[0][1] + 1
    modulus = one.modulus
    if modulus == two.modulus and len(one.residues) == len(two.residues) == 1:
        step += (two.residues[0] - one.residues[0] - step) % modulus
    return step


def _add_circuit(w: Written, nodes: Sequence[Node]) -> None:
    problem, m = w.problem, w.model
    arcs: list[tuple[int, int, int]] = []
    terms: list[tuple[int, int]] = []
    here = {node: number for number, node in enumerate(nodes, start=1)}
    for node, number in here.items():
        shape = _spot(problem, node).shape
        arcs.append((number, number, -w.spot[node[0]][node[1]] - 1))
        enter, leave = m.yes_no(), m.yes_no()
        arcs += [(0, number, enter), (number, 0, leave)]
        terms += [(enter, w.fine(w.offsets.starts[shape], up=False)), (leave, -w.fine(w.offsets.ends[shape], up=True))]
    for a, b in permutations(nodes, 2):
        if a[0] == b[0]:
            continue
        literal, steps = m.yes_no(), least(problem, w.offsets, a, b)
        arcs.append((here[a], here[b], literal))
        terms.append((literal, -steps * w.parts))
        m.linear([(w.step[b[0]], 1), (w.step[a[0]], -1)], steps, None, [literal])
    empty = m.yes_no()
    arcs.append((0, 0, empty))
    m.circuit(arcs)
    # Walking the circuit from the first copy to the last adds up to no more than the length.
    m.linear([(w.end, 1), (w.begin, -1), *terms], 0, None)


def _add_leaps(w: Written, nodes: Sequence[Node]) -> None:
    """Pairs that could come too near although each keeps clear of its neighbour: those whose distance is longer than

    some way round by a third. They are written out as pairs.
    """
    far = 10**9
    gaps = np.full((len(nodes), len(nodes)), far)
    for i, a in enumerate(nodes):
        for j, b in enumerate(nodes):
            if a[0] != b[0]:
                gaps[i, j] = least(w.problem, w.offsets, a, b)
    short = np.full_like(gaps, far)
    for k, node in enumerate(nodes):
        others = np.array([other[0] != node[0] for other in nodes])
        round_by = np.where(others[:, None] & others[None, :], gaps[:, k : k + 1] + gaps[k : k + 1, :], far)
        short = np.minimum(short, round_by)
    leaps = np.argwhere((gaps < far) & (short < gaps)).tolist()
    copies = [(nodes[i][0], nodes[j][0]) for i, j in leaps]
    add_pairs(w, sorted({(min(pair), max(pair)) for pair in copies}))
