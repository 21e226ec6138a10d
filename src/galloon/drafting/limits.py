"""How low the leg point and the waist may lie on a frame."""

from __future__ import annotations

from galloon import defaults
from galloon.drafting.model import Frame


def lowest_leg(frame: Frame) -> float:
    """The lowest level (mm below the waist) of a leg point that still clears the front gusset seam."""
    shallow = min(frame.front_depth, frame.back_depth)
    return shallow - max(float(defaults.FRONT_CLEAR), defaults.FRONT_CLEAR_SHARE * shallow)


def held_leg(frame: Frame, leg: float) -> float:
    """A leg level held between the least side seam and the gusset."""
    return max(min(leg, lowest_leg(frame)), float(defaults.LEAST_SIDE))


def deepest_drop(frame: Frame, edge: str, leg: float) -> float:
    """The deepest waist drop (mm) at ``edge`` (front, side or back) for a leg point at ``leg``."""
    if edge == "side":
        return leg - defaults.LEAST_SIDE
    return frame.depth(edge) - defaults.LEAST_CENTRE
