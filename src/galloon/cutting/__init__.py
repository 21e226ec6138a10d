"""Cutting plans: where each piece is cut, on what length, with a proven lower bound beside it."""

from galloon.cutting.cloth.model import Cloth, ClothPiece, ClothRules
from galloon.cutting.cloth.plan import bound_cloth, plan_cloth, plan_cloth_longer, plan_cloth_plain
from galloon.cutting.limits import refuse_too_many
from galloon.cutting.model import Placed, Plan, Progress
from galloon.cutting.outlines import Ring, checked_ring, clashes
from galloon.cutting.remnant import Fit, Remnant, RemnantRules, plan_remnant
from galloon.cutting.shop import length_to_buy, shop_text
from galloon.cutting.strip.model import Lace, LacePiece, StripRules
from galloon.cutting.strip.places import Way, legal_ways
from galloon.cutting.strip.plan import bound_strip, centred, plan_strip, plan_strip_longer, plan_strip_plain

__all__ = [
    "Cloth",
    "ClothPiece",
    "ClothRules",
    "Fit",
    "Lace",
    "LacePiece",
    "Placed",
    "Plan",
    "Progress",
    "Remnant",
    "RemnantRules",
    "Ring",
    "StripRules",
    "Way",
    "bound_cloth",
    "bound_strip",
    "centred",
    "checked_ring",
    "clashes",
    "legal_ways",
    "length_to_buy",
    "plan_cloth",
    "plan_cloth_longer",
    "plan_cloth_plain",
    "plan_remnant",
    "plan_strip",
    "plan_strip_longer",
    "plan_strip_plain",
    "refuse_too_many",
    "shop_text",
]
