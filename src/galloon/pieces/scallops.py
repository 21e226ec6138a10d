"""The outline of a scalloped lace edge."""

from __future__ import annotations

import math

import numpy as np

from galloon.geometry import Points
from galloon.materials import Scallops
from galloon.styling import Strip

#: Points drawn per scallop; the true edge is the lace's own, this is its drawing.
_PER_SCALLOP = 16


def scallop_height(scallops: Scallops, reading: float) -> float:
    """How far (mm) the edge stands out from the valley line where the lace's scale reads ``reading`` mm: peaks at
    0, pitch, …

    A lobe drawn as |cos|: pointed valleys, round peaks; what a lace really looks like is measured elsewhere.
    """
    return scallops.depth * abs(math.cos(math.pi * reading / scallops.pitch))


def scallop_outline(strip: Strip, start: complex, end: complex, *, far: bool = False) -> Points:
    """From ``start`` to ``end``, two points on the valley line (on the far line where ``far``), out and over the
    scallops.
    """
    scallops = strip.far_scallops if far else strip.scallops
    if scallops is None:
        return np.array([start, end])
    first, last = strip.place(start), strip.place(end)
    outward = strip.across if far else -strip.across
    step = scallops.pitch / _PER_SCALLOP
    low, high = sorted((first.real + strip.phase, last.real + strip.phase))
    inner = np.arange(math.ceil(low / step + 1e-6), math.floor(high / step - 1e-6) + 1) * step
    readings = np.concatenate([[low], inner, [high]])
    heights = scallops.depth * np.abs(np.cos(math.pi * readings / scallops.pitch))
    base = strip.point(0.0, first.imag)
    outline = base + (readings - strip.phase) * strip.along + heights * outward
    if first.real > last.real:
        outline = outline[::-1]
    keep_start = abs(outline[0] - start) > 1e-9
    keep_end = abs(outline[-1] - end) > 1e-9
    return np.concatenate([[start] if keep_start else [], outline, [end] if keep_end else []])
