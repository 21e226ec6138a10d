"""What the guide is made from, and the few lookups all its pages share."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import Protocol

from galloon.design import Finish
from galloon.findings import Finding, Status, verdict
from galloon.materials import Cloth
from galloon.pieces import Garment
from galloon.sewing import ElasticRow, ShoppingRow, Step
from galloon.sheets.garment_map import GarmentMap
from galloon.sheets.guide_words import say
from galloon.tolerance import SAME_POINT
from galloon.units import format_length


class CutPiece(Protocol):
    """One copy of a piece on a cloth; ``outline`` in mm, x along the cloth's length, y across it."""

    @property
    def piece(self) -> str:
        """Its name."""

    @property
    def copy(self) -> int:
        """Which copy, from 1."""

    @property
    def flipped(self) -> bool:
        """Whether it is the mirror image of the drawn piece."""

    @property
    def other_side(self) -> bool:
        """Whether it is worn with the other side of the cloth out."""

    @property
    def outline(self) -> Sequence[tuple[float, float]]:
        """Its cut line."""


class CutPlan(Protocol):
    """How the pieces lie on one cloth (mm)."""

    @property
    def width(self) -> float:
        """Across, as it lies."""

    @property
    def length(self) -> float:
        """Taken of the cloth's length."""

    @property
    def lower_bound(self) -> float:
        """No plan is shorter."""

    @property
    def proven(self) -> bool:
        """Whether the length equals the bound."""

    @property
    def use(self) -> float:
        """Area of the pieces over the area taken."""

    @property
    def folded(self) -> bool:
        """Whether the cloth lies folded lengthwise."""

    @property
    def says(self) -> str:
        """What it assumes, in words."""

    @property
    def start(self) -> float | None:
        """Place within the motif repeat where the length begins, None where no motif binds."""

    @property
    def placed(self) -> Sequence[CutPiece]:
        """Every copy."""


@dataclass(frozen=True)
class GuideMatter:
    """Everything the guide prints: the garment, findings, cutting plans by cloth, and the sewing part's rows and
    steps.
    """

    garment: Garment
    findings: Sequence[Finding] = ()
    plans: Mapping[str, CutPlan] = field(default_factory=lambda: MappingProxyType({}))
    elastics: Sequence[ElasticRow] = ()
    shopping: Sequence[ShoppingRow] = ()
    steps: Sequence[Step] = ()

    @cached_property
    def map(self) -> GarmentMap:
        """The pieces spread out, for small drawings."""
        return GarmentMap(self.garment)

    @property
    def trims(self) -> tuple[Finish, ...]:
        """Every lace laid on an edge, each once."""
        found = {finish.name: finish for _, finish in self.garment.design.finishes if finish.trim is not None}
        return tuple(found.values())

    @property
    def cloths(self) -> tuple[Cloth, ...]:
        """Every cloth and lace of the garment, those of its pieces first, each once."""
        names = [piece.part.cloth for piece in self.garment.pieces]
        names += [finish.slit_from or finish.trim.name for finish in self.trims if finish.trim is not None]
        return tuple(self.garment.design.cloths[name] for name in dict.fromkeys(names))

    def kind(self, row: ElasticRow) -> str:
        """What is laid on an edge as she calls it: an elastic, or a lace by its own name."""
        trims = {finish.name: finish.trim.name for finish in self.trims if finish.trim is not None}
        return trims.get(row.kind, row.kind)

    @property
    def unit(self) -> str:
        """The brief's unit."""
        return self.garment.design.units

    def length(self, mm: float) -> str:
        """A length in the brief's unit."""
        return format_length(mm, self.unit)

    def small(self, mm: float) -> str:
        """A small length: mm, or inches where the brief is in inches."""
        return format_length(mm, "in" if self.unit == "in" else "mm")

    @property
    def status(self) -> Status:
        """The heaviest finding."""
        return verdict(self.findings)

    def ranked(self, status: Status) -> list[Finding]:
        """Findings of one weight in the order they were found."""
        return [finding for finding in self.findings if finding.status is status]

    def verdict(self) -> str:
        """The verdict in two sentences."""
        status = self.status
        heavy = self.ranked(status)
        if status is Status.PASS:
            return f"{say('verdict.pass')} {self._made()}"
        many = "one" if len(heavy) == 1 else "more"
        count = say(f"count.{status.value}.{many}", number=len(heavy))
        return f"{say(f'verdict.{status.value}', count=count)} {first_sentence(heavy[0].says)}"

    def _made(self) -> str:
        garment = self.garment
        drop = garment.draft.side_drop
        top = say("verdict.top", drop=self.length(drop)) if drop > SAME_POINT else say("verdict.top.waist")
        if garment.side_seam <= 0.0:
            return say("verdict.made.no side", top=top)
        side = self.length(garment.side_seam)
        if (opened := garment.design.open_side) is not None:
            many = "verdict.strap" if opened.straps == 1 else "verdict.straps"
            return say("verdict.made.open side", top=top, side=side, count=say(many, count=opened.straps))
        return say("verdict.made", top=top, side=side)


def first_sentence(text: str) -> str:
    """The text up to its first full stop, colon or semicolon that ends a clause, closed with a full stop."""
    for mark in (". ", "; "):
        text = text.partition(mark)[0]
    return text.rstrip(".:;") + "."
