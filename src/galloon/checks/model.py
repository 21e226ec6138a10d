"""What the checks are told beside the garment."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType

from galloon.checks.girth import edge_bands
from galloon.materials.tension import Band
from galloon.pieces import Garment


@dataclass(frozen=True)
class Opened:
    """How far (mm) the elastic of one opening stretches, and its name."""

    reach: float
    kind: str


@dataclass(frozen=True)
class Evidence:
    """A garment and what was reckoned of it: ``elastics`` by opening (waist, leg), ``lengths`` needed by cloth (mm).

    With ``at_least`` those are bounds that no cutting plan is shorter than, not the lengths of plans.
    """

    garment: Garment
    elastics: Mapping[str, Opened] = field(default_factory=lambda: MappingProxyType({}))
    lengths: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    at_least: bool = False

    @cached_property
    def bands(self) -> Mapping[str, list[Band]]:
        """The bands of each opening: waist, leg."""
        return MappingProxyType({name: edge_bands(self.garment, name) for name in ("waist", "leg")})
