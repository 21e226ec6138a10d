"""Stretch and stiffness of a cloth in any direction, from what was measured along and across."""

from __future__ import annotations

import math

from galloon import defaults
from galloon.materials.model import Cloth


def off_axis_stretch(cloth: Cloth, angle: float) -> float:
    """Stretch (fraction) at ``angle`` degrees from the cloth's length, at the pull the stretches were taken with.

    Orthotropic compliance: s(θ) = s₁c⁴ + s₂s⁴ + k·s²c², with k from the bias test; without one the bias stretch is
    taken as the mean of both, which makes s(θ) = s₁c² + s₂s² (an estimate: no shear test was made).
    """
    c2 = math.cos(math.radians(angle)) ** 2
    s2 = 1.0 - c2
    along, across = cloth.stretch_length, cloth.stretch_width
    bias = cloth.stretch_bias if cloth.stretch_bias is not None else (along + across) / 2.0
    shear = 4.0 * bias - along - across
    return max(0.0, along * c2 * c2 + across * s2 * s2 + shear * s2 * c2)


def pull_stiffness(cloth: Cloth, angle: float) -> float:
    """Tension per width at unit strain (N/m) at ``angle`` degrees from the length; infinite where it does not stretch.

    From the nearest pull test, carried to the angle in proportion to the measured stretch; without one the percentages
    are taken as pulled by hand with ``defaults.HAND_PULL``.
    """
    stretch = off_axis_stretch(cloth, angle)
    if stretch <= 0.0:
        return math.inf
    return usable_pull(cloth, angle) / stretch


def usable_pull(cloth: Cloth, angle: float) -> float:
    """Tension per width (N/m) at which the cloth comes to its measured stretch at ``angle`` degrees from its length."""
    if not cloth.pull_tests:
        return float(defaults.HAND_PULL)
    turn = {"length": 0.0, "bias": 45.0, "width": 90.0}
    folded = abs((angle + 90.0) % 180.0 - 90.0)
    test = min(cloth.pull_tests, key=lambda one: abs(turn[one.along] - folded))
    return test.stiffness * off_axis_stretch(cloth, turn[test.along]) or float(defaults.HAND_PULL)
