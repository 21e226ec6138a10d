"""What the strip planner is told: the lace's symmetry facts, the pieces, and the rules of the cut."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

from galloon.cutting.outlines import Ring, box, checked_ring
from galloon.errors import BadValue

SecondEdge = Literal["mirror", "half step", "other", "none"]
Anchor = Literal["motif", "scallop", "free"]


@dataclass(frozen=True)
class Lace:
    """A strip of lace, right side up: x along its length, y across it from 0 at the lower edge's peak line (mm).

    ``second_edge``: the upper edge is the lower one mirrored (``"mirror"``), mirrored and moved half a repeat
    (``"half step"``), something else (``"other"``), or carries no scallops to sit on (``"none"``).
    ``length``: what there is of it, if that is a limit that nothing may pass.
    """

    width: float
    repeat: float
    pitch: float
    mirror_across: bool = False
    second_edge: SecondEdge = "other"
    half_turn: bool = False
    reversible: bool = False
    motif_up: bool = False
    length: float | None = None

    def __post_init__(self) -> None:
        for name in ("width", "repeat", "pitch", *(("length",) if self.length is not None else ())):
            value = getattr(self, name)
            if not (math.isfinite(value) and value > 0):
                raise BadValue(f"lace {name}", "must be more than 0 mm", value)
        scallops = self.repeat / self.pitch
        if abs(scallops - round(scallops)) > 1e-6 or round(scallops) < 1:
            raise BadValue("lace repeat", f"must be a whole number of pitches of {self.pitch:g} mm", self.repeat)

    @property
    def upper_shift(self) -> float:
        """How far the upper edge stands moved along against the lower, mm."""
        return self.repeat / 2 if self.second_edge == "half step" else 0.0


@dataclass(frozen=True)
class LacePiece:
    """A piece to cut, drawn as it lies on the lower edge: x from the piece's own origin, y from the lower peak line.

    ``on_edge``: it sits on a scalloped edge; otherwise it may lie anywhere across (only where unmatched).
    ``phase`` (mm): place of the origin within the repeat, counted from a mirror line across where there is one, and
    from an axis of a scallop otherwise. ``anchor`` says how firmly: ``"motif"`` exactly there; ``"scallop"`` there or
    any number of pitches on, all copies alike; ``"free"`` anywhere on the grid, all copies alike.
    ``matched`` False: the motif may come out different on each copy, and only the scallops' pitch binds.
    ``mirrored``: half of the copies are mirrored twins.
    """

    name: str
    outline: Ring
    copies: int = 1
    mirrored: bool = False
    on_edge: bool = True
    phase: float = 0.0
    anchor: Anchor = "motif"
    matched: bool = True

    def __post_init__(self) -> None:
        object.__setattr__(self, "outline", checked_ring(f"piece {self.name}", self.outline))
        if self.copies < 1:
            raise BadValue(f"piece {self.name} copies", "must be 1 or more", self.copies)
        if self.mirrored and self.copies % 2:
            raise BadValue(f"piece {self.name} copies", "must be even when half are mirrored", self.copies)
        if not math.isfinite(self.phase):
            raise BadValue(f"piece {self.name} phase", "must be a finite number of mm", self.phase)

    @property
    def across(self) -> float:
        """Greatest extent across the lace, mm."""
        _, low, _, high = box(self.outline)
        return high - low


@dataclass(frozen=True)
class StripRules:
    """How to cut: blade ``clearance`` between pieces (mm), steps of the phase grid to one repeat, and the work allowed.

    ``work``: in the solver's own machine-independent seconds, so that the same input always gives the same plan.
    """

    clearance: float = 2.0
    steps: int = 6
    work: float = 0.1

    def __post_init__(self) -> None:
        if not (math.isfinite(self.clearance) and 0 <= self.clearance <= 50):
            raise BadValue("blade clearance", "must be 0 to 50 mm", self.clearance)
        if not 1 <= self.steps <= 60:
            raise BadValue("steps of the phase grid", "must be 1 to 60 to a repeat", self.steps)
        if not (math.isfinite(self.work) and self.work >= 0):
            raise BadValue("work allowed", "must be 0 or more", self.work)
