"""Cutting from a strip of lace: pieces on its scalloped edges, where the motif comes out right."""

from galloon.cutting.strip.model import Lace, LacePiece, StripRules

__all__ = ["Lace", "LacePiece", "StripRules"]
