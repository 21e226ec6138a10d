"""A finished pattern piece: stitch line, cut line, edges, notches; flattened, in millimetres."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from galloon.geometry import Points, ring_area
from galloon.styling import Part, Strip


@dataclass(frozen=True)
class PieceEdge:
    """One side of a piece: indices into the stitch line walked anticlockwise (``end`` may be 0, the ring's first
    point).
    """

    name: str
    start: int
    end: int
    length: float
    finish: str
    allowance: float
    sewn_to: str | None


@dataclass(frozen=True)
class Notch:
    """A mark at the cut line on an edge; ``count`` 1 for a single, 2 for a double notch; ``inward`` a unit vector."""

    at: complex
    inward: complex
    edge: str
    count: int = 1


@dataclass(frozen=True, eq=False)
class Piece:
    """A pattern piece; both rings are anticlockwise with the first point not repeated."""

    part: Part
    stitch: Points
    cut: Points
    edges: tuple[PieceEdge, ...]
    notches: tuple[Notch, ...]

    @property
    def name(self) -> str:
        """The piece's name."""
        return self.part.name

    @property
    def strip(self) -> Strip | None:
        """How it lies on a lace strip, if it does."""
        return self.part.strip

    @property
    def area(self) -> float:
        """Area inside the cut line, mm²."""
        return ring_area(self.cut)

    def edge(self, name: str) -> PieceEdge:
        """The edge called ``name``; KeyError if there is none."""
        for edge in self.edges:
            if edge.name == name:
                return edge
        raise KeyError(f"{self.name} has no edge {name!r}")

    def edge_points(self, name: str) -> Points:
        """The stitch line of one edge, both ends included."""
        edge = self.edge(name)
        stop = edge.end if edge.end > edge.start else len(self.stitch)
        points = [*self.stitch[edge.start : stop]]
        points.append(self.stitch[edge.end % len(self.stitch)])
        return np.array(points)
