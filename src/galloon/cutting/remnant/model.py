"""A leftover of cloth, and the answer to whether pieces can be cut from it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import shapely
from shapely.geometry import Polygon

from galloon.cutting.model import Placed
from galloon.cutting.outlines import Ring, checked_ring
from galloon.errors import BadValue


@dataclass(frozen=True)
class Remnant:
    """A leftover: its outline and the holes already cut from it (mm), lying as the cloth lay: x along its length.

    ``nap``: pieces may not be turned.
    """

    outline: Ring
    holes: tuple[Ring, ...] = ()
    nap: bool = False

    def __post_init__(self) -> None:
        object.__setattr__(self, "outline", checked_ring("remnant outline", self.outline))
        holes = tuple(checked_ring(f"remnant hole {n}", hole) for n, hole in enumerate(self.holes, start=1))
        object.__setattr__(self, "holes", holes)
        shape = Polygon(self.outline, self.holes)
        if not shape.is_valid:
            raise BadValue("remnant", "must have its holes inside it and apart", shapely.is_valid_reason(shape))

    @property
    def shape(self) -> Polygon:
        """The cloth there is."""
        return Polygon(self.outline, self.holes)


@dataclass(frozen=True)
class RemnantRules:
    """Blade ``clearance`` between pieces (mm); ``moves`` of the search, so the same input gives the same answer."""

    clearance: float = 2.0
    moves: int = 6000

    def __post_init__(self) -> None:
        if not (math.isfinite(self.clearance) and 0 <= self.clearance <= 50):
            raise BadValue("blade clearance", "must be 0 to 50 mm", self.clearance)
        if not 1 <= self.moves <= 10_000_000:
            raise BadValue("moves of the search", "must be 1 to 10000000", self.moves)


@dataclass(frozen=True)
class Fit:
    """Whether the pieces were found to fit; if so, every copy with its outline in the remnant's own coordinates.

    ``use``: area of the pieces over the remnant's. A search that finds no place proves nothing; ``says`` tells so.
    """

    fits: bool
    placed: tuple[Placed, ...]
    use: float
    says: str
