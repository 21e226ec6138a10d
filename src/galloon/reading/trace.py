"""Traces the outer edge of the lace: the outermost line of thread that runs along it, fringe ignored."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

from galloon.reading.arrays import Array, Mask, Reals

#: Length of the line filter (mm): longer than a fringe thread is thick, shorter than a lobe.
_LINE = 1.8
#: Directions looked along, degrees from the lace's length; beyond, a fringe thread looks like an edge.
_LEANS = (-66, -54, -42, -30, -18, -6, 6, 18, 30, 42, 54, 66)
#: Weight of unevenness along the line.
_UNEVEN = 0.8
#: Leans that count as an edge lying above.
_FLAT = 45
#: Steepest edge followed, in rows per column.
_STEEP = 5


@dataclass(frozen=True)
class Path:
    """An edge as one row per column (frame px) with its strength, 0 to 1."""

    rows: Reals
    strength: Reals


def along_lines(cover: Array, mm_per_px: float) -> Array:
    """Evenness of cover over a short line through each pixel, one layer per lean (LxHxW).

    It is the mean less the spread along the line: near 1 on a cord, near 0 where separate threads cross it.
    """
    reach = max(2, round(_LINE / mm_per_px / 2))
    image = np.clip(cover, -0.1, 1.0).astype(np.float32)
    square = image * image
    return np.stack([_even(image, square, _line_kernel(reach, lean)) for lean in _LEANS])


def _even(image: Array, square: Array, kernel: Array) -> Array:
    mean = cv2.filter2D(image, cv2.CV_32F, kernel, borderType=cv2.BORDER_REPLICATE)
    other = cv2.filter2D(square, cv2.CV_32F, kernel, borderType=cv2.BORDER_REPLICATE)
    return np.asarray(mean - _UNEVEN * np.sqrt(np.maximum(other - mean * mean, 0.0)), np.float32)


def _line_kernel(reach: int, lean: float) -> Array:
    size = 2 * reach + 1
    kernel = np.zeros((size * 8, size * 8), np.uint8)
    middle = size * 4
    run = np.array([np.cos(np.radians(lean)), np.sin(np.radians(lean))]) * (reach + 0.5) * 8
    a, b = middle - run, middle + run
    cv2.line(kernel, tuple(int(v) for v in a), tuple(int(v) for v in b), 255, 8)
    small = cv2.resize(kernel.astype(np.float32), (size, size), interpolation=cv2.INTER_AREA)
    return np.asarray(small / small.sum(), np.float32)


def outer_path(lines: Array, valid: Mask, mm_per_px: float) -> Path:
    """The uppermost thread line, column by column.

    ``lines`` is the answer of ``along_lines``. The path is the one of greatest total strength that nothing
    as strong lies above of, by dynamic programming over columns; its slope must agree with the lean of the line.
    """
    strength = np.subtract(lines, np.float32(0.12))
    strength *= np.float32(1 / 0.6)
    np.clip(strength, 0.0, 1.0, out=strength)
    gap = max(1, round(0.9 / mm_per_px))
    above = np.clip((np.maximum.accumulate(_long_lines(lines, mm_per_px), axis=0) - 0.35) / 0.3, 0.0, 1.0)
    above = np.vstack([np.zeros((gap, above.shape[1]), np.float32), above[:-gap]])
    free = ((1 - above) * valid).astype(np.float32).T
    score = np.empty((strength.shape[2], strength.shape[1], strength.shape[0]), np.float32)
    for k, layer in enumerate(strength):
        np.multiply(layer.T, free, out=score[:, :, k])
    rows, lean = _best_path(score)
    return Path(rows.astype(np.float64), strength[lean, rows, np.arange(len(rows))].astype(np.float64))


def _long_lines(lines: Array, mm_per_px: float) -> Array:
    """The best mean over a line twice as long, flat leans only: fringe threads never fill it."""
    reach = max(2, round(_LINE / mm_per_px / 2))
    best = np.zeros(lines.shape[1:], np.float32)
    for lean, layer in zip(_LEANS, lines, strict=True):
        if abs(lean) < _FLAT:
            np.maximum(best, cv2.filter2D(layer, cv2.CV_32F, _line_kernel(reach, lean)), out=best)
    return best


def _slope_layers() -> tuple[Array, Array, Array]:
    slopes = np.arange(-_STEEP, _STEEP + 1)
    leans = np.degrees(np.arctan(slopes))
    layer = np.abs(np.asarray(_LEANS)[None, :] - np.clip(leans, -66, 66)[:, None]).argmin(1)
    return slopes, layer, np.asarray(0.05 * np.abs(slopes), np.float32)


def _best_path(score: Array) -> tuple[Array, Array]:
    """Rows and lean layers of the best path through score (WxHxL)."""
    wide, tall, _ = score.shape
    slopes, layer, cost = _slope_layers()
    level = score[:, :, len(_LEANS) // 2 - 1 : len(_LEANS) // 2 + 1].max(2)
    total = level[0].copy()
    back = np.zeros((wide, tall), np.int8)
    padded = np.full(tall + 2 * _STEEP, -1e9, np.float32)
    rows = np.arange(tall)
    for col in range(1, wide):
        padded[_STEEP:-_STEEP] = total
        reach = np.lib.stride_tricks.sliding_window_view(padded, 2 * _STEEP + 1)
        choice = reach - cost + score[col][:, layer[::-1]]
        pick = choice.argmax(1)
        back[col] = pick
        total = choice[rows, pick]
    return _walk_back(back, int(total.argmax()), slopes, layer[::-1])


def _walk_back(back: Array, row: int, slopes: Array, layer: Array) -> tuple[Array, Array]:
    wide, tall = back.shape
    path, lean = np.zeros(wide, np.intp), np.zeros(wide, np.intp)
    for col in range(wide - 1, -1, -1):
        path[col] = row
        lean[col] = layer[back[col, row]]
        row = int(np.clip(row + slopes[back[col, row]], 0, tall - 1))
    return path, lean
