"""Body measurements of one wearer: names, levels, plausibility and estimates."""

from galloon.body.estimate import estimate_crotch_length, estimate_waist_to_hip
from galloon.body.leg_line import leg_line_on_body, thigh_of
from galloon.body.model import Estimate, Wearer
from galloon.body.plausible import plausibility

__all__ = [
    "Estimate",
    "Wearer",
    "estimate_crotch_length",
    "estimate_waist_to_hip",
    "leg_line_on_body",
    "plausibility",
    "thigh_of",
]
