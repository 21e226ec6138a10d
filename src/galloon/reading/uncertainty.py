"""The half widths of the 95 % intervals: what the fits say, plus what the picture itself cannot tell."""

from __future__ import annotations

from typing import Final

import numpy as np

from galloon.reading.edges import Side
from galloon.reading.evidence import Evidence
from galloon.reading.pitch import Pitch
from galloon.reading.straighten import apply

#: One sigma of a width: a share of a pixel, a share of the width, mm per unit of noise in cover, and a factor on what
#: the fits of both edges tell.
WIDTH_PX, WIDTH_SCALE, WIDTH_NOISE, WIDTH_FIT = 0.05, 0.00003, 0.75, 0.6
#: Tips of scallops are less sure than fitted by this factor, by a share of the depth, and by noise (mm per unit).
TIPS, DEPTH, DEPTH_NOISE = 1.5, 0.0008, 0.35
#: The same of a pitch, and what no scan's scale is free of.
PITCH, PITCH_SCALE = 1.25, 0.000012
#: The same of a repeat that motifs alone tell, with a least error (mm) and a share of the repeat.
MOTIFS, MOTIFS_MM, MOTIFS_SCALE = 3.3, 0.01, 0.0002
#: One sigma of the openness: at best, by how dim the thread is (times grey levels) and by noise in cover.
OPEN, OPEN_DIM, OPEN_NOISE = 0.007, 2.2, 0.5
#: Beyond its own length away (mm), a card's error of scale grows by as much again.
CARD: Final = 90.0
#: Noise beyond this (cover) is warned of, and makes nothing wider.
NOISE: Final = 0.2
#: From one sigma to the half width of a 95 % interval.
TWO: Final = 1.96


def _scale_error(evidence: Evidence) -> float:
    """Relative error of the ruler where the lace lies: a card's perspective is drawn out as far as that."""
    lace, ruler = evidence.lace, evidence.ruler
    if lace is None or ruler.corners is None:
        return ruler.error
    at = apply(lace.frame.to_frame, ruler.anchor[None])[0]
    away = float(np.hypot(*(at - np.array(lace.frame.size) / 2))) * lace.frame.mm_per_px
    return ruler.error * (1 + away / CARD)


def half_width(evidence: Evidence, value: float) -> float:
    """Of the overall width."""
    lace, cover = evidence.lace, evidence.cover
    assert lace is not None
    parts = [WIDTH_PX * evidence.ruler.mm_per_px(), WIDTH_SCALE * value, WIDTH_NOISE * min(cover.noise, NOISE)]
    parts.append(_scale_error(evidence) * value)
    for side in (lace.top, lace.low):
        parts += [WIDTH_FIT * side.level_error, WIDTH_FIT * _peak_error(side)]
    return TWO * float(np.sqrt(sum(p * p for p in parts)))


def _peak_error(side: Side) -> float:
    return side.profile.peak_error if side.profile else side.miss * 0.3


def half_pitch(evidence: Evidence, pitch: Pitch) -> float:
    """Of a pitch, from the error of the edges that give it."""
    parts = [PITCH * pitch.error, PITCH_SCALE * pitch.value, _scale_error(evidence) * pitch.value]
    return TWO * float(np.sqrt(sum(p * p for p in parts)))


def half_depth(evidence: Evidence, side: Side) -> float:
    """Of the scallop depth of one edge."""
    assert side.profile is not None
    depth = side.profile.depth
    tips = TIPS * float(np.hypot(side.profile.peak_error, side.profile.valley_error))
    parts = [tips, DEPTH * depth, DEPTH_NOISE * min(evidence.cover.noise, NOISE), _scale_error(evidence) * depth]
    return TWO * float(np.sqrt(sum(p * p for p in parts)))


def half_repeat(evidence: Evidence, value: float) -> float:
    """Of a repeat that no scallop helps to measure."""
    repeat = evidence.repeat
    assert repeat is not None
    parts = [MOTIFS * repeat.error, MOTIFS_MM, MOTIFS_SCALE * value, _scale_error(evidence) * value]
    return TWO * float(np.sqrt(sum(p * p for p in parts)))


def half_open(evidence: Evidence) -> float:
    """Of the openness."""
    cover = evidence.cover
    parts = [OPEN, OPEN_DIM / max(cover.contrast, 1.0), OPEN_NOISE * min(cover.noise, NOISE)]
    return TWO * float(np.sqrt(sum(p * p for p in parts)))
