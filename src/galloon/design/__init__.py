"""One whole design as values: wearer, materials, style, finishes and lace uses, before anything is drafted."""

from galloon.design.cutting import CuttingWishes
from galloon.design.finish import CATCHING, Finish, Finishes, FinishKind, usual_side
from galloon.design.lace_use import CUT_FROM_LACE, MOST_OUTLINE_POINTS, LaceUse, Lie, Meet, Motif, Use, usual_lie
from galloon.design.model import Allowances, Design, Panels, ProvenBlock
from galloon.design.open_side import MOST_STRAPS, NARROWEST_GAP, OpenSide
from galloon.design.style import LAPPED_SEAMS, SHAPES, Coverage, Drops, GussetPlan, Shape, ShapePreset, Split, Style

__all__ = [
    "CATCHING",
    "CUT_FROM_LACE",
    "LAPPED_SEAMS",
    "MOST_OUTLINE_POINTS",
    "MOST_STRAPS",
    "NARROWEST_GAP",
    "SHAPES",
    "Allowances",
    "Coverage",
    "CuttingWishes",
    "Design",
    "Drops",
    "Finish",
    "FinishKind",
    "Finishes",
    "GussetPlan",
    "LaceUse",
    "Lie",
    "Meet",
    "Motif",
    "OpenSide",
    "Panels",
    "ProvenBlock",
    "Shape",
    "ShapePreset",
    "Split",
    "Style",
    "Use",
    "usual_lie",
    "usual_side",
]
