"""Places an edge to a fraction of a pixel: where cover falls to half, column by column."""

from __future__ import annotations

import cv2
import numpy as np

from galloon.reading.arrays import Array, Reals

#: How far either side of the expected edge is searched (mm).
_REACH = 1.3
#: A line of thread behind the edge is looked for within this (mm).
_CORD = 0.9


def half_cover(strip: Array, rows: Reals, mm_per_px: float) -> Reals:
    """Sub-pixel row of the outer half-cover crossing in each column; NaN where a stray thread hides it.

    ``strip`` (HxW) has the outside of the lace at row 0; ``rows`` is the expected row per column (px).
    """
    soft = cv2.GaussianBlur(strip, (0, 0), max(0.4, 0.07 / mm_per_px))
    reach = round(_REACH / mm_per_px)
    first = np.round(rows).astype(int) - reach
    index = first[None, :] + np.arange(2 * reach + round(_CORD / mm_per_px) + 1)[:, None]
    inside = np.clip(index, 0, strip.shape[0] - 1)
    stack = soft[inside, np.arange(strip.shape[1])[None, :]]
    stack = np.where(index < 0, 0.0, stack)
    return _crossing(stack, first, 2 * reach, round(_CORD / mm_per_px))


def _crossing(stack: Array, first: Reals, search: int, cord: int) -> Reals:
    peak = np.stack([stack[k : k + search + 1] for k in range(0, cord + 1)]).max(0)
    top = np.lib.stride_tricks.sliding_window_view(stack, cord + 1, axis=0).max(-1)[: search + 1]
    del peak
    crest = np.clip(stack[: search + cord + 1].max(0), 0.35, 1.0)
    level = np.minimum(0.5, 0.6 * crest)
    rises = (stack[1 : search + 1] >= level) & (stack[:search] < level) & (top[1:] >= 0.8 * np.minimum(crest, 0.9))
    where = rises.argmax(0)
    found = rises.any(0) & (stack[0] < level)
    cols = np.arange(stack.shape[1])
    below, over = stack[where, cols], stack[where + 1, cols]
    part = (level - below) / np.maximum(over - below, 1e-6)
    return np.where(found, first + where + part, np.nan)
