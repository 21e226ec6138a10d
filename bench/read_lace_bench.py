"""Reading a lace from a scan against its goal; accuracy is measured by ``read_lace_sweep.py``."""

from __future__ import annotations

import time

import cv2

from bench.rows import Row
from galloon.reading import read_lace
from tests.support import lace_scans


def twelve_megapixels() -> list[float]:
    """Seconds to read a drawn scan brought to twelve megapixels, the scale known."""
    drawn = lace_scans.scan(3, "medium")
    tall, wide = drawn.pixels.shape[:2]
    zoom = (12e6 / (tall * wide)) ** 0.5
    pixels = cv2.resize(drawn.pixels, None, fx=zoom, fy=zoom, interpolation=cv2.INTER_CUBIC)
    times = []
    for _ in range(3):
        begun = time.perf_counter()
        read_lace(pixels, mm_per_px=drawn.mm_per_px / zoom)
        times.append(time.perf_counter() - begun)
    return times


ROWS = [Row("read a lace", "a scan of 12 megapixels, seconds", 2.0, "s", twelve_megapixels)]
