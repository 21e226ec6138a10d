"""The flat block: front, back and gusset for a body and a cloth, as rings of named edges."""

from galloon.drafting.draft import Lines, draft_block, leg_line
from galloon.drafting.frame import lay_frame
from galloon.drafting.limits import deepest_drop, held_leg
from galloon.drafting.lines import chord_turn, inward, waist_line
from galloon.drafting.model import Draft, Edge, Frame, Panel, Reductions
from galloon.drafting.narrow_back import NARROW_BACKS, NarrowBack, narrowed, narrowest_half
from galloon.drafting.side import Side, draft_side

__all__ = [
    "NARROW_BACKS",
    "Draft",
    "Edge",
    "Frame",
    "Lines",
    "NarrowBack",
    "Panel",
    "Reductions",
    "Side",
    "chord_turn",
    "deepest_drop",
    "draft_block",
    "draft_side",
    "held_leg",
    "inward",
    "lay_frame",
    "leg_line",
    "narrowed",
    "narrowest_half",
    "waist_line",
]
