"""Finished pattern pieces: stitch line, cut line with allowances, notches."""

from galloon.pieces.garment import Garment
from galloon.pieces.make_piece import make_piece, off_strip, ring_of
from galloon.pieces.model import Notch, Piece, PieceEdge
from galloon.pieces.scallops import scallop_height, scallop_outline

__all__ = [
    "Garment",
    "Notch",
    "Piece",
    "PieceEdge",
    "make_piece",
    "off_strip",
    "ring_of",
    "scallop_height",
    "scallop_outline",
]
