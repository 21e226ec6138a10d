"""What a page draws of a reading: the found lines in picture pixels, and one repeat straight and to scale."""

from __future__ import annotations

import numpy as np

from galloon.reading.arrays import Bytes, Reals
from galloon.reading.edges import Side
from galloon.reading.evidence import Evidence, shared_pitch
from galloon.reading.level import Levelled
from galloon.reading.model import FoundEdge, FoundGeometry, Straightened
from galloon.reading.motif_map import lace_rows
from galloon.reading.straighten import Frame, apply

#: Scale of the straightened repeat (mm per pixel); never finer than the picture.
_SHOWN = 0.1


def found_geometry(evidence: Evidence) -> FoundGeometry:
    """Edges, peaks, valleys and one repeat in picture px."""
    lace = evidence.lace
    assert lace is not None
    span = repeat_span(evidence)
    box = None
    if span is not None:
        peaks, _ = lace_rows(lace)
        ring = np.array([[span[0], peaks[0]], [span[1], peaks[0]], [span[1], peaks[1]], [span[0], peaks[1]]])
        box = apply(lace.frame.to_picture, ring / lace.frame.mm_per_px - 0.5)
    return FoundGeometry(_edge(lace, low=False), _edge(lace, low=True), box)


def _edge(lace: Levelled, *, low: bool) -> FoundEdge | None:
    side = lace.low if low else lace.top
    if side.cropped > 0.5 or len(side.x) < 2:
        return None
    x = np.linspace(side.x.min(), side.x.max(), int(np.clip(np.ptp(side.x) / 0.5, 20, 1500)))
    line = _place(lace, x, side_height(side, x), low=low)
    empty = np.zeros((0, 2))
    if side.wave is None or side.profile is None:
        return FoundEdge(line, empty, empty)
    peaks = spots(side, side.profile.peak_at)
    valleys = spots(side, side.profile.valley_at)
    return FoundEdge(
        line,
        _place(lace, peaks, side.wave.base(peaks) + side.profile.peak, low=low),
        _place(lace, valleys, side.wave.base(valleys) + side.profile.valley, low=low),
    )


def spots(side: Side, phase: float) -> Reals:
    """Frame x (mm) of every peak or valley, at ``phase`` of the edge's wave."""
    assert side.wave is not None
    first = np.ceil((side.x.min() - side.wave.middle) / side.wave.pitch - phase)
    spots = side.wave.middle + (np.arange(first, first + 500) + phase) * side.wave.pitch
    return np.asarray(spots[spots <= side.x.max()], np.float64)


def side_height(side: Side, x: Reals) -> Reals:
    """The smoothed edge's height at x: the mean scallop on its line."""
    line = side.level + side.slope * (x - side.middle)
    if side.wave is None or side.profile is None:
        return np.asarray(line, np.float64)
    heights = side.profile.heights
    at = (np.arange(len(heights)) + 0.5) / len(heights)
    turns = np.mod((x - side.wave.middle) / side.wave.pitch, 1.0)
    return np.asarray(line + np.interp(turns, at, heights, period=1.0), np.float64)


def _place(lace: Levelled, x: Reals, height: Reals, *, low: bool) -> Reals:
    px = lace.frame.mm_per_px
    middle = lace.frame.size[1] / 2 * px
    y = middle + height if low else middle - height
    return apply(lace.frame.to_picture, np.column_stack([x, y]) / px - 0.5)


def repeat_span(evidence: Evidence) -> tuple[float, float] | None:
    """Frame x (mm) of one whole repeat near the middle, from valley to valley where there are scallops."""
    lace, repeat = evidence.lace, evidence.repeat
    if lace is None or repeat is None:
        return None
    pitch = shared_pitch(lace)
    length = repeat.pitches * pitch if pitch and repeat.pitches else repeat.length
    left = max(lace.top.x.min(), lace.low.x.min())
    right = min(lace.top.x.max(), lace.low.x.max())
    start = (left + right - length) / 2
    side = lace.top if lace.top.scalloped else lace.low
    if side.wave is not None and side.profile is not None:
        valleys = spots(side, side.profile.valley_at)
        valleys = valleys[(valleys >= left) & (valleys + length <= right)]
        if len(valleys):
            start = float(valleys[np.abs(valleys - start).argmin()])
    return (float(start), float(start + length)) if start >= left - 0.5 and start + length <= right + 0.5 else None


def straightened(pixels: Bytes, evidence: Evidence) -> Straightened | None:
    """One repeat, straight, from peak line to peak line, at a known scale."""
    span, lace = repeat_span(evidence), evidence.lace
    if span is None or lace is None:
        return None
    peaks, _ = lace_rows(lace)
    scale = max(_SHOWN, lace.frame.mm_per_px)
    zoom = lace.frame.mm_per_px / scale
    shift = np.array([[zoom, 0, -span[0] / scale], [0, zoom, -peaks[0] / scale], [0, 0, 1.0]])
    size = (max(1, round((span[1] - span[0]) / scale)), max(1, round((peaks[1] - peaks[0]) / scale)))
    frame = Frame(shift @ lace.frame.to_frame, size, scale)
    thread = Frame(shift, size, scale).view(lace.cover)
    return Straightened(
        np.asarray(frame.view(pixels), np.uint8), np.clip(thread * 255, 0, 255).astype(np.uint8), scale
    )  # fmt: skip
