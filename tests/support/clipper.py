"""Layouts checked with pyclipper, in whole numbers: it shares nothing with shapely, by which plans check themselves."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pyclipper

Ring = Sequence[tuple[float, float]]
#: Whole numbers to a millimetre.
_SCALE = 10_000
#: Overlap (mm²) and lack of clearance (mm) that are rounding.
AREA, REACH = 0.02, 0.02


def _whole(ring: Ring, sign: bool = True) -> list[tuple[int, int]]:
    path = [(round(x * _SCALE), round(y * _SCALE)) for x, y in ring]
    return path if pyclipper.Orientation(path) == sign else path[::-1]


def _clip(kind: int, subject: list[Any], clip: list[Any]) -> float:
    """Area in mm² of what clipping leaves."""
    pc = pyclipper.Pyclipper()
    pc.AddPaths(subject, pyclipper.PT_SUBJECT, True)
    pc.AddPaths(clip, pyclipper.PT_CLIP, True)
    found = pc.Execute(kind, pyclipper.PFT_NONZERO, pyclipper.PFT_NONZERO)
    return abs(float(sum(pyclipper.Area(path) for path in found))) / _SCALE**2


def _grown(ring: Ring, by: float) -> list[Any]:
    if by <= 0:
        return [_whole(ring)]
    offset = pyclipper.PyclipperOffset(2.0, 0.002 * _SCALE)
    offset.AddPath(_whole(ring), pyclipper.JT_ROUND, pyclipper.ET_CLOSEDPOLYGON)
    return list(offset.Execute(by * _SCALE))


def too_near(outlines: Sequence[Ring], clearance: float) -> list[tuple[int, int]]:
    """Pairs that overlap, or lie nearer than ``clearance`` mm."""
    wide = [_grown(ring, clearance - REACH) for ring in outlines]
    boxes = [(min(x for x, _ in r), max(x for x, _ in r), min(y for _, y in r), max(y for _, y in r)) for r in outlines]
    found = []
    for i, (left, right, low, high) in enumerate(boxes):
        for j in range(i + 1, len(outlines)):
            a, b, c, d = boxes[j]
            if a - right > clearance or left - b > clearance or c - high > clearance or low - d > clearance:
                continue
            if _clip(pyclipper.CT_INTERSECTION, wide[i], [_whole(outlines[j])]) > AREA:
                found.append((i, j))
    return found


def outside(outlines: Sequence[Ring], room: Ring, holes: Sequence[Ring] = ()) -> list[int]:
    """Numbers of the outlines that do not lie wholly on the ``room`` and off its ``holes``."""
    ground = [_whole(room), *(_whole(hole, sign=False) for hole in holes)]
    return [k for k, ring in enumerate(outlines) if _clip(pyclipper.CT_DIFFERENCE, [_whole(ring)], ground) > AREA]


def rectangle(length: float, width: float) -> Ring:
    """The cloth of a plan."""
    return ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
