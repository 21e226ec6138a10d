"""Whether a lace gives the mirrored twin of a piece on its scalloped edge, and how it has to be laid for that."""

from __future__ import annotations

import math
from enum import StrEnum

from galloon.design import LaceUse, Meet
from galloon.findings import Finding, Status
from galloon.lace.model import Placement
from galloon.materials import Cloth, Scallops, SecondEdge
from galloon.said import Term, said
from galloon.tolerance import SCALLOPS_MEET
from galloon.units import format_length


class Pairing(StrEnum):
    """How the twin is cut, best first."""

    SAME_EDGE = "same edge, mirrored about the motif"
    OTHER_EDGE = "other edge"
    OTHER_EDGE_HALF_STEP = "other edge, half a repeat on"
    OTHER_SIDE_OUT = "same edge, worn other side out"
    NONE = "no mirrored twin"


def pairing(cloth: Cloth) -> Pairing:
    """The way ``cloth`` gives a mirrored twin; NONE where its motif has no symmetry for one and it is not
    reversible.
    """
    lace = cloth.lace
    if lace is None or lace.motif is None:
        return Pairing.SAME_EDGE
    if lace.mirror_across:
        return Pairing.SAME_EDGE
    if lace.second_edge is SecondEdge.MIRROR:
        return Pairing.OTHER_EDGE
    if lace.second_edge is SecondEdge.HALF_STEP:
        return Pairing.OTHER_EDGE_HALF_STEP
    return Pairing.OTHER_SIDE_OUT if cloth.reversible else Pairing.NONE


def reads_at_centre(use: LaceUse, scallops: Scallops | None) -> float:
    """What the lace's scale (mm, 0 on a peak) reads on the centre line: as said; left unsaid, a valley."""
    if scallops is None:
        return 0.0
    if use.phase is not None:
        return use.phase
    return 0.0 if use.meet is Meet.PEAK else scallops.pitch / 2.0


def centre_miss(phase: float, scallops: Scallops | None) -> float:
    """How far (mm) the scallops of a mirrored pair miss each other at the seam between the two; 0 without scallops."""
    return 0.0 if scallops is None else miss(phase, phase, scallops.pitch)


def misses_at_centre(placement: Placement, unit: str) -> list[Finding]:
    """What there is to say where the scallops of left and right do not meet at the centre seam."""
    missed, piece = placement.centre_mismatch, placement.piece
    if missed is None or missed <= SCALLOPS_MEET:
        return []
    says = said(
        "At the {centre} the scallops of left and right miss each other by {missed}: slide the lace until a peak or a "
        "valley lies on the seam.",
        centre=Term(f"centre {piece}"), missed=format_length(missed, unit),
    )  # fmt: skip
    about = f"{piece}/centre {piece}"
    return [Finding("scallops meet at the centre", Status.WARN, says, missed, SCALLOPS_MEET, "mm", about)]


def miss(first: float, second: float, pitch: float) -> float:
    """How far (mm) scallops miss each other at a seam where two like edges read ``first`` and ``second`` on the
    lace's scale,
    both scales running up to the seam: 0 where a whole scallop runs on.
    """
    return abs(math.remainder(first + second, pitch))
