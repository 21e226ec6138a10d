"""The whole lace seen straight, for the maker to correct what was found in it, and one repeat cut out of that."""

from __future__ import annotations

import math
from typing import Final

import cv2
import numpy as np

from galloon.errors import BadValue
from galloon.reading.arrays import Bytes, Reals
from galloon.reading.evidence import Evidence
from galloon.reading.level import Levelled
from galloon.reading.model import LaceReading, LevelView
from galloon.reading.motif_map import lace_rows
from galloon.reading.show import repeat_span, spots
from galloon.reading.straighten import Frame

#: Room shown round the lace (mm), finest scale shown (mm per px), and most px of the view and of a repeat cut out
#: of it.
_ROOM: Final = 8.0
_FINEST: Final = 0.1
_MOST: Final = 6_000_000
_MOST_REPEAT: Final = 500_000
#: Two edges are taken for alike when depth and pitch differ by no more than these shares.
_ALIKE: Final = (0.1, 0.02)


def level_view(pixels: Bytes, evidence: Evidence) -> LevelView | None:
    """The level view of a picture that was read; None where no lace was found in it."""
    lace = evidence.lace
    if lace is None:
        return None
    wide, tall = (side * lace.frame.mm_per_px + 2.0 * _ROOM for side in lace.frame.size)
    scale = max(_FINEST, lace.frame.mm_per_px, math.sqrt(wide * tall / _MOST))
    zoom, room = lace.frame.mm_per_px / scale, _ROOM / scale
    shift = np.array([[zoom, 0.0, room], [0.0, zoom, room], [0.0, 0.0, 1.0]])
    frame = Frame(shift @ lace.frame.to_frame, (math.ceil(wide / scale), math.ceil(tall / scale)), scale)
    thread = np.clip(frame.view(evidence.cover.cover) * 255.0, 0, 255).astype(np.uint8)
    peaks, _ = lace_rows(lace)
    depths = [side.profile.depth if side.wave and side.profile else 0.0 for side in (lace.top, lace.low)]
    first = "top" if _top_is_first(lace) else "low"
    return LevelView(
        np.asarray(frame.view(pixels), np.uint8), thread, scale, first,
        peaks[0] + _ROOM, peaks[1] + _ROOM, depths[0], depths[1], _start(evidence, first) + _ROOM,
    )  # fmt: skip


def _top_is_first(lace: Levelled) -> bool:
    """Whether the edge described first is the upper one; of two that are alike it is the lower one."""
    top, low = lace.top, lace.low
    if top.wave is None or low.wave is None or top.profile is None or low.profile is None:
        return top.wave is not None
    alike = abs(top.profile.depth / low.profile.depth - 1.0) < _ALIKE[0]
    return not (alike and abs(top.wave.pitch / low.wave.pitch - 1.0) < _ALIKE[1])


def _start(evidence: Evidence, first: str) -> float:
    """Frame x (mm) of a repeat's beginning: a valley, as near as can be to where a whole repeat was found."""
    lace = evidence.lace
    assert lace is not None
    span = repeat_span(evidence)
    begin = span[0] if span is not None else float(max(lace.top.x.min(), lace.low.x.min()))
    side = lace.top if first == "top" else lace.low
    if side.profile is None or side.wave is None:
        return begin
    valleys: Reals = spots(side, side.profile.valley_at)
    return float(valleys[np.abs(valleys - begin).argmin()]) if len(valleys) else begin


def one_repeat(view: LevelView, box: tuple[float, float, float, float]) -> Bytes:
    """What lies in ``box`` (left, top, right, bottom; mm in the view), HxWx4 uint8: RGB and the share of thread.

    The edge described first comes to lie along the lower side: where it is the upper one here, all is turned by half
    a turn. Raises BadValue for a box that is empty or lies outside the view.
    """
    left, top, right, low = box
    wide, tall = view.size
    if not (0.0 <= left < right <= wide and 0.0 <= top < low <= tall and right - left >= 2.0 and low - top >= 2.0):
        raise BadValue("repeat", "must lie inside the picture", tuple(round(one, 1) for one in box))
    scale = max(view.mm_per_px, math.sqrt((right - left) * (low - top) / _MOST_REPEAT))
    size = (max(1, round((right - left) / scale)), max(1, round((low - top) / scale)))
    zoom_x, zoom_y = size[0] * view.mm_per_px / (right - left), size[1] * view.mm_per_px / (low - top)
    shift = np.array([
        [zoom_x, 0.0, -left / view.mm_per_px * zoom_x],
        [0.0, zoom_y, -top / view.mm_per_px * zoom_y],
        [0.0, 0.0, 1.0],
    ])  # fmt: skip
    both = np.dstack([view.pixels, view.thread])
    cut = np.asarray(Frame(shift, size, scale).view(both), np.uint8)
    return np.ascontiguousarray(cv2.rotate(cut, cv2.ROTATE_180) if view.first == "top" else cut)


def repeat_of(reading: LaceReading) -> Bytes | None:
    """One repeat as ``one_repeat`` cuts it out; None where the picture does not show a whole one."""
    view, repeat = reading.level, reading.repeat
    if view is None or repeat is None or reading.width is None or reading.straightened is None:
        return None
    left = view.start
    try:
        return one_repeat(view, (left, view.top, left + repeat.value, view.low))
    except BadValue:
        return None
