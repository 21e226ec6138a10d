"""Cutting plans against their goals; searches ended by the clock stand in ``cutting_long_bench.py``."""

from __future__ import annotations

import math
import random
import time
from functools import cache

from bench.remnants import pieces_of, planted
from bench.rows import Row
from bench.strips import LACE, pieces
from galloon.cutting import ClothPiece, Remnant, RemnantRules, plan_remnant, plan_strip_longer
from tests.support.clipper import outside, too_near

_SEEDS = 40
_LAYOUTS = 1000


def strip_of_eight() -> list[float]:
    """Seconds until eight pieces are proven; infinite where they are not within ten."""
    plan_strip_longer(LACE, pieces(2), seconds=5.0)
    times = []
    for _ in range(5):
        begun = time.perf_counter()
        plan = plan_strip_longer(LACE, pieces(8), seconds=10.0)
        times.append(time.perf_counter() - begun if plan.proven else math.inf)
    return times


def remnant_of(seed: int, count: int, density: float) -> tuple[Remnant, list[ClothPiece]]:
    """A leftover with pieces planted in it, and the pieces."""
    rng = random.Random(seed)
    shape, cells = planted(rng, count, density)
    holes = tuple(tuple(hole.coords)[:-1] for hole in shape.interiors)
    return Remnant(tuple(shape.exterior.coords)[:-1], holes), pieces_of(cells, rng)


def planted_pieces() -> list[float]:
    """Seconds until seven pieces planted at 85 % are found again, one sample a seed; infinite where they are not."""
    times = []
    for seed in range(_SEEDS):
        remnant, cells = remnant_of(seed, 7, 0.85)
        begun = time.perf_counter()
        fit = plan_remnant(remnant, cells, RemnantRules(clearance=0.0))
        times.append(time.perf_counter() - begun if fit.fits else math.inf)
    return times


@cache
def thousand_layouts() -> tuple[int, int]:
    """Layouts that another polygon engine refuses, and layouts given, of as many leftovers."""
    wrong = given = 0
    for seed in range(_LAYOUTS):
        rng = random.Random(seed)
        remnant, cells = remnant_of(seed + 1000, rng.randint(2, 6), rng.choice((0.5, 0.6, 0.7, 0.8)))
        clearance = rng.choice((0.0, 1.0, 2.0))
        fit = plan_remnant(remnant, cells, RemnantRules(clearance=clearance, moves=1500))
        outlines = [placed.outline for placed in fit.placed]
        given += fit.fits
        wrong += bool(too_near(outlines, clearance) or outside(outlines, remnant.outline, remnant.holes))
        wrong += fit.fits and len(outlines) != len(cells)
    return wrong, given


ROWS = [
    Row("strip: 8 pieces", "both models until the plan is proven, lace 200 mm", 2.0, "s", strip_of_eight),
    Row("leftover: planted", f"7 pieces at 85 %, {_SEEDS} seeds", 5.0, "s", planted_pieces, "p95"),
    Row("leftover: invalid", "of 1,000 leftovers, layouts refused by clipper", 0, "", lambda: [thousand_layouts()[0]]),
    Row("leftover: not found", "of the same 1,000", 1000, "", lambda: [_LAYOUTS - thousand_layouts()[1]]),
]
