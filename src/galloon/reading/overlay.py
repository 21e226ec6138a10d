"""Draws what was found over the picture it was found in."""

from __future__ import annotations

import cv2
import numpy as np

from galloon.reading.arrays import Array, Bytes, Reals
from galloon.reading.model import FoundEdge, LaceReading

_EDGE, _PEAK, _VALLEY, _REPEAT = (214, 39, 40), (255, 140, 0), (31, 119, 180), (44, 160, 44)


def overlay(pixels: Bytes, reading: LaceReading, longest: int = 1600) -> Bytes:
    """An RGB copy no longer than ``longest`` px with edges, peaks (orange), valleys (blue) and one repeat (green)."""
    zoom = min(1.0, longest / max(pixels.shape[:2]))
    small = cv2.resize(pixels, None, fx=zoom, fy=zoom, interpolation=cv2.INTER_AREA) if zoom < 1 else pixels.copy()
    pen = max(2, round(max(small.shape[:2]) / 500))
    if reading.found.repeat is not None:
        cv2.polylines(small, [_px(reading.found.repeat, zoom)], True, _REPEAT, pen, cv2.LINE_AA)
    for edge in (reading.found.top, reading.found.low):
        if edge is not None:
            _draw_edge(small, edge, zoom, pen)
    return np.asarray(small, np.uint8)


def _px(points: Reals, zoom: float) -> Array:
    return np.round(points * zoom).astype(np.int32).reshape(-1, 1, 2)


def _draw_edge(image: Bytes, edge: FoundEdge, zoom: float, pen: int) -> None:
    cv2.polylines(image, [_px(edge.line, zoom)], False, _EDGE, pen, cv2.LINE_AA)
    for points, colour in ((edge.peaks, _PEAK), (edge.valleys, _VALLEY)):
        for x, y in points * zoom:
            cv2.circle(image, (round(x), round(y)), 2 * pen + 1, colour, -1, cv2.LINE_AA)
