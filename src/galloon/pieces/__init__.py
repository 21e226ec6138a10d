"""Finished pattern pieces: stitch line, cut line with allowances, notches."""

from galloon.pieces.garment import Garment
from galloon.pieces.lace_lie import repeat_lies, repeat_start
from galloon.pieces.make_piece import make_piece, off_strip, ring_of
from galloon.pieces.model import Notch, Piece, PieceEdge
from galloon.pieces.scallops import scallop_height, scallop_outline
from galloon.pieces.straps import (
    USUAL_STRAIN,
    Strap,
    gap_at,
    side_height,
    strap_pull,
    strap_stretch,
    straps_of,
    worn_strain,
)

__all__ = [
    "USUAL_STRAIN",
    "Garment",
    "Notch",
    "Piece",
    "PieceEdge",
    "Strap",
    "gap_at",
    "make_piece",
    "off_strip",
    "repeat_lies",
    "repeat_start",
    "ring_of",
    "scallop_height",
    "scallop_outline",
    "side_height",
    "strap_pull",
    "strap_stretch",
    "straps_of",
    "worn_strain",
]
