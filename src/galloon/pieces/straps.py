"""The straps across an open side: where each is caught, how long it is on the body and unstretched, how it gives."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from galloon import defaults
from galloon.design import OpenSide
from galloon.materials import Elastic
from galloon.materials.tension import Stretchiness
from galloon.pieces.garment import Garment
from galloon.styling import StrapEnd, open_edges, round_panel, strain_of

#: Worn strains that are usual for a strap, least and most; common practice, no source.
USUAL_STRAIN: Final = (0.10, 0.20)


@dataclass(frozen=True)
class Strap:
    """One of the straps at each side, ``number`` 1 at the waist.

    ``span`` (mm) is how far its two ends lie apart on the body, ``strain`` how far it is stretched there. ``front`` and
    ``back`` are its ends; ``front_piece`` and ``back_piece`` the pieces that catch them.
    """

    number: int
    span: float
    strain: float
    front_piece: str
    front: StrapEnd
    back_piece: str
    back: StrapEnd

    @property
    def relaxed(self) -> float:
        """Between its ends, unstretched (mm)."""
        return self.span / (1.0 + self.strain)


def straps_of(garment: Garment) -> tuple[Strap, ...]:
    """The straps of one side from the waist down; none where the sides are not open."""
    side = garment.design.open_side
    if side is None:
        return ()
    ends = {
        (body, end.number): (piece.name, end)
        for piece in garment.outer
        for body in ("front", "back")
        if body in piece.part.bodies
        for end in piece.part.strap_ends
    }
    strain = worn_strain(garment, side)
    found = []
    for number in range(1, side.straps + 1):
        if ("front", number) in ends and ("back", number) in ends:
            (one, front), (other, back) = ends["front", number], ends["back", number]
            found.append(Strap(number, _span(garment, front, back), strain, one, front, other, back))
    return tuple(found)


def _span(garment: Garment, front: StrapEnd, back: StrapEnd) -> float:
    """How far two ends lie apart on the body: the gap between them, and the difference of their levels."""
    across = _short_of(garment, "front", front.at) + _short_of(garment, "back", back.at)
    down = (front.at - back.at).imag / (1.0 - garment.reductions.length)
    return abs(complex(across, down))


def _short_of(garment: Garment, panel: str, point: complex) -> float:
    """How far (mm on the body) a point of a panel's edge stops short of the side."""
    short = garment.draft.laid.side_x(panel, -point.imag) - point.real
    return short / (1.0 - float(getattr(garment.reductions, panel)))


def gap_at(garment: Garment, level: float) -> float:
    """The gap of one side (mm on the body) at a level (y) of the pattern; 0 where the sides are not open there."""
    found = 0.0
    for panel in ("front", "back"):
        edges = [piece.edge_points(edge.name) for piece in garment.covering(panel) for edge in open_edges(piece.part)]
        if garment.design.open_side is None or not edges:
            return 0.0
        points = np.concatenate(sorted(edges, key=lambda one: float(one.imag.min())))
        held = min(max(level, float(points.imag.min())), float(points.imag.max()))
        x = float(np.interp(held, points.imag, points.real))
        found += _short_of(garment, panel, complex(x, held))
    return found


def worn_strain(garment: Garment, side: OpenSide) -> float:
    """How far the straps are stretched when worn: as the design says; else, where a pull test tells what they take, as
    hard as the panels pull on them, within what is usual; else ``defaults.STRAP_STRAIN``.
    """
    most = side.elastic.stretch
    if side.strain is not None:
        return side.strain
    if not side.elastic.pull_tests:
        return min(most, float(defaults.STRAP_STRAIN))
    pulled = strap_stretch(garment, side).strain(panel_tension(garment))
    return min(most, max(USUAL_STRAIN[0], min(USUAL_STRAIN[1], pulled)))


def panel_tension(garment: Garment) -> float:
    """Tension per width (N/m) that the panels were drawn to be worn at; 0 where neither stretches."""
    found = []
    for panel in ("front", "back"):
        cloth = round_panel(garment.design, panel, garment.angles[panel])
        if not cloth.rigid:
            found.append(strain_of(float(getattr(garment.reductions, panel))) * cloth.stiffness)
    return max(0.0, min(found, default=0.0))


def strap_pull(elastic: Elastic) -> float | None:
    """What one strap pulls with (N) at unit strain; None where no pull test tells."""
    if not elastic.pull_tests:
        return None
    return elastic.pull_tests[0].stiffness * elastic.width / 1000.0


def strap_stretch(garment: Garment, side: OpenSide) -> Stretchiness:
    """The straps of one side together as a cloth as high as that side: what they pull with, shared out over it.

    Without a pull test they are taken to come to their stretch where a cloth that was pulled by hand does, so that the
    whole side is as hard to stretch as such a cloth.
    """
    one = strap_pull(side.elastic)
    if one is None:
        return Stretchiness(float(defaults.HAND_PULL) / side.elastic.stretch, side.elastic.stretch)
    return Stretchiness(side.straps * one / (side_height(garment) / 1000.0), side.elastic.stretch)


def side_height(garment: Garment) -> float:
    """How high (mm) the open sides are, on the mean of front and back."""
    tall = [
        float(np.ptp(piece.edge_points(edge.name).imag)) for piece in garment.outer for edge in open_edges(piece.part)
    ]
    return max(1.0, sum(tall) / 2.0)
