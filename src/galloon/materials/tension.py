"""Cloths sewn into one girth carry the same tension; how far each stretches and how far they reach together."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from galloon import defaults
from galloon.errors import BadValue
from galloon.materials.model import Cloth
from galloon.materials.off_axis import off_axis_stretch, pull_stiffness


@dataclass(frozen=True)
class Stretchiness:
    """One direction of a cloth, or of layers worn together: ``stiffness`` N/m at unit strain, usable ``stretch``."""

    stiffness: float
    stretch: float

    @property
    def rigid(self) -> bool:
        """Whether it does not stretch at all."""
        return self.stretch <= 0.0

    @property
    def usable_tension(self) -> float:
        """Tension per width (N/m) at which it comes to its usable stretch; infinite when rigid."""
        return math.inf if self.rigid else self.stiffness * self.stretch

    def strain(self, tension: float) -> float:
        """Strain under a tension per width (N/m)."""
        return 0.0 if self.rigid else tension / self.stiffness


@dataclass(frozen=True)
class Band:
    """A part of a girth: relaxed ``width`` (mm) of something that stretches so; ``strap`` where that is no cloth, but
    what bridges an open side.
    """

    name: str
    width: float
    cloth: Stretchiness
    strap: bool = False

    def __post_init__(self) -> None:
        if not (math.isfinite(self.width) and self.width >= 0.0):
            raise BadValue(f"width of {self.name}", "must be zero or more", self.width)


def stretchiness(cloth: Cloth, angle: float) -> Stretchiness:
    """How ``cloth`` stretches at ``angle`` degrees from its length."""
    return Stretchiness(pull_stiffness(cloth, angle), off_axis_stretch(cloth, angle))


def together(layers: Sequence[Stretchiness]) -> Stretchiness:
    """Layers sewn round their edges stretch as one: stiffnesses add, the least stretch is the limit."""
    if any(layer.rigid for layer in layers):
        return Stretchiness(math.inf, 0.0)
    return Stretchiness(sum(layer.stiffness for layer in layers), min(layer.stretch for layer in layers))


def in_series(shares: Sequence[tuple[float, Stretchiness]]) -> Stretchiness:
    """Cloths side by side, each with its share of the relaxed width, as one: the same tension runs through all.

    Compliances add by share; the usable stretch is what the whole shows when the first comes to its own.
    """
    give = sum(share / cloth.stiffness for share, cloth in shares if not cloth.rigid)
    if give <= 0.0:
        return Stretchiness(math.inf, 0.0)
    whole = sum(share for share, _ in shares)
    tension = min(cloth.usable_tension for share, cloth in shares if share > 0.0 and not cloth.rigid)
    return Stretchiness(whole / give, tension * give / whole)


def usual_tension(cloths: Sequence[Stretchiness]) -> float:
    """The common tension (N/m) at which the first cloth comes to the usual worn share of its stretch; 0 if all are
    rigid.
    """
    limits = [
        min(defaults.WORN_SHARE * cloth.stretch, float(defaults.WORN_STRAIN_LIMIT)) * cloth.stiffness
        for cloth in cloths
        if not cloth.rigid
    ]
    return min(limits, default=0.0)


def tension_at(bands: Sequence[Band], girth: float) -> float:
    """The common tension (N/m) at which the bands together measure ``girth`` mm; infinite if nothing gives.

    Negative where the relaxed bands are longer than ``girth``.
    """
    give = sum(band.width / band.cloth.stiffness for band in bands if not band.cloth.rigid)
    return (girth - relaxed(bands)) / give if give > 0.0 else math.inf


def relaxed(bands: Sequence[Band]) -> float:
    """Total relaxed width (mm)."""
    return sum(band.width for band in bands)


def reach(bands: Sequence[Band]) -> tuple[float, str]:
    """How far (mm) the bands open in series before the first comes to its usable stretch, and the name of that one."""
    giving = [band for band in bands if band.width > 0.0 and not band.cloth.rigid]
    if not giving:
        return relaxed(bands), ""
    first = min(giving, key=lambda band: band.cloth.usable_tension)
    tension = first.cloth.usable_tension
    return sum(band.width * (1.0 + band.cloth.strain(tension)) for band in bands), first.name
