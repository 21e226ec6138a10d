"""Cutting from a cloth with a width: pieces keep their direction, pairs are cut in both hands, folds are respected."""

from galloon.cutting.cloth.model import Cloth, ClothPiece, ClothRules

__all__ = ["Cloth", "ClothPiece", "ClothRules"]
