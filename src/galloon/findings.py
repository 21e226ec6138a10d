"""What a check reports: a judgement on a design, with its figures and a sentence to act on."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from galloon.errors import CannotMake, show
from galloon.said import Said, in_a_row, said


class Status(StrEnum):
    """How a check came out; ordered by weight."""

    PASS = "pass"
    WARN = "warn"
    FAIL = "fail"

    @property
    def weight(self) -> int:
        """0 for pass, 1 for warn, 2 for fail."""
        return {"pass": 0, "warn": 1, "fail": 2}[self.value]


@dataclass(frozen=True)
class Finding:
    """One judgement. ``value`` and ``limit`` are in ``unit``; ``says`` is a sentence the maker can act on.

    ``about`` names the piece, edge, lace or opening it points at (``"back/side"``, ``"lace heron"``).
    """

    name: str
    status: Status
    says: Said
    value: float | None = None
    limit: float | None = None
    unit: str = ""
    about: str = ""


def refusal(error: CannotMake) -> Said:
    """Why something cannot be made, as the error itself says it."""
    says: Said = in_a_row(": ", [error.subject, error.rule])
    if error.seen is not None:
        seen = error.seen if isinstance(error.seen, str) else show(error.seen)
        says = said("{what} (seen: {seen})", what=says, seen=seen)
    return in_a_row(". ", [says, error.hint]) if error.hint else says


def verdict(findings: Iterable[Finding]) -> Status:
    """The heaviest status among the findings; pass when there are none."""
    return max((finding.status for finding in findings), key=lambda status: status.weight, default=Status.PASS)
