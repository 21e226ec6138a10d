"""What a draft is given and what it gives: reductions, frame, and panels as rings of named edges."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from galloon.drafting.side import Side
from galloon.errors import BadValue
from galloon.geometry import Curve


@dataclass(frozen=True)
class Reductions:
    """How much smaller the relaxed cloth is than the body, as fractions: round the front, round the back,
    lengthwise.
    """

    front: float
    back: float
    length: float

    def __post_init__(self) -> None:
        for name in ("front", "back", "length"):
            if not -0.2 <= getattr(self, name) <= 0.6:
                raise BadValue(f"reduction.{name}", "must lie between -20 and 60 %", f"{getattr(self, name):.0%}")

    @property
    def girth(self) -> float:
        """The mean of front and back: what the whole girth is reduced by."""
        return (self.front + self.back) / 2.0


@dataclass(frozen=True)
class Frame:
    """The fixed points of a block, mm: depths of the centre lines down to the gusset, half widths, the shared side
    seam.

    ``leg`` is the level of the leg point at the side, mm below the waist, before any style raises it.
    """

    front_depth: float
    back_depth: float
    gusset: float
    front_hip: float
    back_hip: float
    gusset_front: float
    gusset_narrow: float
    gusset_back: float
    side: Side
    leg: float

    def depth(self, panel: str) -> float:
        """Centre line length (mm) of ``panel`` from waist level to gusset seam."""
        return self.front_depth if panel == "front" else self.back_depth

    def hip(self, panel: str) -> float:
        """Half width (mm) of ``panel`` at the hip."""
        return self.front_hip if panel == "front" else self.back_hip

    def gusset_half(self, panel: str) -> float:
        """Half width (mm) of the gusset seam on ``panel``."""
        return self.gusset_front if panel == "front" else self.gusset_back

    def corner(self, panel: str) -> complex:
        """The gusset corner of ``panel``."""
        return complex(self.gusset_half(panel), -self.depth(panel))

    def side_x(self, panel: str, down: float) -> float:
        """Half width (mm) of ``panel`` at the side, ``down`` mm below the waist."""
        return self.hip(panel) - self.side.inset_at(down)

    def side_point(self, panel: str, down: float) -> complex:
        """The point of ``panel``'s side seam ``down`` mm below the waist."""
        return complex(self.side_x(panel, down), -down)


@dataclass(frozen=True)
class Edge:
    """One named side of a panel, walked anticlockwise round it.

    ``finish`` is seam, elastic, scallop, fold, lapped, trim, hem, binding; ``sewn_to`` "piece/edge" or None.
    """

    name: str
    curve: Curve
    finish: str = "seam"
    allowance: float = 0.0
    sewn_to: str | None = None

    @property
    def start(self) -> complex:
        """First point."""
        return self.curve[0].start

    @property
    def end(self) -> complex:
        """Last point."""
        return self.curve[-1].end


@dataclass(frozen=True)
class Panel:
    """A closed, anticlockwise ring of edges, each ending where the next begins."""

    name: str
    edges: tuple[Edge, ...]

    def edge(self, name: str) -> Edge:
        """The edge called ``name``; KeyError if there is none."""
        for edge in self.edges:
            if edge.name == name:
                return edge
        raise KeyError(f"{self.name} has no edge {name!r}")

    def with_edge(self, name: str, **changes: object) -> Panel:
        """A copy in which the edge ``name`` has the named changes."""
        self.edge(name)
        return replace(
            self,
            edges=tuple(replace(edge, **changes) if edge.name == name else edge for edge in self.edges),  # type: ignore[arg-type]
        )


@dataclass(frozen=True)
class Draft:
    """Front, back and gusset panels (halves, x from the centre line to the side) on their frame.

    ``drops`` and ``leg`` are in force, after every limit; ``tau`` is the tilt (radians) shared by both leg lines.
    ``shaped_side`` is the line of the panels' sides where they give back what shaped centre seams take in.
    """

    frame: Frame
    panels: Mapping[str, Panel]
    front_drop: float
    side_drop: float
    back_drop: float
    leg: float
    tau: float
    shaped_side: Side | None = None

    @property
    def laid(self) -> Frame:
        """The frame with the line that the panels' sides follow."""
        return self.frame if self.shaped_side is None else replace(self.frame, side=self.shaped_side)
