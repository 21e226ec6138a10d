"""Hands the pieces of a garment to the cutting planner: lace strips by their edges, cloths by their width."""

from __future__ import annotations

import cmath
import math
from collections.abc import Callable, Sequence
from typing import TypeVar

import numpy as np

from galloon import cutting
from galloon.cutting import Lace, LacePiece, Plan
from galloon.errors import CannotMake
from galloon.findings import Finding, Status
from galloon.geometry import Points
from galloon.lace import Pairing, pairing
from galloon.materials import Cloth, Edges, SecondEdge
from galloon.pieces import Garment, Piece, ring_of
from galloon.report import CuttingRow

_SECOND = {SecondEdge.MIRROR: "mirror", SecondEdge.HALF_STEP: "half step", SecondEdge.OTHER: "other"}


def plan_cutting(garment: Garment) -> tuple[tuple[CuttingRow, ...], tuple[Finding, ...]]:
    """A plan for every cloth that a piece is cut from, in the order of the design; a finding where none can be made."""
    plans, findings = _each_cloth(garment, _plan)
    return tuple(CuttingRow(name, plan) for name, plan in plans.items()), findings


def bound_cutting(garment: Garment) -> tuple[dict[str, float], tuple[Finding, ...]]:
    """By cloth, a length (mm) that no plan is shorter than, found without searching; findings as ``plan_cutting``."""
    return _each_cloth(garment, _bound)


Answer = TypeVar("Answer")


def _each_cloth(
    garment: Garment, ask: Callable[[Cloth, Sequence[Piece]], Answer]
) -> tuple[dict[str, Answer], tuple[Finding, ...]]:
    answers: dict[str, Answer] = {}
    findings = []
    for name, cloth in garment.design.cloths.items():
        pieces = [piece for piece in garment.pieces if piece.part.cloth == name]
        if not pieces:
            continue
        try:
            answers[name] = ask(cloth, pieces)
        except CannotMake as refused:
            says = f"{name} cannot be laid out: {refused}"
            findings.append(Finding("cutting plan", Status.FAIL, says, about=f"cloth {name}"))
    return answers, tuple(findings)


def _plan(cloth: Cloth, pieces: Sequence[Piece]) -> Plan:
    if on_strip(cloth, pieces):
        return cutting.plan_strip(lace_of(cloth), [lace_piece(cloth, piece) for piece in pieces])
    return plan_width(cloth, pieces)


def _bound(cloth: Cloth, pieces: Sequence[Piece]) -> float:
    if on_strip(cloth, pieces):
        return cutting.bound_strip(lace_of(cloth), [lace_piece(cloth, piece) for piece in pieces])
    return cutting.bound_cloth(*_on_width(cloth, pieces))


def on_strip(cloth: Cloth, pieces: Sequence[Piece]) -> bool:
    """Whether the pieces are planned on a lace's edges rather than on a width of cloth."""
    return cloth.lace is not None and cloth.lace.first is not None and any(piece.strip for piece in pieces)


def lace_of(cloth: Cloth) -> Lace:
    """What the planner is told of a lace."""
    facts = cloth.lace
    if facts is None or facts.first is None:
        raise CannotMake(cloth.name, "has no scalloped edge to plan a strip on")
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
    return cutting.plan_cloth(*_on_width(cloth, pieces))


def _on_width(cloth: Cloth, pieces: Sequence[Piece]) -> tuple[cutting.Cloth, list[cutting.ClothPiece]]:
    told = [
        cutting.ClothPiece(piece.name, on_cloth(cloth, piece), piece.part.quantity, piece.part.mirrored)
        for piece in pieces
    ]
    return cutting.Cloth(cloth.width, cloth.nap or cloth.motif_up), told


def to_buy(length: float, unit: str) -> float:
    """A length rounded up to what shops sell; 0 stays 0."""
    return cutting.length_to_buy(length, unit) if length > 0.0 else 0.0
