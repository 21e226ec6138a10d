"""Cutting from leftovers: outlines with holes, searched for places inside."""

from galloon.cutting.remnant.model import Fit, Remnant, RemnantRules
from galloon.cutting.remnant.plan import plan_remnant

__all__ = ["Fit", "Remnant", "RemnantRules", "plan_remnant"]
