"""Levels the lace in two passes: a coarse one to find tilt and perspective, a fine one to measure in."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from galloon.reading.arrays import Array, Mask, Reals
from galloon.reading.band import Band
from galloon.reading.contrast import Cover
from galloon.reading.edges import Side, coarse_sides, expected_rows, fine_side
from galloon.reading.straighten import Frame, apply, level_frame

#: Scale of the coarse pass and finest scale of the measuring pass (mm per pixel).
_COARSE, _FINEST = 0.25, 0.08
#: Room left around the lace (mm).
_ROOM = 3.0
#: Greatest perspective corrected: change of scale from the middle to the end of the lace.
_MOST_BENT = 0.04


@dataclass(frozen=True)
class Levelled:
    """The lace laid level at measuring scale: its cover, the picture's reach, both edges."""

    frame: Frame
    cover: Array
    valid: Mask
    top: Side
    low: Side
    bent_along: float
    bent_across: float
    coarse_top: Side
    coarse_low: Side


def level(cover: Cover, band: Band, flatten: Reals, anchor: Reals) -> Levelled:
    """Both passes. ``flatten`` takes picture px to mm (3x3); ``anchor`` is where its scale is true (px)."""
    scale = float(np.sqrt(abs(np.linalg.det(flatten[:2, :2]))))
    around = _around(band, flatten)
    first = level_frame(flatten, band.angle, around, _COARSE)
    seen = first.view(cover.cover)
    body = _placed(first, band.mask, cover.cover.shape).view(band.mask.astype(np.float32)) > 0.5
    top, low = coarse_sides(seen, first.valid(cover.cover.shape), body, _COARSE)
    angle, bend, g, h = _correction(first, top, low, flatten, anchor, band.angle)
    fine = level_frame(bend @ flatten, angle, around, max(scale, _FINEST))
    full = fine.view(cover.cover)
    upper = fine_side(full, top, expected_rows(top, first, fine, flip=False), fine.mm_per_px, flip=False)
    lower = fine_side(full, low, expected_rows(low, first, fine, flip=True), fine.mm_per_px, flip=True)
    return Levelled(fine, full, fine.valid(cover.cover.shape), upper, lower, g, h, top, low)


def _placed(frame: Frame, small: Mask, shape: tuple[int, ...]) -> Frame:
    """The frame as it lies over a ``small`` copy of a picture of ``shape`` (HxW)."""
    sx, sy = shape[1] / small.shape[1], shape[0] / small.shape[0]
    grow = np.array([[sx, 0, 0.5 * sx - 0.5], [0, sy, 0.5 * sy - 0.5], [0, 0, 1.0]])
    return Frame(frame.to_frame @ grow, frame.size, frame.mm_per_px)


def _around(band: Band, flatten: Reals) -> Reals:
    """The lace's outline grown by the room, still in picture px."""
    placed = apply(flatten, band.outline)
    middle = placed.mean(0)
    c, s = np.cos(np.radians(band.angle)), np.sin(np.radians(band.angle))
    axes = np.array([[c, s], [-s, c]])
    level = (placed - middle) @ axes.T
    low, high = level.min(0) - _ROOM, level.max(0) + _ROOM
    ring = np.array([[low[0], low[1]], [high[0], low[1]], [high[0], high[1]], [low[0], high[1]]])
    return apply(np.asarray(np.linalg.inv(flatten)), ring @ axes + middle)


def _correction(
    first: Frame, top: Side, low: Side, flatten: Reals, anchor: Reals, angle: float
) -> tuple[float, Reals, float, float]:
    """Better angle, and the projective map that makes the edges parallel and their pitches equal."""
    tilt = (low.slope - top.slope) / 2
    x = (top.middle + low.middle) / 2
    width = top.base(x) + low.base(x)
    reach = max(float(np.ptp(top.x)), 1.0) / 2
    g = -(top.slope + low.slope) / max(width, 5.0)
    g = g if abs(g) * reach < _MOST_BENT else 0.0
    h = 0.0
    if top.wave and low.wave and abs(top.wave.pitch / low.wave.pitch - 1) < 0.02:
        h = (top.wave.pitch - low.wave.pitch) / (top.wave.pitch * max(width, 5.0))
    better = angle + float(np.degrees(np.arctan(tilt)))
    return better, projective(apply(flatten, anchor[None])[0], better, g, h), g, h


def projective(anchor: Reals, angle: float, g: float, h: float) -> Reals:
    """A 3x3 map of the table (mm) with unit scale at ``anchor`` that grows by g along ``angle`` and h across."""
    c, s = np.cos(np.radians(angle)), np.sin(np.radians(angle))
    turn = np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]])
    move = np.array([[1.0, 0.0, -anchor[0]], [0.0, 1.0, -anchor[1]], [0.0, 0.0, 1.0]])
    bend = np.array([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [-g, -h, 1.0]])
    there = turn @ move
    return np.asarray(np.linalg.inv(there) @ bend @ there, np.float64)
