"""Cutting plans searched for by the clock, each row for one or two minutes on two cores: about ten minutes in all."""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import partial
from pathlib import Path

from bench.nest import RULES, best_known, load
from bench.rows import Row
from bench.strips import LACE, pieces
from galloon.cutting import plan_cloth_longer, plan_strip_longer
from tests.support.clipper import outside, rectangle, too_near

_NESTS = Path(__file__).resolve().parents[1] / "tests" / "data" / "nest"
_SECONDS = 60.0
#: Points behind the best known density that are within reach in a minute; swim is the hard one.
_BEHIND = {"swim": 3.5}


def strip_gap(count: int, seconds: float) -> list[float]:
    """Percent of the length that is not proven."""
    plan = plan_strip_longer(LACE, pieces(count), seconds=seconds)
    return [100.0 * (1.0 - plan.lower_bound / plan.length)]


def nest_behind(name: str) -> list[float]:
    """Points of density behind the best known; infinite where another engine finds the layout wrong."""
    cloth, told = load(_NESTS / f"{name}.json")
    plan = plan_cloth_longer(cloth, told, RULES, seconds=_SECONDS)
    outlines = [placed.outline for placed in plan.placed]
    if too_near(outlines, 0.0) or outside(outlines, rectangle(plan.length, cloth.width)):
        return [math.inf]
    return [best_known(_NESTS)[name] - 100.0 * plan.use]


def _strip(count: int, seconds: float) -> Row:
    measure: Callable[[], list[float]] = partial(strip_gap, count, seconds)
    return Row(f"strip: {count} pieces", f"gap to the proven bound after {seconds:g} s", 5.0, "%", measure)


def _nest(name: str) -> Row:
    what = f"density behind the best known after {_SECONDS:g} s"
    return Row(f"nest: {name}", what, _BEHIND.get(name, 2.0), "points", partial(nest_behind, name))


ROWS = [_strip(12, 60.0), _strip(20, 120.0), *map(_nest, best_known(_NESTS))]
