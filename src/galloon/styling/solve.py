"""Finds where a length comes out as asked: a secant that stays in its bounds."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

_STEPS: Final = 40
_CLOSE: Final = 1e-4


def settle_length(miss: Callable[[float], float], least: float, most: float) -> float:
    """The shift (mm) in [least, most] at which ``miss`` (mm) is nil, or the one found with the smallest miss."""
    here, off = 0.0, miss(0.0)
    best, best_off = here, abs(off)
    step = min(1.0, most) if off < 0.0 else max(-1.0, least)
    for _ in range(_STEPS):
        if best_off < _CLOSE or step == 0.0:
            break
        there = min(most, max(least, here + step))
        if there == here:
            break
        off_there = miss(there)
        if abs(off_there) < best_off:
            best, best_off = there, abs(off_there)
        slope = (off_there - off) / (there - here)
        here, off = there, off_there
        step = min(8.0, max(-8.0, -off / slope)) if abs(slope) > 1e-9 else -step / 2.0
    return best
