"""What every lace use is given and gives back; one module per use stands behind this shape."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from galloon.design import Design, LaceUse, Use
from galloon.drafting import Draft, Frame, Lines, Reductions
from galloon.findings import Finding
from galloon.styling import Part, Share


@dataclass(frozen=True)
class DropNeed:
    """The least level waist drop (mm) one panel of lace asks for; negative where lace is left over.

    ``slope`` is how much less the need is per mm towards the side (0 for a level strip). ``band`` marks what a band
    above the panel takes, which no panel of lace has to reach.
    """

    panel: str
    cloth: str
    drop: float
    slope: float = 0.0
    band: bool = False


@dataclass(frozen=True)
class Scene:
    """Everything a lace use may look at: the design, its frame and draft, reductions, and how each cloth lies
    (degrees).
    """

    design: Design
    frame: Frame
    draft: Draft
    lines: Lines
    reductions: Reductions
    angles: Mapping[str, float]


@dataclass(frozen=True)
class Placement:
    """One lace on one piece. ``valley`` and ``far`` are the two limits of solid lace as segments; mismatches None
    where none meet.

    ``area_change`` (mm²) and ``deviation`` (mm) compare a straight lace leg with the block's curved one.
    """

    use: Use
    cloth: str
    piece: str
    lie: str
    tilt: float
    valley: tuple[complex, complex]
    far: tuple[complex, complex]
    phase: float = 0.0
    pairing: str = ""
    centre_mismatch: float | None = None
    side_mismatch: float | None = None
    side_kink: float = 0.0
    gusset_kink: float = 0.0
    area_change: float = 0.0
    deviation: float = 0.0
    figures: Mapping[str, float] | None = None


@dataclass(frozen=True)
class Laced:
    """What a lace use gives back: the parts as it leaves them, where the lace lies, what it found."""

    parts: tuple[Part, ...]
    placements: tuple[Placement, ...] = ()
    findings: tuple[Finding, ...] = ()


def _no_panels(use: LaceUse) -> frozenset[str]:
    return frozenset()


def _no_angles(use: LaceUse, design: Design) -> Mapping[str, float]:
    return {}


def _no_needs(use: LaceUse, design: Design, frame: Frame, leg: float) -> tuple[DropNeed, ...]:
    return ()


def _no_shares(use: LaceUse, design: Design, frame: Frame, leg: float) -> Mapping[str, tuple[Share, ...]]:
    return {}


def _as_it_is(use: LaceUse, design: Design) -> Design:
    return design


@dataclass(frozen=True)
class Technique:
    """One way to use a lace. What it leaves out it does not do.

    ``apply``: the parts with the lace on them. ``dress``: the design with the use's own finish on the edges it makes,
    before anything is drafted. ``straight_legs``: panels whose leg line gives way to the straight valley line of a
    strip. ``angles``: angle (degrees) of the lace's length on each panel it is the cloth of, where the use fixes it.
    ``shares``: cloths that a panel is made of side by side, by the width each takes at the hip. ``drop_needs``: the
    least level drop each panel asks for.
    """

    apply: Callable[[LaceUse, Scene, tuple[Part, ...]], Laced]
    dress: Callable[[LaceUse, Design], Design] = _as_it_is
    straight_legs: Callable[[LaceUse], frozenset[str]] = _no_panels
    angles: Callable[[LaceUse, Design], Mapping[str, float]] = _no_angles
    shares: Callable[[LaceUse, Design, Frame, float], Mapping[str, tuple[Share, ...]]] = _no_shares
    drop_needs: Callable[[LaceUse, Design, Frame, float], tuple[DropNeed, ...]] = _no_needs
