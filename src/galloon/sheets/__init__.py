"""Garment things as drawings: the pattern sheet, its tiles and its files; the finished garment."""

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
    "PatternFiles",
    "garment_views",
    "pattern_dxf",
    "pattern_files",
    "pattern_full_pdf",
    "pattern_pdf",
    "pattern_sheet",
    "pattern_svg",
]
