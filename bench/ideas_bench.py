"""Ideas: what one design costs in the first pass, on one core and with all cores, and the whole list."""

from __future__ import annotations

import time
from dataclasses import replace
from functools import cache

from bench.rows import Row
from galloon.ideas import Wish, find_ideas, stock_of
from galloon.ideas.find import _Task, reckoned_first
from galloon.ideas.pool import Spread, cores
from galloon.ideas.sketch import sketches
from tests.support.designs import MEDIUM, MESH, design, galloon, scalloped

LACE = galloon(158.0, openness=0.4)
JERSEY = replace(MESH, name="jersey", opacity=0.95, stretch_width=0.5)


@cache
def stock():
    """A galloon 18 cm wide, a mesh and a jersey: the whole of a small maker's shelf."""
    return stock_of(design(MEDIUM, uses=[scalloped("back")], lace=LACE, cloths=[JERSEY]))


@cache
def tasks():
    """Every fourth of its designs, so that all recipes, shapes and seam plans are among them."""
    return [_Task(sketch, 90_000.0, False) for sketch in sketches(stock(), 100_000).kept[::4]]


def one_core():
    """Milliseconds of processor time a design, over ten even shares of the designs."""
    work = tasks()
    for task in work[:40]:
        reckoned_first(task)
    samples = []
    for share in range(10):
        mine = work[share::10]
        start = time.process_time()
        for task in mine:
            reckoned_first(task)
        samples.append((time.process_time() - start) / len(mine) * 1000.0)
    return samples


def all_cores():
    """Milliseconds on the wall clock a design, processes started and ended within."""
    work = tasks()
    samples = []
    for _ in range(3):
        start = time.perf_counter()
        Spread(reckoned_first, work, told=lambda _: None, cancelled=lambda: False).run(processes=cores(), chunk=24)
        samples.append((time.perf_counter() - start) / len(work) * 1000.0)
    return samples


def whole():
    """Seconds for the list of the best of 500 designs, true cutting plans among it."""
    samples = []
    for _ in range(3):
        start = time.perf_counter()
        find_ideas(stock(), Wish(most=500))
        samples.append(time.perf_counter() - start)
    return samples


ROWS = [
    Row("ideas: one core", "one design in the first pass: 60 a second are 16.7 ms each", 16.7, "ms", one_core),
    Row(
        "ideas: all cores",
        "the same on the wall clock, two cores: 120 a second are 8.33 ms each",
        8.33,
        "ms",
        all_cores,
    ),
    Row("ideas: 500 designs", "both passes and the ranking; 500 at 120 a second and 4 s for 20 plans", 8.2, "s", whole),
]
