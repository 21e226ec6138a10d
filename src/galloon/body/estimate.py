"""Estimates of two lengths from girth and height, for a wearer who has not taken them yet."""

from __future__ import annotations

from galloon import defaults
from galloon.body.model import Estimate
from galloon.said import said


def estimate_waist_to_hip(height: float) -> Estimate:
    """Waist to hip along the side (mm) from body height (mm)."""
    share = defaults.WAIST_TO_HIP_SHARE
    return Estimate(share * height, defaults.WAIST_TO_HIP_SPREAD, said("{share:g} of the height", share=share))


def estimate_crotch_length(hip: float) -> Estimate:
    """Total crotch length (mm) from hip girth (mm)."""
    share = defaults.CROTCH_SHARE
    return Estimate(share * hip, defaults.CROTCH_SPREAD_SHARE * hip, said("{share:g} of the hip girth", share=share))
