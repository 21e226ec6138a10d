"""What shops sell: a needed length rounded up to what can be asked for at the counter."""

from __future__ import annotations

import math
from fractions import Fraction
from typing import Final

from galloon.errors import BadValue
from galloon.said import Measure
from galloon.units import MM_PER

#: Least step sold: 10 cm where cloth is sold by the metre, 1/8 yd by the yard (common practice, no source).
SOLD_STEP: Final[dict[str, float]] = {"mm": 100.0, "cm": 100.0, "in": MM_PER["yd"] / 8}


def length_to_buy(need: float, unit: str) -> float:
    """``need`` (mm) rounded up to whole steps of 10 cm, or of 1/8 yd when the maker works in inches; mm."""
    if not (math.isfinite(need) and need >= 0):
        raise BadValue("length needed", "must be 0 mm or more", need)
    step = SOLD_STEP[unit]
    return math.ceil(need / step - 1e-9) * step


def shop_text(length: float, unit: str) -> Measure:
    """A length to buy as it is asked for: ``"60 cm"``, ``"1.2 m"``, ``"5/8 yd"``, ``"1 1/4 yd"``."""
    if unit != "in":
        return Measure(f"{length / 10:g} cm" if length < 1000 else f"{length / 1000:g} m")
    whole, rest = divmod(Fraction(round(length / SOLD_STEP["in"]), 8), 1)
    parts = [str(whole) if whole or not rest else "", str(rest) if rest else ""]
    return Measure(" ".join(filter(None, parts)) + " yd")
