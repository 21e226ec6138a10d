"""From a block to dressed parts: reductions, how cloth lies, style lines, finishes."""

from galloon.styling.assemble import assemble, centre_is_seam, stretch_direction
from galloon.styling.finish_rules import (
    TURNED,
    edge_allowance,
    hold_trims,
    report_word,
    room_for_trims,
    trim_lap,
    widest_trim,
)
from galloon.styling.finish_table import FINISH_TABLE, FinishRow, Pass, Ratio, asked_ratio, finish_row
from galloon.styling.follow_plan import planned_draft, planned_parts
from galloon.styling.lapped import lap_seams
from galloon.styling.lay import Share, layers_of, lengthwise_stretch, round_panel, usual_angle
from galloon.styling.model import Laid, Part, StrapEnd, Strip
from galloon.styling.open_side import open_edges, open_sides, place_straps
from galloon.styling.plan import SeamPlan, seam_plan
from galloon.styling.reduce import reduction_of, reductions, settle, strain_of

__all__ = [
    "FINISH_TABLE",
    "TURNED",
    "FinishRow",
    "Laid",
    "Part",
    "Pass",
    "Ratio",
    "SeamPlan",
    "Share",
    "StrapEnd",
    "Strip",
    "asked_ratio",
    "assemble",
    "centre_is_seam",
    "edge_allowance",
    "finish_row",
    "hold_trims",
    "lap_seams",
    "layers_of",
    "lengthwise_stretch",
    "open_edges",
    "open_sides",
    "place_straps",
    "planned_draft",
    "planned_parts",
    "reduction_of",
    "reductions",
    "report_word",
    "room_for_trims",
    "round_panel",
    "seam_plan",
    "settle",
    "strain_of",
    "stretch_direction",
    "trim_lap",
    "usual_angle",
    "widest_trim",
]
