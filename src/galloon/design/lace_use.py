"""How a lace is used on the panels, and the motifs of an applique."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal

from galloon.errors import BadValue

#: More corners than this in one motif outline are refused: nobody cuts them, and they only slow the table.
MOST_OUTLINE_POINTS = 5000

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


@dataclass(frozen=True)
class LaceUse:
    """One ``[[lace]]`` of the brief. ``panels`` is front, back or both; lengths in mm; None means "left out".

    ``corners`` and ``outline`` are in the panel's own block coordinates. ``edge_on`` says which edge of the panel the
    scallop sits on (waist or leg); ``between`` names two style lines or edges; ``stitch`` straight or zigzag;
    ``width`` is what each edging of a slit galloon keeps.
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

    def __post_init__(self) -> None:
        if not self.panels:
            raise BadValue("panel", "must be front, back or both", self.panels)
        for name in ("outline", "corners"):
            ring = getattr(self, name)
            if ring and not 3 <= len(ring) <= MOST_OUTLINE_POINTS:
                raise BadValue(name, f"needs 3 to {MOST_OUTLINE_POINTS} points", len(ring))
        if self.width is not None and not 5.0 <= self.width <= 300.0:
            raise BadValue("width", "must lie between 0.5 and 30 cm", f"{self.width:g} mm")
        if self.lap is not None and not 0.0 <= self.lap <= 60.0:
            raise BadValue("lap", "must lie between 0 and 6 cm", f"{self.lap:g} mm")

    def lie_on(self, panel: str) -> Lie:
        """How the strip lies on ``panel``: as said, else along the leg on the back and upright on the front."""
        return self.lie if self.lie is not None else (Lie.ALONG_LEG if panel == "back" else Lie.UPRIGHT)


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
        if not 3 <= len(self.outline) <= MOST_OUTLINE_POINTS:
            raise BadValue("outline", f"needs 3 to {MOST_OUTLINE_POINTS} points", len(self.outline))
