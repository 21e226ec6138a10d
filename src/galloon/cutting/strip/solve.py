"""The search for the shortest strip: quick layouts first, then both models side by side, sharing what they find."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

from galloon.cutting.strip.anneal import annealed
from galloon.cutting.strip.bounds import length_bound
from galloon.cutting.strip.circuits import circuit_model
from galloon.cutting.strip.cpsat import Answer, Solver
from galloon.cutting.strip.greedy import best_of_orders
from galloon.cutting.strip.layout import Layout, length_of
from galloon.cutting.strip.models import Written, hint_layout, pair_model
from galloon.cutting.strip.offsets import Offsets
from galloon.cutting.strip.problem import Problem
from galloon.tolerance import CUT_STEP

#: Work of the first round; each further round is given twice as much.
_FIRST_ROUND = 0.02


@dataclass(frozen=True)
class Found:
    """The best layout so far and the length (mm) that none can beat."""

    layout: Layout
    length: float
    bound: float

    @property
    def proven(self) -> bool:
        """True when length and bound meet, but for the fineness of the reckoning."""
        return self.bound >= self.length - 2.5 * CUT_STEP


def search_fixed(problem: Problem, offsets: Offsets) -> Found:
    """The search cut off by a fixed amount of work: the same problem always gives the same layout."""
    layout = best_of_orders(problem, offsets, tries=20 + 5 * len(problem.copies))
    layout = annealed(problem, offsets, layout, moves=300 * len(problem.copies), seed=1)
    length = length_of(problem, offsets, layout)
    found = Found(layout, length, min(length, length_bound(problem)))
    spent, share = 0.0, _FIRST_ROUND
    while spent < problem.rules.work and not found.proven:
        share = min(share, problem.rules.work - spent)
        found = _round(problem, offsets, found, share)
        spent, share = spent + share, share * 2
    return found


def _round(problem: Problem, offsets: Offsets, found: Found, work: float) -> Found:
    models = [pair_model(problem, offsets, found.layout), circuit_model(problem, offsets, found.layout)]
    written = [model for model in models if model is not None]
    for model in written:
        hint_layout(model, found.layout)
    limits = (
        f"num_workers: 1 random_seed: 1 max_deterministic_time: {work:.6f} linearization_level: 2 symmetry_level: 2"
    )
    with ThreadPoolExecutor(len(written)) as pool:
        answers = list(pool.map(lambda model: Solver().solve(model.model, limits), written))
    for model, answer in zip(written, answers, strict=True):
        found = taken(found, model, answer)
    return found


def taken(found: Found, model: Written, answer: Answer) -> Found:
    """What is known once a model has answered."""
    layout, length = found.layout, found.length
    if answer.values:
        new = model.layout(answer.values)
        new_length = length_of(model.problem, model.offsets, new)
        if new_length < length - 1e-9:
            layout, length = new, new_length
    # Both ends are rounded outwards to the fine step, so the true length may be two of them less.
    bound = model.mm(answer.bound - 2) if answer.values or not answer.impossible else 0.0
    return Found(layout, length, max(found.bound, min(bound, length)))
