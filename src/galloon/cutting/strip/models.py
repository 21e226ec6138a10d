"""The strip problem written for CP-SAT in two ways: an order for every pair, and one circuit per edge."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import combinations, pairwise

import numpy as np

from galloon.cutting.strip.cpsat import Model
from galloon.cutting.strip.layout import Layout, Lie, ends_of, spots_of
from galloon.cutting.strip.offsets import Offsets
from galloon.cutting.strip.problem import Problem, Spot
from galloon.tolerance import CUT_STEP

#: Level lines whose total is written into the model as a bound.
_LINES = 12


@dataclass
class Written:
    """A model with the variables that stand for a layout. ``parts`` fine steps make one unit of the problem."""

    problem: Problem
    offsets: Offsets
    parts: int
    model: Model = field(default_factory=Model)
    step: list[int] = field(default_factory=list)
    spot: list[list[int]] = field(default_factory=list)
    option: list[list[int]] = field(default_factory=list)
    begin: int = -1
    end: int = -1
    rest: dict[tuple[int, int], int] = field(default_factory=dict)

    def layout(self, values: Sequence[int]) -> Layout:
        """The layout that the solver's values stand for."""
        chosen = [next(k for k, lit in enumerate(lits) if values[lit]) for lits in self.spot]
        return tuple(Lie(k, values[var]) for k, var in zip(chosen, self.step, strict=True))

    def fine(self, mm: float, up: bool) -> int:
        """Millimetres in fine steps, rounded up or down."""
        exact = mm * self.parts / self.problem.unit
        return math.ceil(exact - 1e-6) if up else math.floor(exact + 1e-6)

    def mm(self, fine: float) -> float:
        """Fine steps in millimetres."""
        return fine * self.problem.unit / self.parts


def base_model(problem: Problem, offsets: Offsets, best: Layout) -> Written:
    """Variables, places on the grid, ends and objective; no two copies kept apart yet. ``best`` sets the reach."""
    w = Written(problem, offsets, max(1, math.ceil(problem.unit / CUT_STEP)))
    m = w.model
    first, last = ends_of(problem, offsets, best)
    reach = last - first + problem.lace.repeat
    for count in problem.options:
        w.option.append([m.yes_no() for _ in range(count)])
        m.exactly_one(w.option[-1])
    w.begin = m.number(0, problem.span * w.parts)
    w.end = m.number(0, w.fine(reach, up=True))
    for index, copy in enumerate(problem.copies):
        lows = [math.ceil(-offsets.starts[s.shape] / problem.unit - 1e-7) for s in copy.spots]
        highs = [math.floor((reach - offsets.ends[s.shape]) / problem.unit + 1e-7) for s in copy.spots]
        w.step.append(m.number(min(lows), max(max(highs), min(lows))))
        w.spot.append([m.yes_no() for _ in copy.spots])
        m.exactly_one(w.spot[-1])
        for spot, literal in zip(copy.spots, w.spot[-1], strict=True):
            _place(w, index, spot, literal)
    m.linear([(w.end, 1), (w.begin, -1)], None, w.fine(last - first, up=True))
    m.minimise([(w.end, 1), (w.begin, -1)])
    _lines(w)
    _break_symmetry(w)
    return w


def _place(w: Written, index: int, spot: Spot, literal: int) -> None:
    """One spot of a copy: its ends within the length, its step on the places the chosen phase allows."""
    m, step = w.model, w.step[index]
    m.linear([(step, w.parts), (w.begin, -1)], -w.fine(w.offsets.starts[spot.shape], up=False), None, [literal])
    m.linear([(step, w.parts), (w.end, -1)], None, -w.fine(w.offsets.ends[spot.shape], up=True), [literal])
    if spot.modulus == 1:
        return
    options = w.option[w.problem.copies[index].piece]
    key = (index, spot.modulus)
    if key not in w.rest:
        whole = m.number(-(10**6), 10**6)
        w.rest[key] = m.number(0, spot.modulus - 1)
        m.linear([(step, 1), (whole, -spot.modulus), (w.rest[key], -1)], 0, 0)
    for option, residue in zip(options, spot.residues, strict=True):
        m.linear([(w.rest[key], 1)], residue, residue, [literal, option])


