"""How open the lace is: the part of it that is no thread, its holes and solid motifs taken as found in the lace."""

from __future__ import annotations

from typing import Final

import cv2
import numpy as np

from galloon.reading.arrays import Array, Mask, Reals
from galloon.reading.level import Levelled
from galloon.reading.motif_map import lace_mask

#: Finest scale looked at (mm per pixel), and the blur under which noise counts little (mm).
_SCALE, _BLUR = 0.125, 0.1
#: A hole or a solid patch is at least so wide (mm).
_PATCH: Final = 0.35
#: Ground and thread are judged in squares of this side (mm), of which so much lies inside the lace.
_SQUARE, _INSIDE = 8.0, 0.3
#: The deepest holes of a square (share of its pixels) show bare ground; its best patches show thread.
_BARE, _DENSE = 0.1, 0.98
#: Squares that show thread as solid as anywhere (share of all).
_SOLID: Final = 0.8
#: Ground is not believed to be darker than this against what was found outside (cover).
_DEEPEST: Final = -0.6


def openness_of(lace: Levelled) -> float:
    """Share of the lace's area that no thread covers, 0 to 1, from its levelled cover.

    The light inside the lace is not quite what its surroundings tell, and a mesh seldom leaves bare ground wide
    enough for the first look. So each square's mean is set against its own deepest holes; and the level of solid
    thread is halfway between that of flat patches, which blur makes too dim, and that of the best patches, which
    noise makes too bright.
    """
    cover, inside, scale = _sized(lace)
    squares = _squares(cover, inside, scale)
    if len(squares) == 0:
        return float(1.0 - lace.cover[lace_mask(lace)].mean())
    count, mean, bare, dense = squares.T
    ground = np.clip(bare, _DEEPEST, 0.0)
    solid = (1.0 + float(np.quantile(dense - ground, _SOLID))) / 2
    return float(1.0 - np.average(mean - ground, weights=count) / solid)


def _sized(lace: Levelled) -> tuple[Array, Mask, float]:
    px, inside = lace.frame.mm_per_px, lace_mask(lace)
    if px > 0.9 * _SCALE:
        return lace.cover, inside, px
    size = (round(lace.cover.shape[1] * px / _SCALE), round(lace.cover.shape[0] * px / _SCALE))
    cover = cv2.resize(lace.cover, size, interpolation=cv2.INTER_AREA)
    small = cv2.resize(inside.astype(np.uint8), size, interpolation=cv2.INTER_NEAREST)
    return np.asarray(cover), np.asarray(small > 0), _SCALE


def _squares(cover: Array, inside: Mask, scale: float) -> Reals:
    """Per square: pixels inside, mean cover, level of its deepest holes and of its best patches (Nx4)."""
    soft = cv2.GaussianBlur(cover, (0, 0), max(0.5, _BLUR / scale))
    side = 2 * max(1, round(_PATCH / scale / 2)) + 1
    disc = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (side, side))
    low, high = (cv2.morphologyEx(soft, kind, disc) for kind in (cv2.MORPH_CLOSE, cv2.MORPH_OPEN))
    step = max(4, round(_SQUARE / scale))
    found = []
    for row in range(0, cover.shape[0], step):
        for col in range(0, cover.shape[1], step):
            part = np.s_[row : row + step, col : col + step]
            here = inside[part]
            if here.sum() >= _INSIDE * step * step:
                bare, dense = _level(low[part][here], _BARE), _level(high[part][here], _DENSE)
                found.append((float(here.sum()), float(cover[part][here].mean()), bare, dense))
    return np.array(found, np.float64).reshape(-1, 4)


def _level(values: Array, share: float) -> float:
    """The quantile, many times faster than the library's on a few thousand values."""
    at = share * (len(values) - 1)
    first = min(int(at), len(values) - 2)
    low, high = np.partition(values, (first, first + 1))[first : first + 2]
    return float(low + (at - first) * (high - low))
