"""Which mirror and turning symmetries the pattern has, judged on the mean of all its repeats."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from galloon.reading.arrays import Array
from galloon.reading.motif_map import SCALE, MotifMap

#: The mesh seldom shares the symmetry of the motifs: it is blurred by so much more first (mm).
_SOFT = 0.8


@dataclass(frozen=True)
class Likenesses:
    """Best correlation (-1 to 1) of the repeat with its mirrored or turned self, and by which shift (repeats)."""

    mirror: float
    mirror_worst: float
    across: float
    across_shift: float
    across_worst: float
    turned: float
    turned_worst: float


def mean_repeat(lace: MotifMap, length: float) -> tuple[Array, Array]:
    """One repeat averaged over all seen (HxW at map scale), rows from peak line to peak line, and its weight."""
    part = lace.rows(lace.peaks)
    density, weight = lace.density[part], lace.weight[part]
    count = max(8, round(length / SCALE))
    x = np.arange(density.shape[1]) * SCALE / length
    turns = np.floor(x).astype(int)
    total = np.zeros((density.shape[0], count), np.float32)
    seen = np.zeros_like(total)
    for k in range(turns.max() + 1):
        at = (k + np.arange(count) / count) * length / SCALE
        left = np.floor(at).astype(int)
        ok = left + 1 < density.shape[1]
        left, part_ = left[ok], (at[ok] - left[ok]).astype(np.float32)
        w = np.minimum(weight[:, left], weight[:, left + 1])
        total[:, ok] += w * ((1 - part_) * density[:, left] + part_ * density[:, left + 1])
        seen[:, ok] += w
    return np.where(seen > 0, total / np.maximum(seen, 1), 0).astype(np.float32), seen


def likenesses(tile: Array) -> Likenesses:
    """Compare a mean repeat with its mirror images over every shift along the lace."""
    soft = _softened(tile)
    level = soft - soft.mean(1, keepdims=True)
    m, _, mw = _best(level, level[:, ::-1])
    a, shift, aw = _best(level, level[::-1])
    t, _, tw = _best(level, level[::-1, ::-1])
    return Likenesses(m, mw, a, shift, aw, t, tw)


def _softened(tile: Array) -> Array:
    """The repeat with its mesh blurred away, its ends joined."""
    import cv2

    wide = tile.shape[1]
    thrice = cv2.GaussianBlur(np.hstack([tile, tile, tile]), (0, 0), _SOFT / SCALE, borderType=cv2.BORDER_REPLICATE)
    return np.asarray(thrice[:, wide : 2 * wide], np.float32)


def _best(one: Array, other: Array) -> tuple[float, float, float]:
    cross = np.fft.irfft((np.fft.rfft(one, axis=1) * np.conj(np.fft.rfft(other, axis=1))).sum(0), one.shape[1])
    norm = float(np.sqrt((one**2).sum() * (other**2).sum())) or 1.0
    at = int(cross.argmax())
    worst = min(_worst(one, np.roll(other, at + d, axis=1)) for d in (-1, 0, 1))
    return float(cross[at]) / norm, at / one.shape[1], worst


def _worst(one: Array, other: Array) -> float:
    import cv2

    size = (max(3, round(7 / SCALE)), max(3, round(7 / SCALE)))
    gap = cv2.blur((one - other) ** 2, size)
    power = cv2.blur(one * one + other * other, size)
    return float(np.quantile(gap, 0.99)) / max(float(np.quantile(power, 0.98)), 1e-9)
