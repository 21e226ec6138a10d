"""Where one repeat of a lace lies on a piece cut from it."""

from __future__ import annotations

import cmath
import math

from galloon.materials import Cloth, LaceEdges
from galloon.pieces.model import Piece


def repeat_start(lace: LaceEdges) -> float:
    """Where a repeat begins on the lace's own scale, on which 0 is a peak of the edge described first: a valley."""
    return -lace.first.pitch / 2.0 if lace.first is not None else 0.0


def repeat_lies(piece: Piece, cloth: Cloth) -> tuple[complex, complex] | None:
    """The corner of one repeat on the piece (mm) and the unit direction of the lace's length.

    The corner is where a repeat begins on the peak line of the edge described first; the lace is to the left of its
    direction. Of a panel of an allover it is the piece's origin: any will do. None for a motif, which is cut out where
    the lace shows it.
    """
    strip, lace = piece.strip, cloth.lace
    if strip is None and piece.part.laid_on:
        return None
    if strip is None or lace is None:
        degrees = piece.part.greatest_stretch - (0.0 if cloth.stretches_most == "length" else 90.0)
        return 0j, cmath.rect(1.0, math.radians(degrees))
    depth = lace.first.depth if lace.first is not None else 0.0
    return strip.point(repeat_start(lace) - strip.phase, -depth), strip.along
