"""How long a leg line is on the body, by the height of its side point."""

from __future__ import annotations

from typing import Final

from galloon.body.model import Wearer

# Linear regressions fitted on a CC0 body surface bent to the girths of real women (docs/sources.md, "body surface"):
# side point above hip level (mm) -> constant (mm), waist, hip, thigh. Height's coefficient is about nil and left out.
_LEVELS: Final = (
    (-25.0, (-3.8, 0.031, 0.335, 0.425)),
    (0.0, (2.6, 0.042, 0.369, 0.353)),
    (50.0, (65.2, 0.085, 0.345, 0.288)),
    (100.0, (179.5, 0.145, 0.255, 0.286)),
)
#: Thigh from hip where it was not measured: 33 mm + 0.63 hip (260 women of the open data set, sd 20 mm).
_THIGH: Final = (33.0, 0.63)


def thigh_of(wearer: Wearer) -> float:
    """Thigh girth (mm), from the hip where it was not measured."""
    return wearer.thigh if wearer.thigh is not None else _THIGH[0] + _THIGH[1] * wearer.hip


def leg_line_on_body(wearer: Wearer, above_hip: float) -> float:
    """Length (mm) round one leg, its side point ``above_hip`` mm above hip level: groin crease, gusset, gluteal fold.

    Beyond the fitted levels (-25 to 100 mm) the nearest slope is carried on. Residual sd 12 to 21 mm.
    """
    thigh = thigh_of(wearer)
    lengths = [(level, c + w * wearer.waist + h * wearer.hip + t * thigh) for level, (c, w, h, t) in _LEVELS]
    index = next((i for i in range(1, len(lengths) - 1) if above_hip <= lengths[i][0]), len(lengths) - 1)
    (low, at_low), (high, at_high) = lengths[index - 1], lengths[index]
    return at_low + (at_high - at_low) * (above_hip - low) / (high - low)
