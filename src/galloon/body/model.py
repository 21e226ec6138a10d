"""One wearer's measurements, in millimetres, named as in ISO 8559-1."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

from galloon.errors import BadValue
from galloon.said import said
from galloon.units import limits

#: Least and greatest length (mm) that a living adult could have; wide on purpose, from memory, no source.
POSSIBLE: Final[Mapping[str, tuple[float, float]]] = MappingProxyType(
    {
        "waist": (350.0, 2500.0),
        "top_hip": (400.0, 2700.0),
        "hip": (450.0, 2800.0),
        "thigh": (250.0, 1400.0),
        "height": (900.0, 2500.0),
        "waist_to_hip": (50.0, 500.0),
        "crotch_length": (350.0, 1500.0),
    }
)


@dataclass(frozen=True)
class Estimate:
    """A measurement that was reckoned rather than taken: its value, its spread (one standard deviation, mm), how."""

    value: float
    spread: float
    how: str


@dataclass(frozen=True)
class Wearer:
    """Girths are horizontal; ``waist_to_hip`` follows the side of the body; ``crotch_length`` is total, front
    waist to back waist.

    ``estimated`` holds, by measurement name, those that were not taken with a tape.
    """

    waist: float
    hip: float
    waist_to_hip: float
    crotch_length: float
    top_hip: float | None = None
    thigh: float | None = None
    height: float | None = None
    name: str = ""
    estimated: Mapping[str, Estimate] = field(default_factory=lambda: MappingProxyType({}))

    def __post_init__(self) -> None:
        for name, (least, most) in POSSIBLE.items():
            value = getattr(self, name)
            if value is None:
                continue
            if not math.isfinite(value) or not least <= value <= most:
                raise BadValue(name, limits(least / 10, most / 10, "cm"), f"{value / 10:g} cm")
        if self.crotch_length <= self.waist_to_hip * 2:
            raise BadValue(
                "crotch_length",
                said("goes from waist to waist between the legs, so it is longer than twice the way from waist to hip"),
                f"{self.crotch_length / 10:g} cm",
            )

    def measurements(self) -> dict[str, float]:
        """Every measurement that is known, by name, in mm."""
        return {name: value for name in POSSIBLE if (value := getattr(self, name)) is not None}
