"""The pitch of each edge where the ruler is true, both edges weighed together wherever one repeat binds them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import numpy as np

from galloon.reading.edges import Side
from galloon.reading.evidence import Evidence
from galloon.reading.straighten import apply

#: Pitches of one lace divide one repeat into at most so many scallops each.
_MOST: Final = 8
#: How near to a ratio of such whole numbers two pitches lie when one repeat binds them (share).
NEAR_RATIO: Final = 0.012
#: Growth of scale per mm of a slanted scan (one sigma), and the chance that a scan is slanted before it is looked at.
_GROWTH, _SLANTED = 4e-5, 0.45
#: Growth that no scan is known to be free of across, and along; the slopes of edges are so much less sure than fitted.
_STEADY, _ALONG, _EDGES = 2e-6, 4e-6, 5.0


@dataclass(frozen=True)
class Pitch:
    """A pitch and its error (mm, one sigma)."""

    value: float
    error: float


def pitches(evidence: Evidence) -> tuple[Pitch, ...]:
    """The pitch of every scalloped edge, upper first; only one where both edges have the same."""
    lace = evidence.lace
    assert lace is not None
    sides = [side for side in (lace.top, lace.low) if side.wave is not None]
    if len(sides) < 2:
        return tuple(_alone(evidence, side) for side in sides)
    assert lace.top.wave is not None
    assert lace.low.wave is not None
    ratio = lace.top.wave.pitch / lace.low.wave.pitch
    up, down, off = simple_ratio(ratio)
    if off > NEAR_RATIO:
        return tuple(_alone(evidence, side) for side in sides)
    unit = _together(evidence, up, down)
    if up == down:
        return (unit,)
    return Pitch(unit.value * up, unit.error * up), Pitch(unit.value * down, unit.error * down)


def simple_ratio(ratio: float) -> tuple[int, int, float]:
    """The ratio of whole numbers up to eight nearest to ``ratio``, in lowest terms, and how far off it is (share)."""
    pairs = [(a, b) for a in range(1, _MOST + 1) for b in range(1, _MOST + 1) if math.gcd(a, b) == 1]
    up, down = min(pairs, key=lambda pair: abs(ratio * pair[1] / pair[0] - 1))
    return up, down, abs(ratio * down / up - 1)


def _together(evidence: Evidence, up: int, down: int) -> Pitch:
    """What ``up`` parts of the upper pitch and ``down`` parts of the lower one agree on, where the ruler is true.

    A slant of the picture across the lace makes one pitch longer and the other shorter; between the edges the scale
    runs evenly from one to the other. Beyond them, as beside a card, it is not drawn out further.
    """
    lace = evidence.lace
    assert lace is not None
    assert lace.top.wave is not None
    assert lace.low.wave is not None
    x = (lace.top.middle + lace.low.middle) / 2
    top, low = -lace.top.base(x), lace.low.base(x)
    part = float(np.clip((anchor_height(evidence) - top) / max(low - top, 1.0), 0.0, 1.0))
    values = np.array([lace.top.wave.pitch / up, lace.low.wave.pitch / down])
    errors = np.array([lace.top.wave.pitch_error / up, lace.low.wave.pitch_error / down])
    if evidence.ruler.corners is not None:
        weight = 1 / np.maximum(errors, 1e-5) ** 2
        return Pitch(float(np.average(values, weights=weight)), float(1 / np.sqrt(weight.sum())))
    share = np.array([1 - part, part])
    return Pitch(float(share @ values), float(np.hypot(*(share * errors))))


def _alone(evidence: Evidence, side: Side) -> Pitch:
    """One edge's pitch, corrected for what the motifs tell of a slant across the lace."""
    lace = evidence.lace
    assert lace is not None
    assert side.wave is not None
    edge = -side.level if side is lace.top else side.level
    away = edge - anchor_height(evidence)
    growth, unsure = (0.0, 0.0) if evidence.ruler.corners is not None else slant(evidence)
    value = side.wave.pitch * (1 - growth * away)
    return Pitch(value, float(np.hypot(side.wave.pitch_error, value * unsure * away)))


def slant(evidence: Evidence) -> tuple[float, float]:
    """Growth of scale per mm down the lace and its error, from motifs alone; what was corrected already is left out.

    Most scans have none and some have a little. Which of both this is, its growth along the lace and that of the
    repeat across it tell together; what the motifs say counts by the chance that the scan is slanted at all.
    """
    lace, repeat = evidence.lace, evidence.repeat
    assert lace is not None
    if lace.bent_across:
        return 0.0, 0.0
    width = max(abs(lace.top.level + lace.low.level), 10.0)
    rough = _EDGES * float(np.hypot(lace.top.slope_error, lace.low.slope_error)) / width
    tilt, spread = (0.0, 1.0) if repeat is None else (repeat.tilt, repeat.tilt_error)
    odds = _SLANTED / (1 - _SLANTED)
    for value, error in ((lace.bent_along, float(np.hypot(rough, _ALONG))), (tilt, spread)):
        odds *= _likely(value, float(np.hypot(error, _GROWTH))) / _likely(value, error)
    chance = odds / (1 + odds)
    trust = _GROWTH**2 / (_GROWTH**2 + spread**2)
    unsure = chance * trust * spread**2 + chance * (1 - chance) * (trust * tilt) ** 2
    return chance * trust * tilt, float(np.sqrt(unsure + _STEADY**2))


def _likely(value: float, spread: float) -> float:
    """Density of Student's t with four degrees of freedom, not normed: strays are not rare."""
    return float((1 + (value / spread) ** 2 / 4) ** -2.5 / spread)


def anchor_height(evidence: Evidence) -> float:
    """Height of the anchor below the middle row of the frame (mm)."""
    lace = evidence.lace
    assert lace is not None
    at = apply(lace.frame.to_frame, evidence.ruler.anchor[None])[0]
    return float((at[1] - lace.frame.size[1] / 2) * lace.frame.mm_per_px)
