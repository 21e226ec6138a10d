"""The half widths of the 95 % intervals: what the fits say, plus what the picture itself cannot tell."""

from __future__ import annotations

from typing import Final

import numpy as np

from galloon.reading.edges import Side
from galloon.reading.evidence import Evidence
from galloon.reading.pitch import Pitch
from galloon.reading.straighten import apply

#: Share of a pixel by which one edge may lie off as a whole, and the same in mm for thread with no sharp edge.
EDGE_PX: Final = 0.22
EDGE_MM: Final = 0.03
#: Relative error of scale across a picture whose perspective is not known (one sigma).
BENT: Final = 0.0003
#: Error of the openness from thread level and mesh (one sigma).
OPEN: Final = 0.018
OPEN_NOISE: Final = 0.22
#: Beyond its own length away (mm), a card's error of scale grows by as much again.
CARD: Final = 60.0
#: From one sigma to the half width of a 95 % interval.
TWO: Final = 1.96


def _mm(evidence: Evidence) -> float:
    return evidence.ruler.mm_per_px()


def _scale_error(evidence: Evidence) -> float:
    """Relative error of the ruler where the lace lies: a card's perspective is drawn out as far as that."""
    lace, ruler = evidence.lace, evidence.ruler
    if lace is None or ruler.corners is None:
        return ruler.error
    at = apply(lace.frame.to_frame, ruler.anchor[None])[0]
    away = float(np.hypot(*(at - np.array(lace.frame.size) / 2))) * lace.frame.mm_per_px
    return ruler.error * (1 + away / CARD)


def _slant(evidence: Evidence) -> float:
    """Relative error of an edge's scale where only one edge gives a pitch, and so nothing shows a slant across.

    Where the picture is seen to be slanted along the lace, it is taken to be slanted as much across.
    """
    lace = evidence.lace
    if lace is None or (lace.top.scalloped and lace.low.scalloped) or evidence.ruler.corners is not None:
        return 0.0
    return abs(lace.bent_along) * (lace.top.level + lace.low.level) / 2


def half_width(evidence: Evidence, value: float) -> float:
    """Of the overall width."""
    lace = evidence.lace
    assert lace is not None
    px = EDGE_PX * _mm(evidence)
    parts = [px, EDGE_MM, BENT * value, _scale_error(evidence) * value]
    for side in (lace.top, lace.low):
        parts += [side.level_error, _peak_error(side)]
    return TWO * float(np.sqrt(sum(p * p for p in parts)))


def _peak_error(side: Side) -> float:
    return side.profile.peak_error if side.profile else side.miss * 0.3


def half_pitch(evidence: Evidence, pitch: Pitch) -> float:
    """Of a pitch, from the error of the edges that give it."""
    value = pitch.value
    parts = [pitch.error, 0.5 * BENT * value, _scale_error(evidence) * value]
    return TWO * float(np.sqrt(sum(p * p for p in parts)))


def half_depth(evidence: Evidence, side: Side) -> float:
    """Of the scallop depth of one edge."""
    assert side.profile is not None
    px = EDGE_PX * _mm(evidence)
    sharp = side.profile.peak_error**2 + side.profile.valley_error**2
    return TWO * float(np.sqrt(sharp + px**2 + EDGE_MM**2 + (0.003 * side.profile.depth) ** 2))


def half_repeat(evidence: Evidence, value: float) -> float:
    """Of a repeat that no scallop helps to measure."""
    repeat = evidence.repeat
    assert repeat is not None
    parts = [repeat.error / 2, 0.02, BENT * value, _slant(evidence) * value, _scale_error(evidence) * value]
    return TWO * float(np.sqrt(sum(p * p for p in parts)))


def half_open(evidence: Evidence) -> float:
    """Of the openness."""
    return TWO * float(np.hypot(OPEN, OPEN_NOISE * evidence.cover.noise))
