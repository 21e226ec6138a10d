"""Hands the pieces of a garment to the cutting planner: lace strips by their edges, cloths by their width."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence

import numpy as np

from galloon import cutting
from galloon.cutting import Lace, LacePiece, Plan
from galloon.design import Design
from galloon.geometry import Points
from galloon.lace import Pairing, pairing
from galloon.materials import Cloth, Edges, SecondEdge
from galloon.pieces import Garment, Piece, ring_of
from galloon.report import CuttingRow

_SECOND = {SecondEdge.MIRROR: "mirror", SecondEdge.HALF_STEP: "half step", SecondEdge.OTHER: "other"}


def plan_cutting(garment: Garment) -> tuple[CuttingRow, ...]:
    """A plan for every cloth that a piece is cut from, in the order of the design."""
    rows = []
    for name in garment.design.cloths:
        pieces = [piece for piece in garment.pieces if piece.part.cloth == name]
        if pieces:
            rows.append(CuttingRow(name, _plan(garment.design, garment.design.cloths[name], pieces)))
    return tuple(rows)


def _plan(design: Design, cloth: Cloth, pieces: Sequence[Piece]) -> Plan:
    if cloth.lace is not None and cloth.lace.first is not None and any(piece.strip for piece in pieces):
        return cutting.plan_strip(lace_of(cloth), [lace_piece(cloth, piece) for piece in pieces])
    return plan_width(cloth, pieces)


def lace_of(cloth: Cloth) -> Lace:
    """What the planner is told of a lace."""
    facts = cloth.lace
    assert facts is not None and facts.first is not None
    return Lace(
        cloth.width,
        facts.motif or facts.first.pitch,
        facts.first.pitch,
        facts.mirror_across,
        _SECOND[facts.second_edge] if facts.edges is Edges.DOUBLE else "none",  # type: ignore[arg-type]
        facts.turns,
        cloth.reversible,
        cloth.motif_up,
    )


def lace_piece(cloth: Cloth, piece: Piece) -> LacePiece:
    """A piece as it lies on the lower edge of its lace; one on a fold is opened out and cut once."""
    ring = ring_of(piece)
    strip = piece.strip
    copies = piece.part.quantity
    if strip is None:
        turned = ring * cmath.exp(-1j * math.radians(piece.part.greatest_stretch))
        return LacePiece(piece.name, _points(turned), copies, piece.part.mirrored, on_edge=False, matched=False)
    deep = strip.scallops.depth if strip.scallops else 0.0
    placed = (ring - strip.origin) / strip.along + 1j * deep
    return LacePiece(
        piece.name,
        _points(placed),
        copies,
        piece.part.mirrored,
        on_edge=strip.scallops is not None,
        phase=strip.phase,
        matched=strip.scallops is not None and pairing(cloth) is not Pairing.NONE,
    )


def _points(ring: Points) -> tuple[tuple[float, float], ...]:
    return tuple(zip(np.real(ring).tolist(), np.imag(ring).tolist(), strict=True))


def on_cloth(cloth: Cloth, piece: Piece) -> tuple[tuple[float, float], ...]:
    """The whole cut outline turned so that its greatest stretch runs with the cloth's; x along the length, y across."""
    wanted = 0.0 if cloth.stretches_most == "length" else 90.0
    turn = cmath.exp(1j * math.radians(wanted - piece.part.greatest_stretch))
    return _points(ring_of(piece) * turn)


def plan_width(cloth: Cloth, pieces: Sequence[Piece]) -> Plan:
    """Pieces on a cloth with a width, their greatest stretch with the cloth's."""
    told = [
        cutting.ClothPiece(piece.name, on_cloth(cloth, piece), piece.part.quantity, piece.part.mirrored)
        for piece in pieces
    ]
    return cutting.plan_cloth(cutting.Cloth(cloth.width, cloth.nap or cloth.motif_up), told)


def to_buy(length: float, unit: str) -> float:
    """A length rounded up to what shops sell; 0 stays 0."""
    return cutting.length_to_buy(length, unit) if length > 0.0 else 0.0
