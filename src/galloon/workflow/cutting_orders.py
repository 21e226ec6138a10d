"""What the cutting planner is told of a garment: each lace and cloth, and the pieces as they lie on it."""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from galloon import cutting
from galloon.cutting import ClothPiece, Lace, LacePiece
from galloon.cutting.strip.model import Anchor
from galloon.design import CuttingWishes
from galloon.errors import CannotMake
from galloon.geometry import Points
from galloon.lace import Pairing, pairing
from galloon.materials import Cloth, Edges, SecondEdge
from galloon.pieces import Piece, ring_of
from galloon.said import said

_SECOND = {SecondEdge.MIRROR: "mirror", SecondEdge.HALF_STEP: "half step", SecondEdge.OTHER: "other"}


@dataclass(frozen=True)
class StripOrder:
    """Pieces to be cut from a lace by its edges."""

    lace: Lace
    pieces: tuple[LacePiece, ...]


@dataclass(frozen=True)
class ClothOrder:
    """Pieces to be cut from a cloth with a width."""

    cloth: cutting.Cloth
    pieces: tuple[ClothPiece, ...]


def order_of(cloth: Cloth, pieces: Sequence[Piece], wishes: CuttingWishes) -> StripOrder | ClothOrder:
    """What is to be cut from ``cloth``. Raises CannotMake where the lace or a piece cannot be told."""
    if any(piece.strip for piece in pieces) and cloth.lace is not None and cloth.lace.first is not None:
        return _strip_order(cloth, pieces, wishes)
    folded = cloth.name in wishes.fold
    told = tuple(_cloth_piece(cloth, piece, folded) for piece in pieces)
    return ClothOrder(cutting.Cloth(cloth.width, cloth.nap or cloth.motif_up, folded), told)


def _strip_order(cloth: Cloth, pieces: Sequence[Piece], wishes: CuttingWishes) -> StripOrder:
    lace = lace_of(cloth)
    # Where one piece alone sits on the edges, no other reads its motif on: it may move by whole scallops.
    alone = sum(piece.strip is not None for piece in pieces) == 1
    told = [lace_piece(cloth, piece, "scallop" if alone else "motif") for piece in pieces]
    if wishes.unmatched:
        told = [replace(piece, matched=False) for piece in told]
    if wishes.centre_motif:
        told = [cutting.centred(lace, piece) if piece.on_edge else piece for piece in told]
    return StripOrder(lace, tuple(told))


def lace_of(cloth: Cloth) -> Lace:
    """What the planner is told of a lace. Its pitch is made to go into the motif a whole number of times."""
    facts = cloth.lace
    if facts is None or facts.first is None:
        raise CannotMake(cloth.name, said("has no scalloped edge to plan a strip on"))
    motif = facts.motif or facts.first.pitch
    return Lace(
        cloth.width,
        motif,
        motif / max(1, round(motif / facts.first.pitch)),
        facts.mirror_across,
        _SECOND[facts.second_edge] if facts.edges is Edges.DOUBLE else "none",  # type: ignore[arg-type]
        facts.turns,
        cloth.reversible,
        cloth.motif_up,
    )


def lace_piece(cloth: Cloth, piece: Piece, anchor: Anchor = "motif") -> LacePiece:
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
        anchor=anchor,
        matched=strip.scallops is not None and pairing(cloth) is not Pairing.NONE,
    )


def _points(ring: Points) -> tuple[tuple[float, float], ...]:
    return tuple(zip(np.real(ring).tolist(), np.imag(ring).tolist(), strict=True))


def _cloth_piece(cloth: Cloth, piece: Piece, folded: bool) -> ClothPiece:
    """The cut outline turned so that its greatest stretch runs with the cloth's; x along the length, y across.

    On folded cloth a piece whose fold runs along the cloth's length stays a half, its fold edge on y = 0.
    """
    wanted = 0.0 if cloth.stretches_most == "length" else 90.0
    turn = cmath.exp(1j * math.radians(wanted - piece.part.greatest_stretch))
    if folded and piece.part.fold is not None and abs(turn.real) < 1e-9:
        half = piece.cut * turn * turn.imag
        half = half.real + 1j * np.where(np.abs(half.imag) < 1e-6, 0.0, half.imag)
        return ClothPiece(piece.name, _points(half), piece.part.quantity, on_fold=True)
    return ClothPiece(piece.name, _points(ring_of(piece) * turn), piece.part.quantity, piece.part.mirrored)
