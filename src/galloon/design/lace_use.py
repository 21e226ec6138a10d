"""How a lace is used on the panels, and the motifs of an applique."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Final, Literal

import numpy as np

from galloon.errors import BadValue
from galloon.geometry import ring_area, ring_crossing
from galloon.said import said
from galloon.units import limits

#: More corners than this in one motif outline are refused: nobody cuts them, and they only slow the table.
MOST_OUTLINE_POINTS = 5000
#: Outlines around less than this (mm²) are slips, not pieces.
LEAST_OUTLINE_AREA = 4.0

Ring = tuple[tuple[float, float], ...]


class Use(StrEnum):
    """The ways to use a lace, as the brief writes them."""

    SCALLOPED_LEG = "scalloped leg"
    PANEL = "panel"
    V_INSET = "V inset"
    OVERLAY = "overlay"
    INSERTION = "insertion"
    EDGE_TRIM = "edge trim"
    APPLIQUE = "applique"
    WAISTBAND = "waistband"
    SPLIT_EDGING = "split edging"


class Lie(StrEnum):
    """How a strip lies on a panel: its scallop along the leg line, or level with the scallop at the gusset seam."""

    ALONG_LEG = "along leg"
    UPRIGHT = "upright"


class Meet(StrEnum):
    """What meets at the centre seam."""

    VALLEY = "valley"
    PEAK = "peak"


#: Uses whose panel is cut from the lace itself.
CUT_FROM_LACE: Final = (Use.SCALLOPED_LEG, Use.PANEL)


def usual_lie(panel: str) -> Lie:
    """How a strip of a scalloped leg lies on ``panel`` where nothing is said; common practice, no source."""
    return Lie.ALONG_LEG if panel == "back" else Lie.UPRIGHT


@dataclass(frozen=True)
class LaceUse:
    """One ``[[lace]]`` of the brief. ``panels`` is front, back or both; lengths in mm; None means "left out".

    ``corners`` and ``outline`` are in the panel's own block coordinates. ``edge_on`` says which edge of the panel the
    scallop sits on (waist or leg); ``between`` names two style lines or edges; ``stitch`` straight or zigzag;
    ``width`` is what each edging of a slit galloon keeps; ``phase``, in place of ``meet``, how far beyond a peak of
    its scallops the lace lies on the centre line.
    """

    use: Use
    cloth: str
    panels: tuple[Literal["front", "back"], ...]
    lie: Lie | None = None
    meet: Meet | None = None
    upper_cloth: str = ""
    lap: float | None = None
    cut_away: bool | None = None
    over_seam: str = ""
    outline: Ring = ()
    corners: Ring = ()
    between: tuple[str, ...] = ()
    edge_on: str = ""
    mirrored: bool | None = None
    stitch: str = ""
    width: float | None = None
    phase: float | None = None

    def __post_init__(self) -> None:
        if not self.panels:
            raise BadValue("panel", said("must be front, back or both"), self.panels)
        for name in ("outline", "corners"):
            if getattr(self, name):
                require_outline(name, getattr(self, name))
        if self.width is not None and not 5.0 <= self.width <= 300.0:
            raise BadValue("width", limits(0.5, 30, "cm"), f"{self.width:g} mm")
        if self.lap is not None and not 0.0 <= self.lap <= 60.0:
            raise BadValue("lap", limits(0, 6, "cm"), f"{self.lap:g} mm")
        if self.phase is not None and not 0.0 <= self.phase <= 1000.0:
            raise BadValue("phase", limits(0, 100, "cm"), f"{self.phase:g} mm")
        if self.phase is not None and self.meet is not None:
            raise BadValue("phase", said("must not be given beside meet"), self.meet.value)

    def lie_on(self, panel: str) -> Lie:
        """How the strip lies on ``panel``: as said, else along the leg on the back and upright on the front."""
        return self.lie or usual_lie(panel)


@dataclass(frozen=True)
class Motif:
    """A closed outline (mm) for applique.

    ``at`` is where its own origin goes, None to let the program place it; ``turn`` degrees.
    """

    outline: Ring
    panel: Literal["front", "back"]
    cloth: str = ""
    at: tuple[float, float] | None = None
    turn: float = 0.0
    stretches: bool = False
    mirrored: bool = False

    def __post_init__(self) -> None:
        require_outline("outline", self.outline)


def require_outline(name: str, ring: Ring) -> None:
    """Raises BadValue unless the ring has a count of points that can be cut, encloses something and never meets
    itself.
    """
    if not 3 <= len(ring) <= MOST_OUTLINE_POINTS:
        raise BadValue(name, said("needs 3 to {most} points", most=MOST_OUTLINE_POINTS), len(ring))
    points = np.array([complex(x, y) for x, y in ring])
    if not np.isfinite(points).all():
        raise BadValue(name, said("must have finite points"), "a point that is no number")
    crossing = ring_crossing(points)
    if crossing is not None:
        rule = said(
            "must not cross or touch itself, as it does near [{x:.4g}, {y:.4g}] mm", x=crossing.real, y=crossing.imag
        )
        raise BadValue(name, rule, f"{len(ring)} points")
    if abs(ring_area(points)) < LEAST_OUTLINE_AREA:
        raise BadValue(
            name,
            said("must enclose at least {least:g} mm²", least=LEAST_OUTLINE_AREA),
            f"{abs(ring_area(points)):.3g} mm²",
        )
