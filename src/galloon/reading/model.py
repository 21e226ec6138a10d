"""What is read from a picture of a lace: figures with their intervals, symmetries, doubts and a true-scale repeat."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import Final

from galloon.errors import BadValue
from galloon.reading.arrays import Bytes, Reals
from galloon.said import Said

EDGES: Final = ("double scallop", "single scallop", "straight", "none")
SECOND_EDGES: Final = ("mirror", "half step", "other")


@dataclass(frozen=True)
class Figure:
    """A measured value with the ends of its 95 % interval, in one unit (mm, or a share)."""

    value: float
    low: float
    high: float

    def __post_init__(self) -> None:
        if not all(math.isfinite(v) for v in (self.value, self.low, self.high)):
            raise BadValue("figure", "must be finite", (self.value, self.low, self.high))
        if not self.low <= self.value <= self.high:
            raise BadValue("figure", "must lie inside its own interval", (self.value, self.low, self.high))

    @property
    def half(self) -> float:
        """Half the width of the interval."""
        return (self.high - self.low) / 2


def figure(value: float, half: float, least: float = -math.inf) -> Figure:
    """A figure from a value and half its interval, cut off at ``least``."""
    return Figure(max(value, least), max(value - half, least), max(value + half, least))


@dataclass(frozen=True)
class Doubt:
    """A named reason to distrust the reading, with a sentence the maker can act on."""

    name: str
    says: Said


@dataclass(frozen=True)
class FoundEdge:
    """One edge drawn over the picture, in picture px (Nx2): its line, and where its peaks and valleys lie."""

    line: Reals
    peaks: Reals
    valleys: Reals


@dataclass(frozen=True)
class FoundGeometry:
    """What an overlay draws, in picture px: both edges (None where not in the picture) and one repeat (4x2)."""

    top: FoundEdge | None
    low: FoundEdge | None
    repeat: Reals | None


@dataclass(frozen=True)
class Straightened:
    """One repeat seen straight and to scale: HxWx3 uint8 RGB, with the share of thread (HxW uint8, 255 solid)."""

    pixels: Bytes
    thread: Bytes
    mm_per_px: float


@dataclass(frozen=True)
class LevelView:
    """The lace laid level: HxWx3 uint8 RGB, its share of thread (HxW uint8, 255 solid), and where things were found.

    Places are mm from the upper left corner: ``top`` and ``low`` are the peak lines, ``start`` is where a repeat
    begins, at a valley of the edge ``first`` ("top" or "low") that is described first. Depths are 0 where an edge is
    straight.
    """

    pixels: Bytes
    thread: Bytes
    mm_per_px: float
    first: str
    top: float
    low: float
    top_depth: float
    low_depth: float
    start: float

    @property
    def size(self) -> tuple[float, float]:
        """Width and height in mm."""
        tall, wide = self.thread.shape
        return wide * self.mm_per_px, tall * self.mm_per_px


@dataclass(frozen=True)
class LaceReading:
    """All that one picture says of a lace; millimetres. Figures that the lace or picture lacks are None."""

    edges: str
    width: Figure | None
    scallop_pitch: Figure | None
    scallop_depth: Figure | None
    second_pitch: Figure | None
    second_depth: Figure | None
    repeat: Figure | None
    openness: Figure | None
    mirror_across: bool
    second_edge: str | None
    half_turn: bool
    confidence: float
    warnings: tuple[Doubt, ...]
    found: FoundGeometry
    straightened: Straightened | None
    level: LevelView | None = None
    notes: tuple[str, ...] = field(default=())

    def __post_init__(self) -> None:
        if self.edges not in EDGES:
            raise BadValue("edges", f"must be one of {', '.join(EDGES)}", self.edges)
        if self.second_edge is not None and self.second_edge not in SECOND_EDGES:
            raise BadValue("second_edge", f"must be one of {', '.join(SECOND_EDGES)}", self.second_edge)
        if not 0 <= self.confidence <= 1:
            raise BadValue("confidence", "must lie between 0 and 1", self.confidence)

    @property
    def doubtful(self) -> bool:
        """Whether anything disturbed the reading."""
        return bool(self.warnings)
