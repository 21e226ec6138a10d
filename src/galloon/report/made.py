"""Everything reckoned about one design, gathered for the report, the guide and the page."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from galloon.cutting import Plan
from galloon.findings import Finding, Status, verdict
from galloon.pieces import Garment


@dataclass(frozen=True)
class CuttingRow:
    """The plan of one cloth; ``cloth_length`` says which way the length of the plan runs on the cloth."""

    cloth: str
    plan: Plan


@dataclass(frozen=True)
class Made:
    """A garment with all that follows from it. ``elastic``, ``shopping`` and ``sewing`` are rows of the sewing part."""

    garment: Garment
    findings: tuple[Finding, ...]
    cutting: tuple[CuttingRow, ...]
    elastic: Sequence[Any]
    shopping: Sequence[Any]
    sewing: Sequence[Any]

    @property
    def verdict(self) -> Status:
        """The heaviest finding."""
        return verdict(self.findings)
