"""An open side: front and back do not meet at the side; straps of elastic bridge the gap from the one to the other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from galloon.errors import BadValue
from galloon.materials import Elastic
from galloon.said import said
from galloon.units import limits

#: Narrowest and widest gap (mm on the body), and most straps at one side; chosen, no source.
NARROWEST_GAP, WIDEST_GAP, MOST_STRAPS = 10.0, 300.0, 8
#: A strap is worn stretched by no more than this (fraction) whatever a brief asks.
_MOST_STRAIN: Final = 0.5


@dataclass(frozen=True)
class OpenSide:
    """Both sides alike. ``waist`` and ``leg`` are the gap (mm, on the body, from the front's side edge to the back's)
    at the waist and at the leg.

    ``straps`` of ``elastic`` cross it, spread evenly from the waist to the leg. ``strain`` (fraction) is how far they
    are stretched when worn; None: as hard as the panels pull, within what is usual.
    """

    waist: float
    leg: float
    elastic: Elastic
    straps: int = 2
    strain: float | None = None

    def __post_init__(self) -> None:
        for name in ("waist", "leg"):
            value = getattr(self, name)
            if not NARROWEST_GAP <= value <= WIDEST_GAP:
                rule = limits(NARROWEST_GAP / 10, WIDEST_GAP / 10, "cm")
                raise BadValue(f"open_side.gap.{name}", rule, f"{value / 10:g} cm")
        if not 1 <= self.straps <= MOST_STRAPS:
            raise BadValue(
                "open_side.straps", said("must be a whole number from 1 to {most}", most=MOST_STRAPS), self.straps
            )
        if self.strain is not None and not 0.0 <= self.strain <= _MOST_STRAIN:
            rule = limits(0, _MOST_STRAIN * 100, "%")
            raise BadValue("open_side.worn_stretch", rule, f"{self.strain * 100:g} %")
        if self.strain is not None and self.strain > self.elastic.stretch:
            rule = said(
                "must not be more than the {most:g} % that {strap} stretches",
                most=self.elastic.stretch * 100, strap=self.elastic.name,
            )  # fmt: skip
            raise BadValue("open_side.worn_stretch", rule, f"{self.strain * 100:g} %")
