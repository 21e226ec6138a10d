"""What the cloth planner is told: the cloth, the pieces as they lie on it, and the rules of the cut."""

from __future__ import annotations

import math
from dataclasses import dataclass

from galloon.cutting.outlines import Ring, box, checked_ring
from galloon.errors import BadValue


@dataclass(frozen=True)
class Cloth:
    """A cloth laid out: x along its length, y across from 0 to ``width`` (mm), selvedge to selvedge.

    ``nap``: every piece must lie the same way up. ``folded``: folded along its length, right sides together, the fold
    at y = 0; every outline is then cut through two layers. ``length``: what there is, if nothing may pass it.
    """

    width: float
    nap: bool = False
    folded: bool = False
    length: float | None = None

    def __post_init__(self) -> None:
        for name in ("width", *(("length",) if self.length is not None else ())):
            value = getattr(self, name)
            if not (math.isfinite(value) and value > 0):
                raise BadValue(f"cloth {name}", "must be more than 0 mm", value)

    @property
    def lying(self) -> float:
        """Width as it lies on the table, mm."""
        return self.width / 2 if self.folded else self.width


@dataclass(frozen=True)
class ClothPiece:
    """A piece to cut, drawn the way up it must lie: stretch and nap already brought to the cloth's directions.

    ``mirrored``: half of the copies are mirrored twins. ``on_fold``: the outline is half the piece, with the edge that
    goes on the fold on y = 0 and everything else above it; only on a folded cloth.
    """

    name: str
    outline: Ring
    copies: int = 1
    mirrored: bool = False
    on_fold: bool = False

    def __post_init__(self) -> None:
        object.__setattr__(self, "outline", checked_ring(f"piece {self.name}", self.outline))
        if self.copies < 1:
            raise BadValue(f"piece {self.name} copies", "must be 1 or more", self.copies)
        if self.mirrored and (self.copies % 2 or self.on_fold):
            raise BadValue(f"piece {self.name}", "mirrored copies come in pairs and not on a fold", self.copies)
        if self.on_fold and abs(box(self.outline)[1]) > 1e-6:
            raise BadValue(f"piece {self.name}", "must have its fold edge on y = 0", box(self.outline)[1])


@dataclass(frozen=True)
class ClothRules:
    """Blade ``clearance`` between pieces (mm), and how many orders of setting down are tried."""

    clearance: float = 2.0
    tries: int = 40

    def __post_init__(self) -> None:
        if not (math.isfinite(self.clearance) and 0 <= self.clearance <= 50):
            raise BadValue("blade clearance", "must be 0 to 50 mm", self.clearance)
        if not 0 <= self.tries <= 100_000:
            raise BadValue("orders tried", "must be 0 to 100000", self.tries)
