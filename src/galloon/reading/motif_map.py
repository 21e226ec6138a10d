"""The lace as a small map of thread density, mesh smoothed away, for comparing motifs with each other."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

from galloon.reading.arrays import Array, Mask
from galloon.reading.level import Levelled

#: Scale of the map (mm per pixel) and the blur that hides the mesh (mm).
SCALE = 0.4
_BLUR = 0.9


@dataclass(frozen=True)
class MotifMap:
    """Density (HxW float32) with its weights; rows ``peaks`` and ``valleys`` bound the lace and its solid part.

    ``left`` is the frame x (mm) of column 0, ``rise`` how much the density varies.
    """

    density: Array
    weight: Array
    peaks: tuple[float, float]
    valleys: tuple[float, float]
    left: float
    rise: float

    def rows(self, which: tuple[float, float]) -> slice:
        """Map rows between two frame heights (mm from the frame's upper side)."""
        return slice(max(0, round(which[0] / SCALE)), max(1, round(which[1] / SCALE)))


def motif_map(lace: Levelled) -> MotifMap:
    """Map of a levelled lace between its ends."""
    px = lace.frame.mm_per_px
    left = min(lace.top.x.min(), lace.low.x.min())
    right = max(lace.top.x.max(), lace.low.x.max())
    cut = np.s_[:, int(left / px) : int(right / px) + 1]
    inside = lace_mask(lace)[cut].astype(np.float32)
    cover = np.clip(lace.cover[cut], -0.2, 1.2) * inside
    size = (round(cover.shape[1] * px / SCALE), round(cover.shape[0] * px / SCALE))
    small = cv2.resize(cover, size, interpolation=cv2.INTER_AREA)
    weight = cv2.resize(inside, size, interpolation=cv2.INTER_AREA)
    soft = cv2.GaussianBlur(weight, (0, 0), _BLUR / SCALE)
    density = cv2.GaussianBlur(small, (0, 0), _BLUR / SCALE) / np.maximum(soft, 0.05)
    weight = np.where(weight > 0.6, 1.0, 0.0).astype(np.float32)
    peaks, valleys = lace_rows(lace)
    return MotifMap(density * weight, weight, peaks, valleys, float(left), float(density[weight > 0].std()))


def lace_rows(lace: Levelled) -> tuple[tuple[float, float], tuple[float, float]]:
    """Heights (mm below the frame's upper side) of the peak lines and of the valley lines."""
    middle = lace.frame.size[1] / 2 * lace.frame.mm_per_px
    x = (lace.top.middle + lace.low.middle) / 2
    top, low = lace.top, lace.low
    deep_top = top.profile.valley if top.profile else -0.5
    deep_low = low.profile.valley if low.profile else -0.5
    peaks = (middle - top.base(x) - top.peak, middle + low.base(x) + low.peak)
    valleys = (middle - top.base(x) - deep_top, middle + low.base(x) + deep_low)
    return peaks, valleys


def lace_mask(lace: Levelled) -> Mask:
    """Frame pixels inside the lace's outline and inside the picture."""
    tall, wide = lace.cover.shape
    px = lace.frame.mm_per_px
    cols = (np.arange(wide) + 0.5) * px
    rows = (np.arange(tall)[:, None] + 0.5) * px
    middle = tall / 2 * px
    upper = middle - _height(lace, cols, low=False)
    lower = middle + _height(lace, cols, low=True)
    inside = (rows >= upper) & (rows <= lower) & lace.valid
    left, right = min(lace.top.x.min(), lace.low.x.min()), max(lace.top.x.max(), lace.low.x.max())
    return np.asarray(inside & (cols >= left) & (cols <= right), np.bool_)


def _height(lace: Levelled, cols: Array, *, low: bool) -> Array:
    side = lace.low if low else lace.top
    line = side.level + side.slope * (cols - side.middle)
    if side.profile is None or side.wave is None:
        return np.asarray(line, np.float32)
    turns = np.mod((cols - side.wave.middle) / side.wave.pitch, 1.0)
    heights = side.profile.heights
    at = (np.arange(len(heights)) + 0.5) / len(heights)
    return np.asarray(line + np.interp(turns, at, heights, period=1.0), np.float32)
