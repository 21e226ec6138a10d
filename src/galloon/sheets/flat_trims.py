"""Lace laid on edges as it shows on the finished garment: trims within the edge, a band standing above it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from galloon.geometry import Points
from galloon.materials import Cloth, Scallops
from galloon.pieces import Garment, Piece, PieceEdge
from galloon.sheets.words import finish_of
from galloon.tolerance import SAME_POINT

#: Points drawn per scallop.
_PER_SCALLOP: Final = 12


@dataclass(frozen=True, eq=False)
class Trim:
    """A lace along an edge: its edge away from the cloth, its edge on the cloth, and the finished ``edge`` (mm)."""

    cloth: Cloth
    outer: Points
    inner: Points
    edge: Points

    @property
    def ring(self) -> Points:
        """What it covers."""
        return np.concatenate([self.outer, self.inner[::-1]])

    @property
    def instead(self) -> Points:
        """Where it shows instead of the cloth: all between the finished edge and its own inner edge."""
        return np.concatenate([self.edge, self.inner[::-1]])


def trim_on(garment: Garment, piece: Piece, edge: PieceEdge) -> Trim | None:
    """The lace laid on an edge, or standing above it as a band; None where there is none."""
    finish = finish_of(garment.design, piece, edge) if edge.finish == "trim" else None
    if finish is None or finish.trim is None:
        return None
    trim, facts = finish.trim, finish.trim.lace
    line = piece.edge_points(edge.name)
    first = facts.first if facts is not None else None
    if finish.band_lap is None:
        return Trim(trim, _scalloped(line, first, 0.0), _beside(line, trim.width), line)
    deep = first.depth if first is not None else 0.0
    upper = _scalloped(line, facts.second if facts is not None else None, deep - trim.width)
    return Trim(trim, upper, _scalloped(line[::-1], first, -deep)[::-1], line)


def _inward(line: Points) -> Points:
    """Unit directions to the left of a line; along the centre line where it begins or ends there."""
    ahead = np.gradient(line)
    across = 1j * ahead / np.abs(ahead)
    return np.where(np.abs(line.real) < SAME_POINT, 1j * np.sign(across.imag), across)


def _beside(line: Points, by: float) -> Points:
    """A line beside an edge, ``by`` mm inside it (outside where negative)."""
    return line + by * _inward(line)


def _scalloped(line: Points, scallops: Scallops | None, by: float) -> Points:
    """The same with scallops whose peaks lie there."""
    if scallops is None:
        return _beside(line, by)
    steps = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(line)))])
    at = np.linspace(0.0, steps[-1], max(2, round(_PER_SCALLOP * steps[-1] / scallops.pitch)))
    even = np.interp(at, steps, line.real) + 1j * np.interp(at, steps, line.imag)
    valley = scallops.depth * (1.0 - np.abs(np.cos(np.pi * at / scallops.pitch)))
    return even + (by + valley) * _inward(even)
