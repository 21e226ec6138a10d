"""Quick layouts of a strip: copies set down one after another, each as far left as it can go."""

from __future__ import annotations

import random
from collections.abc import Callable, Sequence

from galloon.cutting.strip.layout import Layout, Lie, length_of
from galloon.cutting.strip.offsets import Offsets
from galloon.cutting.strip.problem import Problem, Spot


def laid_in_order(
    problem: Problem, offsets: Offsets, order: Sequence[int], phases: Sequence[int], *, interlock: bool = True
) -> Layout:
    """Copies set down in ``order``, phase option ``phases[piece]`` for each piece; every copy takes the spot where it

    ends soonest. Without ``interlock`` each begins where all before it have ended, with the blade's clearance.
    """
    lies: dict[int, Lie] = {}
    shapes: list[tuple[int, int]] = []
    done = 0.0
    for number in order:
        copy = problem.copies[number]
        best: tuple[float, int, Lie] | None = None
        for index, spot in enumerate(copy.spots):
            after = done if not interlock and lies else 0.0
            step = _first_step(problem, offsets, spot, phases[copy.piece], (shapes, after))
            key = (offsets.ends[spot.shape] + problem.unit * step, index, Lie(index, step))
            best = key if best is None or key[:2] < best[:2] else best
        assert best is not None
        lies[number] = best[2]
        shapes.append((copy.spots[best[1]].shape, best[2].step))
        done = max(done, best[0] + problem.rules.clearance)
    return tuple(lies[number] for number in range(len(problem.copies)))


def _first_step(
    problem: Problem, offsets: Offsets, spot: Spot, option: int, given: tuple[list[tuple[int, int]], float]
) -> int:
    shapes, after = given
    modulus, residue = spot.modulus, spot.residues[option]
    step = -int(-((after - offsets.starts[spot.shape]) / problem.unit - 1e-7) // 1)
    step += (residue - step) % modulus
    moved = True
    while moved:
        moved = False
        for shape, at in shapes:
            for low, high in offsets.ranges(shape, spot.shape):
                if low <= step - at <= high:
                    step = at + high + 1
                    step += (residue - step) % modulus
                    moved = True
    return step


def best_of_orders(problem: Problem, offsets: Offsets, tries: int, stop: Callable[[], bool] = lambda: False) -> Layout:
    """The shortest of ``tries`` layouts: orders and phases changed a little at a time, from a fixed seed."""
    rng = random.Random(7)
    order = sorted(range(len(problem.copies)), key=lambda number: -_size(problem, offsets, number))
    phases = [0] * len(problem.pieces)
    best = laid_in_order(problem, offsets, order, phases)
    length = length_of(problem, offsets, best)
    for _ in range(tries):
        if stop():
            break
        new_order, new_phases = _changed(problem, order, phases, rng)
        layout = laid_in_order(problem, offsets, new_order, new_phases)
        found = length_of(problem, offsets, layout)
        if found <= length + 1e-9:
            best, order, phases = (layout if found < length - 1e-9 else best), new_order, new_phases
            length = min(found, length)
    return best


def _size(problem: Problem, offsets: Offsets, number: int) -> float:
    shape = problem.copies[number].spots[0].shape
    return offsets.ends[shape] - offsets.starts[shape]


def _changed(problem: Problem, order: list[int], phases: list[int], rng: random.Random) -> tuple[list[int], list[int]]:
    order, phases = order[:], phases[:]
    free = [piece for piece, count in enumerate(problem.options) if count > 1]
    if free and rng.random() < 0.4:
        piece = rng.choice(free)
        phases[piece] = rng.randrange(problem.options[piece])
    if len(order) > 1 and (not free or rng.random() < 0.8):
        a, b = rng.sample(range(len(order)), 2)
        if rng.random() < 0.5:
            order[a], order[b] = order[b], order[a]
        else:
            order.insert(b, order.pop(a))
    return order, phases
