"""The style: shape, drops, leg, coverage and seam plan; and the presets behind the shapes' trade names."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType
from typing import ClassVar, Final, Literal

from galloon.errors import BadValue
from galloon.said import said
from galloon.units import limits


class Shape(StrEnum):
    """Trade names of the usual shapes."""

    BRIEF = "brief"
    HIPSTER = "hipster"
    BIKINI = "bikini"
    HIGH_LEG = "high leg"
    TANGA = "tanga"
    THONG = "thong"


class Coverage(StrEnum):
    """How much of the seat the back covers."""

    FULL = "full"
    MEDIUM = "medium"
    LOW = "low"


class GussetPlan(StrEnum):
    """How the gusset is made: set in, grown on to one panel, or one piece with a centre seam."""

    SET_IN = "set in"
    ON_FRONT = "on front"
    ON_BACK = "on back"
    CENTRE_SEAM = "centre seam"


@dataclass(frozen=True)
class Drops:
    """How far the waist line lies below the block's waist level, mm, measured vertically; the side is shared.

    ``MOST`` is beyond any block; a draft cuts back what its own block does not allow.
    """

    MOST: ClassVar[float] = 1000.0

    front: float
    side: float
    back: float

    @classmethod
    def level(cls, drop: float) -> Drops:
        """The same drop all round."""
        return cls(drop, drop, drop)

    def __post_init__(self) -> None:
        for name in ("front", "side", "back"):
            value = getattr(self, name)
            if not 0.0 <= value <= self.MOST:
                raise BadValue(f"waist_drop.{name}", limits(0, 100, "cm"), f"{value / 10:g} cm")


@dataclass(frozen=True)
class ShapePreset:
    """What a shape's name means: level waist drop, leg raise (mm) and seat coverage; common practice, no source."""

    waist_drop: float
    leg_raise: float
    coverage: Coverage


#: A full brief's leg lies 25 mm below hip level; a bikini's 40 to 90 mm higher. Common practice, no source.
SHAPES: Final[Mapping[Shape, ShapePreset]] = MappingProxyType(
    {
        Shape.BRIEF: ShapePreset(20.0, 0.0, Coverage.FULL),
        Shape.HIPSTER: ShapePreset(60.0, 10.0, Coverage.FULL),
        Shape.BIKINI: ShapePreset(70.0, 60.0, Coverage.MEDIUM),
        Shape.HIGH_LEG: ShapePreset(30.0, 90.0, Coverage.MEDIUM),
        Shape.TANGA: ShapePreset(70.0, 70.0, Coverage.LOW),
        Shape.THONG: ShapePreset(70.0, 80.0, Coverage.LOW),
    }
)


#: The seams that can be lapped where they join lace.
LAPPED_SEAMS: Final = ("side", "gusset", "centre front", "centre back", "style line")


@dataclass(frozen=True)
class Style:
    """Style lines and seam plan. ``waist_drop`` None means "auto"; ``side_forward`` mm, None for no side seam.

    ``centre_back_shape`` and ``centre_front_shape`` are how far (mm) a shaped centre seam takes in at the waist.
    ``splits`` are style lines that cut a panel in two: (panel, ring of points in block coordinates). ``lapped``
    names the seams that are lapped where they join lace (``LAPPED_SEAMS``).
    """

    shape: Shape = Shape.BRIEF
    waist_drop: Drops | None = None
    leg_raise: float = 0.0
    coverage: Coverage = Coverage.FULL
    centre_back_seam: bool = False
    centre_front_seam: bool = False
    centre_back_shape: float = 0.0
    centre_front_shape: float = 0.0
    side_forward: float | None = 0.0
    gusset: GussetPlan = GussetPlan.SET_IN
    splits: tuple[Split, ...] = ()
    lapped: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if not -100.0 <= self.leg_raise <= 400.0:
            raise BadValue("leg_raise", limits(-10, 40, "cm"), f"{self.leg_raise / 10:g} cm")
        if self.side_forward is not None and not 0.0 <= self.side_forward <= 300.0:
            raise BadValue("side_seam", said("moves forward by 0 to 30 cm"), f"{self.side_forward / 10:g} cm")
        for name in self.lapped:
            if name not in LAPPED_SEAMS:
                raise BadValue("lapped", said("must name {names}", names=", ".join(LAPPED_SEAMS)), name)
        for name in ("centre_back_shape", "centre_front_shape"):
            if not 0.0 <= getattr(self, name) <= 40.0:
                raise BadValue(name, limits(0, 4, "cm"), f"{getattr(self, name) / 10:g} cm")


@dataclass(frozen=True)
class Split:
    """A style line that cuts ``panel`` in two, through ``points`` (block coordinates, mm); curved or straight.

    ``cloth`` names the cloth of the part above or nearer the side; empty for the panel's own.
    """

    panel: Literal["front", "back"]
    points: tuple[tuple[float, float], ...]
    curved: bool = False
    cloth: str = ""

    def __post_init__(self) -> None:
        if len(self.points) < 2:
            raise BadValue("split.points", said("needs at least two points"), len(self.points))
