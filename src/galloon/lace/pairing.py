"""Whether a lace gives the mirrored twin of a piece on its scalloped edge, and how it has to be laid for that."""

from __future__ import annotations

import math
from enum import StrEnum

from galloon.materials import Cloth, SecondEdge


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


def miss(first: float, second: float, pitch: float) -> float:
    """How far (mm) scallops miss each other at a seam where two like edges read ``first`` and ``second`` on the
    lace's scale,
    both scales running up to the seam: 0 where a whole scallop runs on.
    """
    return abs(math.remainder(first + second, pitch))
