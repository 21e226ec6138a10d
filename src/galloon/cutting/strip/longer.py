"""The longer search that a maker may ask for: cut off by the clock, with progress, and stopped when she likes."""

from __future__ import annotations

import random
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, field

from galloon.cutting.model import Progress
from galloon.cutting.strip.anneal import annealed
from galloon.cutting.strip.bounds import length_bound
from galloon.cutting.strip.circuits import circuit_model
from galloon.cutting.strip.cpsat import Answer, Solver
from galloon.cutting.strip.greedy import best_of_orders
from galloon.cutting.strip.layout import Layout, length_of
from galloon.cutting.strip.models import Written, hint_layout, keep_phases, pair_model
from galloon.cutting.strip.offsets import Offsets
from galloon.cutting.strip.problem import Problem
from galloon.cutting.strip.solve import Found, taken

#: Wall-clock seconds for one search near the best layout; shares of the time for quick layouts and the pair model.
_NEAR = 3.0
_QUICK_SHARE, _PAIR_SHARE = 0.04, 0.25


@dataclass
class _Shared:
    """The best that any of the searches knows; every change is made under the lock."""

    found: Found
    deadline: float
    lock: threading.Lock = field(default_factory=threading.Lock)
    solvers: list[Solver] = field(default_factory=list)
    stopped: bool = False

    def left(self) -> float:
        return 0.0 if self.stopped or self.found.proven else max(0.0, self.deadline - time.monotonic())

    def take(self, model: Written, answer: Answer, bounds: bool = True) -> None:
        with self.lock:
            better = taken(self.found, model, answer)
            self.found = Found(better.layout, better.length, better.bound if bounds else self.found.bound)

    def take_layout(self, layout: Layout, length: float) -> None:
        with self.lock:
            if length < self.found.length - 1e-9:
                self.found = Found(layout, length, min(length, self.found.bound))

    def stop_all(self) -> None:
        with self.lock:
            self.stopped = True
            for solver in self.solvers:
                solver.stop()


def search_longer(
    problem: Problem,
    offsets: Offsets,
    *,
    seconds: float,
    progress: Callable[[Progress], None] = lambda _: None,
    cancelled: Callable[[], bool] = lambda: False,
) -> Found:
    """The best layout within ``seconds`` on two cores; ``progress`` hears now and then, ``cancelled`` ends it early."""
    begun = time.monotonic()
    quick_end = begun + seconds * _QUICK_SHARE
    layout = best_of_orders(problem, offsets, 100, lambda: cancelled() or time.monotonic() > quick_end)
    layout = annealed(problem, offsets, layout, moves=2000 * len(layout), seed=1, stop=cancelled)
    length = length_of(problem, offsets, layout)
    shared = _Shared(Found(layout, length, min(length, length_bound(problem))), begun + seconds)
    jobs = [
        threading.Thread(target=_prove, args=(problem, offsets, shared)),
        threading.Thread(target=_improve, args=(problem, offsets, shared, seconds * _PAIR_SHARE)),
    ]
    for job in jobs:
        job.start()
    while any(job.is_alive() for job in jobs):
        jobs[0].join(0.05) if jobs[0].is_alive() else jobs[1].join(0.05)
        found = shared.found
        progress(Progress(time.monotonic() - begun, found.length, found.bound))
        if found.proven or cancelled():
            shared.stop_all()
    return shared.found


def _solve(shared: _Shared, model: Written, seconds: float, *, bounds: bool) -> None:
    """One solve that shares better layouts, and better bounds if the model leaves nothing out, as they come."""
    solver = Solver()
    with shared.lock:
        if shared.stopped:
            return
        shared.solvers.append(solver)
    limits = f"num_workers: 1 random_seed: 1 linearization_level: 2 max_time_in_seconds: {max(0.05, seconds):.3f}"
    answer = solver.solve(
        model.model,
        limits,
        on_bound=(lambda bound: shared.take(model, Answer((), bound, False, False))) if bounds else None,
        on_values=lambda values: shared.take(model, Answer(values, 0.0, False, False), bounds=False),
    )
    with shared.lock:
        shared.solvers.remove(solver)
    shared.take(model, answer, bounds)


def _prove(problem: Problem, offsets: Offsets, shared: _Shared) -> None:
    model = circuit_model(problem, offsets, shared.found.layout) or pair_model(problem, offsets, shared.found.layout)
    hint_layout(model, shared.found.layout)
    _solve(shared, model, shared.left(), bounds=True)


def _improve(problem: Problem, offsets: Offsets, shared: _Shared, pair_seconds: float) -> None:
    """The pair model for a share of the time; then searches near the best layout, most phases held."""
    model = pair_model(problem, offsets, shared.found.layout)
    hint_layout(model, shared.found.layout)
    _solve(shared, model, min(pair_seconds, shared.left()), bounds=True)
    rng = random.Random(5)
    free_pieces = [piece for piece, count in enumerate(problem.options) if count > 1]
    while shared.left() > 0.2:
        moves, seed = 1000 * len(problem.copies), rng.randrange(10**6)
        layout = annealed(
            problem, offsets, shared.found.layout, moves=moves, seed=seed, stop=lambda: shared.left() <= 0
        )
        shared.take_layout(layout, length_of(problem, offsets, layout))
        near = circuit_model(problem, offsets, layout) or pair_model(problem, offsets, layout)
        keep_phases(near, layout, rng.sample(free_pieces, min(len(free_pieces), rng.choice((0, 1, 2, 2, 3)))))
        hint_layout(near, layout)
        _solve(shared, near, min(_NEAR, shared.left()), bounds=False)