def _lines(w: Written) -> None:
    """No level line is shorter than what the pieces cut from it, blade included."""
    widths = w.offsets.widths
    total = np.zeros(widths.shape[1])
    for copy in w.problem.copies:
        total += widths[[spot.shape for spot in copy.spots]].mean(axis=0)
    picked = np.linspace(0, len(total) - 1, _LINES).astype(int).tolist() + np.argsort(-total)[:_LINES].tolist()
    for line in sorted(set(picked)):
        terms = [
            (literal, -w.fine(float(widths[spot.shape, line]), up=False))
            for copy, literals in zip(w.problem.copies, w.spot, strict=True)
            for spot, literal in zip(copy.spots, literals, strict=True)
        ]
        slack = w.fine(w.problem.rules.clearance * 1.01, up=True) + len(terms)
        w.model.linear([(w.end, 1), (w.begin, -1), *terms], -slack, None)


def _break_symmetry(w: Written) -> None:
    """Equal copies stand in order; where the whole strip may be turned, the first copy stays on the lower edge."""
    copies = w.problem.copies
    for (i, a), (j, b) in combinations(enumerate(copies), 2):
        if a.piece == b.piece and a.spots == b.spots:
            w.model.linear([(w.step[j], 1), (w.step[i], -1)], 0, None)
    if turns_round(w.problem):
        first = copies[0]
        for spot, literal in zip(first.spots, w.spot[0], strict=True):
            if spot.way.upper:
                w.model.linear([(literal, 1)], 0, 0)


def turns_round(problem: Problem) -> bool:
    """True when half a turn of the whole strip makes a legal layout of every legal layout."""
    if not all(piece.matched or piece.on_edge for piece in problem.pieces):
        return False
    return all(
        any(s.way.upper != t.way.upper and s.way.flip == t.way.flip for t in copy.spots)
        for copy in problem.copies
        for s in copy.spots
    )


def add_pairs(w: Written, pairs: Sequence[tuple[int, int]], same_edge: bool = True) -> None:
    """Keeps each pair of copies apart: before, after, or in a gap between, for every pair of spots.

    Without ``same_edge`` only pairs of spots on different edges are written.
    """
    for i, j in pairs:
        before, after = w.model.yes_no(), w.model.yes_no()
        w.model.at_most_one([before, after])
        for a, spot_a in enumerate(w.problem.copies[i].spots):
            for b, spot_b in enumerate(w.problem.copies[j].spots):
                if same_edge or spot_a.way.upper != spot_b.way.upper:
                    _apart(w, (i, a, spot_a), (j, b, spot_b), (before, after))


def _apart(w: Written, one: tuple[int, int, Spot], two: tuple[int, int, Spot], sides: tuple[int, int]) -> None:
    (i, a, spot_a), (j, b, spot_b) = one, two
    ranges = w.offsets.ranges(spot_a.shape, spot_b.shape)
    if not ranges:
        return
    m, both = w.model, [w.spot[i][a], w.spot[j][b]]
    between = [(w.step[j], 1), (w.step[i], -1)]
    before, after = sides
    m.linear(between, None, ranges[0][0] - 1, [*both, after])
    m.linear(between, ranges[-1][1] + 1, None, [*both, before])
    middle = []
    for (_, low), (high, _) in pairwise(ranges):
        middle.append(m.yes_no())
        m.linear(between, low + 1, high - 1, [*both, middle[-1]])
    m.any_of([before, after, *middle, *(-literal - 1 for literal in both)])


def pair_model(problem: Problem, offsets: Offsets, best: Layout) -> Written:
    """The model with an order for every pair."""
    w = base_model(problem, offsets, best)
    add_pairs(w, list(combinations(range(len(problem.copies)), 2)))
    return w


def keep_phases(w: Written, layout: Layout, free: Sequence[int]) -> None:
    """Holds every piece but the ``free`` ones to the phase it has in ``layout``, for a search near that layout."""
    for piece, literals in enumerate(w.option):
        if piece not in free:
            w.model.linear([(literals[phase_of(w.problem, layout, piece)], 1)], 1, 1)


def phase_of(problem: Problem, layout: Layout, piece: int) -> int:
    """The number of the phase option that all copies of a piece share in a layout."""
    used = [
        (spot, lie)
        for copy, spot, lie in zip(problem.copies, spots_of(problem, layout), layout, strict=True)
        if copy.piece == piece
    ]
    return next(
        k
        for k in range(problem.options[piece])
        if all((lie.step - spot.residues[k]) % spot.modulus == 0 for spot, lie in used)
    )


def hint_layout(w: Written, layout: Layout) -> None:
    """Gives the solver a layout to start from."""
    values: dict[int, int] = {}
    for index, lie in enumerate(layout):
        values[w.step[index]] = lie.step
        values.update({literal: int(k == lie.spot) for k, literal in enumerate(w.spot[index])})
    for piece, literals in enumerate(w.option):
        chosen = phase_of(w.problem, layout, piece)
        values.update({literal: int(k == chosen) for k, literal in enumerate(literals)})
    w.model.hint(values)
