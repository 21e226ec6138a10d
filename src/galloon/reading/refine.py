"""Places an edge to a fraction of a pixel: where cover falls to half, column by column."""

from __future__ import annotations

import cv2
import numpy as np

from galloon.reading.arrays import Array, Reals

#: How far either side of the expected edge is searched (mm).
_REACH = 1.3
#: A line of thread behind the edge is looked for within this (mm).
_CORD = 0.9
#: The brightest of several pixels is brighter than thread by so much (cover). Where blur has dimmed what is solid
#: elsewhere, thread at an edge may be brighter than 1, but is not believed to be brighter than this.
_SHEEN, _BRIGHTEST = 0.05, 1.8


def half_cover(strip: Array, cols: Array, rows: Reals, mm_per_px: float) -> Reals:
    """Sub-pixel row of the outer half-cover crossing in each of ``cols``; NaN where a stray thread hides it.

    ``strip`` (HxW) has the outside of the lace at row 0; ``rows`` is the expected row per column (px).
    """
    if len(cols) == 0:
        return np.zeros(0)
    reach, cord = round(_REACH / mm_per_px), round(_CORD / mm_per_px)
    first = np.round(rows).astype(int) - reach
    sigma = max(0.4, 0.07 / mm_per_px)
    room = round(4 * sigma) + 1
    start = int(np.clip(first.min() - room, 0, strip.shape[0] - 1))
    end = int(np.clip(first.max() + 2 * reach + cord + 2 + room, start + 1, strip.shape[0]))
    soft = cv2.GaussianBlur(np.ascontiguousarray(strip[start:end]), (0, 0), sigma)
    index = first[None, :] + np.arange(2 * reach + cord + 1)[:, None]
    inside = np.clip(index - start, 0, end - start - 1)
    stack = soft[inside, cols[None, :]]
    stack = np.where(index < 0, 0.0, stack)
    return _crossing(stack, first, 2 * reach, cord)


def _crossing(stack: Array, first: Reals, search: int, cord: int) -> Reals:
    top = np.lib.stride_tricks.sliding_window_view(stack, cord + 1, axis=0).max(-1)[: search + 1]
    crest = stack[: search + cord + 1].max(0)
    solid = float(np.clip(np.median(crest) - _SHEEN, 1.0, _BRIGHTEST))
    crest = np.clip(crest, 0.35, solid)
    level = np.minimum(0.5 * solid, 0.6 * crest)
    rises = (stack[1 : search + 1] >= level) & (stack[:search] < level) & (top[1:] >= 0.8 * np.minimum(crest, 0.9))
    where = rises.argmax(0)
    found = rises.any(0) & (stack[0] < level)
    cols = np.arange(stack.shape[1])
    below, over = stack[where, cols], stack[where + 1, cols]
    part = (level - below) / np.maximum(over - below, 1e-6)
    return np.where(found, first + where + part, np.nan)
