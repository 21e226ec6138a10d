"""Garment things as drawings: the pattern sheet, its tiles and its files; the finished garment."""

from galloon.sheets.by_hand import HandSheet, hand_sheet, replay_edges
from galloon.sheets.cutting_page import cutting_page, cutting_pdf
from galloon.sheets.guide import guide_drawing, guide_pdf
from galloon.sheets.guide_matter import CutPlan, GuideMatter
from galloon.sheets.line_up import Card, LineUp, line_up_drawing
from galloon.sheets.outline_sheet import OutlinePiece, outline_files
from galloon.sheets.pattern_files import (
    PatternFiles,
    pattern_dxf,
    pattern_files,
    pattern_full_pdf,
    pattern_pdf,
    pattern_svg,
)
from galloon.sheets.pattern_sheet import pattern_sheet
from galloon.sheets.views import garment_views

__all__ = [
    "Card",
    "CutPlan",
    "GuideMatter",
    "HandSheet",
    "LineUp",
    "OutlinePiece",
    "PatternFiles",
    "cutting_page",
    "cutting_pdf",
    "garment_views",
    "guide_drawing",
    "guide_pdf",
    "hand_sheet",
    "line_up_drawing",
    "outline_files",
    "pattern_dxf",
    "pattern_files",
    "pattern_full_pdf",
    "pattern_pdf",
    "pattern_sheet",
    "pattern_svg",
    "replay_edges",
]
