"""Better layouts of a strip by small random changes, worse ones accepted ever more rarely; seeded, so repeatable."""

from __future__ import annotations

import math
import random
from collections.abc import Callable
from dataclasses import dataclass

from galloon.cutting.strip.layout import Layout, Lie, length_of
from galloon.cutting.strip.models import phase_of
from galloon.cutting.strip.offsets import Offsets
from galloon.cutting.strip.problem import Problem

#: Temperature at the start and end, as a share of one repeat.
_HOT, _COLD = 0.5, 0.03


@dataclass
class _State:
    """Copies from left to right, the spot of each, and the phase option of each piece."""

    order: list[int]
    spots: list[int]
    phases: list[int]

    def copy(self) -> _State:
        return _State(self.order[:], self.spots[:], self.phases[:])


class _Decoder:
    """Turns states into layouts: each copy as soon after those before it as the forbidden steps allow."""

    def __init__(self, problem: Problem, offsets: Offsets) -> None:
        count = len(problem.shapes)
        self.problem, self.offsets = problem, offsets
        ranges = [[offsets.ranges(a, b) for b in range(count)] for a in range(count)]
        self.after = [[found[-1][1] + 1 if found else -(10**9) for found in row] for row in ranges]
        self.first = [math.ceil(-start / problem.unit - 1e-7) for start in offsets.starts]

    def lay(self, state: _State) -> tuple[float, list[int]]:
        """Length of the layout (mm) and the step of each copy in the state's order."""
        problem, offsets, unit = self.problem, self.offsets, self.problem.unit
        steps: list[int] = []
        shapes: list[int] = []
        low, high = math.inf, -math.inf
        for number in state.order:
            copy = problem.copies[number]
            spot = copy.spots[state.spots[number]]
            shape = spot.shape
            step = self.first[shape]
            for other, at in zip(shapes, steps, strict=True):
                if at + self.after[other][shape] > step:
                    step = at + self.after[other][shape]
            step += (spot.residues[state.phases[copy.piece]] - step) % spot.modulus
            steps.append(step)
            shapes.append(shape)
            low, high = min(low, offsets.starts[shape] + step * unit), max(high, offsets.ends[shape] + step * unit)
        return high - low, steps


def annealed(
    problem: Problem, offsets: Offsets, begin: Layout, *, moves: int, seed: int, stop: Callable[[], bool] | None = None
) -> Layout:
    """The best layout met in ``moves`` changes, or ``begin`` if none is better."""
    if len(problem.copies) < 2:
        return begin
    rng, decoder = random.Random(seed), _Decoder(problem, offsets)
    state = _state_of(problem, offsets, begin)
    length, steps = decoder.lay(state)
    best = (length, state, steps)
    for move in range(moves):
        if stop is not None and move % 64 == 0 and stop():
            break
        heat = problem.lace.repeat * _HOT * (_COLD / _HOT) ** (move / moves)
        new = _changed(problem, state, rng)
        found, at = decoder.lay(new)
        if found <= length or rng.random() < math.exp((length - found) / heat):
            state, length = new, found
            if length < best[0] - 1e-9:
                best = (length, state, at)
    if best[0] >= length_of(problem, offsets, begin) - 1e-9:
        return begin
    lies = {n: Lie(best[1].spots[n], step) for n, step in zip(best[1].order, best[2], strict=True)}
    return tuple(lies[number] for number in range(len(problem.copies)))


def _state_of(problem: Problem, offsets: Offsets, layout: Layout) -> _State:
    def left(number: int) -> float:
        shape = problem.copies[number].spots[layout[number].spot].shape
        return offsets.starts[shape] + problem.unit * layout[number].step

    order = sorted(range(len(layout)), key=left)
    phases = [phase_of(problem, layout, piece) for piece in range(len(problem.pieces))]
    return _State(order, [lie.spot for lie in layout], phases)


def _changed(problem: Problem, state: _State, rng: random.Random) -> _State:
    new = state.copy()
    kind = rng.random()
    count = len(new.order)
    if kind < 0.3:
        a, b = rng.randrange(count), rng.randrange(count)
        new.order[a], new.order[b] = new.order[b], new.order[a]
    elif kind < 0.55:
        new.order.insert(rng.randrange(count), new.order.pop(rng.randrange(count)))
    elif kind < 0.65:
        a, b = sorted((rng.randrange(count), rng.randrange(count)))
        new.order[a : b + 1] = new.order[a : b + 1][::-1]
    elif kind < 0.85:
        number = rng.randrange(count)
        new.spots[number] = rng.randrange(len(problem.copies[number].spots))
    else:
        piece = rng.randrange(len(new.phases))
        new.phases[piece] = rng.randrange(problem.options[piece])
    return new
