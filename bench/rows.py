"""What one measurement is: a name, a goal, and a function that returns its samples."""

from __future__ import annotations

import math
import statistics
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

Statistic = Literal["median", "p95"]


class NotMeasured(Exception):
    """The row cannot be measured here; the message says why."""


@dataclass(frozen=True)
class Row:
    """A line of the table: ``measure()`` returns samples in ``unit``; their ``statistic`` must not exceed ``goal``."""

    name: str
    measures: str
    goal: float
    unit: str
    measure: Callable[[], Sequence[float]]
    statistic: Statistic = "median"


@dataclass(frozen=True)
class Result:
    """A row as it came out; ``samples`` is empty where ``reason`` says why nothing was measured."""

    name: str
    measures: str
    goal: float
    unit: str
    statistic: Statistic
    samples: tuple[float, ...]
    reason: str = ""

    @property
    def median(self) -> float:
        """The middle sample; NaN without samples."""
        return statistics.median(self.samples) if self.samples else math.nan

    @property
    def p95(self) -> float:
        """The sample that 95 % do not exceed (nearest rank); NaN without samples."""
        rank = math.ceil(0.95 * len(self.samples)) - 1
        return sorted(self.samples)[rank] if self.samples else math.nan

    @property
    def value(self) -> float:
        """The figure that is held against the goal."""
        return self.median if self.statistic == "median" else self.p95

    @property
    def verdict(self) -> str:
        """``pass``, ``MISS``, or ``not measured``."""
        if not self.samples:
            return "not measured"
        return "pass" if self.value <= self.goal else "MISS"


def result_of(row: Row) -> Result:
    """Measures one row; whatever goes wrong becomes the reason why it has no figure."""
    samples: Sequence[float] = ()
    reason = ""
    try:
        samples = row.measure()
    except NotMeasured as error:
        reason = str(error)
    except Exception as error:
        reason = f"{type(error).__name__}: {error}"
    return Result(row.name, row.measures, row.goal, row.unit, row.statistic, tuple(samples), reason)


def repeat(work: Callable[[], object], *, times: int, warm_up: int = 1, per: float = 1.0) -> list[float]:
    """Seconds of ``times`` runs after ``warm_up`` unmeasured ones, divided by ``per`` (0.001 gives milliseconds)."""
    for _ in range(warm_up):
        work()
    samples = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        samples.append((time.perf_counter() - start) / per)
    return samples
