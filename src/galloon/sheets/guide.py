"""The guide for the sewing table: cover, buying, cutting, checks, sewing order, drawing by hand, care and cautions."""

from __future__ import annotations

from galloon.drawing import Drawing, Paper, RecordingCanvas
from galloon.export import to_pdf
from galloon.sheets.guide_by_hand import by_hand
from galloon.sheets.guide_care import care, cautions
from galloon.sheets.guide_cloth import buying, pieces, preparing
from galloon.sheets.guide_cover import cover
from galloon.sheets.guide_cutting import cutting
from galloon.sheets.guide_flow import Block, set_pages
from galloon.sheets.guide_matter import GuideMatter
from galloon.sheets.guide_sewing import findings, steps


def guide_drawing(matter: GuideMatter, paper: Paper) -> Drawing:
    """The guide's pages, upright on ``paper`` (A4 or Letter)."""
    design = matter.garment.design
    canvas = RecordingCanvas(title=design.title)
    blocks: list[Block] = [
        *cover(matter, paper),
        *findings(matter, paper),
        *buying(matter, paper),
        *preparing(matter, paper),
        *pieces(matter, paper),
        *cutting(matter, paper),
        *steps(matter, paper),
        *care(matter, paper),
        *cautions(paper),
        *by_hand(matter, paper),
    ]
    foot = " · ".join(filter(None, (design.title, design.wearer.name)))
    set_pages(canvas, blocks, paper, foot)
    return canvas.drawing()


def guide_pdf(matter: GuideMatter, paper: Paper) -> bytes:
    """The guide as PDF; the same matter gives the same bytes."""
    return to_pdf(guide_drawing(matter, paper))
