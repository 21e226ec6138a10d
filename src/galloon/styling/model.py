"""Parts: panels dressed for sewing, each with its cloth, its finishes and the way a lace lies on it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Literal

from galloon.drafting import Edge, Panel
from galloon.geometry import Points
from galloon.materials import Scallops


@dataclass(frozen=True)
class Strip:
    """A lace strip lying on a part. ``origin`` is where its valley line crosses the centre line of the part,
    ``along`` the unit
    direction of its length; solid lace reaches ``solid`` mm to the left of ``along``. The lace's own scale
    reads ``phase``
    mm at ``origin`` (0 is a peak of the edge at the valley line). ``edge`` names the edge of the part its
    scallop makes.
    """

    lace: str
    origin: complex
    along: complex
    solid: float
    edge: str | None = None
    scallops: Scallops | None = None
    far_scallops: Scallops | None = None
    phase: float = 0.0
    far_edge: str | None = None

    @property
    def across(self) -> complex:
        """Unit direction from the valley line to the far line."""
        return self.along * 1j

    def place(self, point: complex) -> complex:
        """A point in the strip's own frame: distance along from ``origin``, and across from the valley line."""
        return (point - self.origin) / self.along

    def point(self, along: float, across: float) -> complex:
        """The point so far along and across."""
        return self.origin + complex(along, across) * self.along


@dataclass(frozen=True, eq=False)
class Laid:
    """Another part laid on this one: its name, its cloth, and ``ring``, what it covers here (first point not repeated).

    ``along`` is the direction (degrees) of that cloth's length on this part. With ``cut_away`` this part's cloth is cut
    away behind it, so that the laid one carries alone there; ``rigid``: what it covers does not stretch at all.
    ``half`` says on which halves of the body it lies: a part drawn as one half has "right" where x is positive and
    "left" on the other; ``straight`` that it is sewn with a straight stitch. ``outline`` is what one sees of it, its
    scallops included; left out where that is ``ring`` itself.
    """

    name: str
    cloth: str
    ring: Points
    along: float
    cut_away: bool = False
    rigid: bool = False
    half: Literal["both", "right", "left"] = "both"
    straight: bool = False
    outline: Points | None = None

    @property
    def seen(self) -> Points:
        """What one sees of it."""
        return self.ring if self.outline is None else self.outline


@dataclass(frozen=True)
class StrapEnd:
    """Where one end of a strap is caught: its ``number`` from the waist, the ``edge`` and the middle of the strap
    ``at`` its stitch line; the strap is ``wide`` mm and lies level, from there towards the centre line.
    """

    number: int
    edge: str
    at: complex
    wide: float


@dataclass(frozen=True)
class Part:
    """A dressed panel.

    ``covers`` is front, back, gusset, side, or wrap for front and back in one; ``greatest_stretch`` degrees; ``fold``
    the edge that is a fold. ``laid`` are the parts that lie on it; ``laid_on`` names the parts that this one lies on,
    and is empty for a panel of its own.
    ``spans`` names what it makes where that is more than ``covers`` says; ``strap_ends`` are caught on its open side.
    """

    panel: Panel
    cloth: str
    covers: Literal["front", "back", "gusset", "side", "wrap"]
    greatest_stretch: float = 0.0
    quantity: int = 1
    mirrored: bool = False
    fold: str | None = None
    strip: Strip | None = None
    lining: bool = False
    laid: tuple[Laid, ...] = ()
    laid_on: tuple[str, ...] = ()
    spans: tuple[str, ...] = ()
    strap_ends: tuple[StrapEnd, ...] = ()

    @property
    def bodies(self) -> tuple[str, ...]:
        """What it makes of the body: front, back, gusset or side; several for a panel with its gusset, or a wrap."""
        return self.spans or (self.covers,)

    def zone_of(self, edge: str) -> str:
        """The zone of the open edge ``edge`` (front_waist, back_leg, back_side, …); "wrap_waist" for both; "" for an
        edge that is none.
        """
        *where, last = edge.split()
        if last not in ("waist", "leg", "side"):
            return ""
        known = where[0] if where and where[0] in ("front", "back", "gusset") else self.covers
        return f"{known}_{last}"

    @property
    def name(self) -> str:
        """The piece's name."""
        return self.panel.name

    def edge(self, name: str) -> Edge:
        """The edge called ``name``; KeyError if there is none."""
        return self.panel.edge(name)

    def with_edge(self, name: str, **changes: object) -> Part:
        """A copy in which the edge ``name`` has the named changes."""
        return replace(self, panel=self.panel.with_edge(name, **changes))
