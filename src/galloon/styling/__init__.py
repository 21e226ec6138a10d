"""From a block to dressed parts: reductions, how cloth lies, style lines, finishes."""

from galloon.styling.assemble import assemble, centre_is_seam, stretch_direction
from galloon.styling.finish_rules import TURNED, edge_allowance, report_word, trim_lap
from galloon.styling.finish_table import FINISH_TABLE, FinishRow, Pass, Ratio, asked_ratio, finish_row
from galloon.styling.lay import Share, layers_of, lengthwise_stretch, round_panel, usual_angle
from galloon.styling.model import Laid, Part, Strip
from galloon.styling.reduce import reduction_of, reductions, settle, strain_of

__all__ = [
    "FINISH_TABLE",
    "TURNED",
    "FinishRow",
    "Laid",
    "Part",
    "Pass",
    "Ratio",
    "Share",
    "Strip",
    "asked_ratio",
    "assemble",
    "centre_is_seam",
    "edge_allowance",
    "finish_row",
    "layers_of",
    "lengthwise_stretch",
    "reduction_of",
    "reductions",
    "report_word",
    "round_panel",
    "settle",
    "strain_of",
    "stretch_direction",
    "trim_lap",
    "usual_angle",
]
