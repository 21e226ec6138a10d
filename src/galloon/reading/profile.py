"""Lays all scallops of an edge over each other and finds their peak and valley height."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from galloon.reading.arrays import Reals

#: Bin of the folded profile (mm along the edge).
_BIN = 0.2


@dataclass(frozen=True)
class Profile:
    """Heights of the mean scallop: ``peak`` and ``valley`` above the edge's level, at phases 0 to 1."""

    heights: Reals
    peak: float
    valley: float
    peak_at: float
    valley_at: float
    peak_error: float
    valley_error: float
    spread: float

    @property
    def depth(self) -> float:
        """Peak line to valley line."""
        return self.peak - self.valley


def fold(turns: Reals, heights: Reals, pitch: float) -> Profile:
    """Median scallop from heights above the level at ``turns`` (x over pitch, any whole part)."""
    count = max(8, min(max(24, int(pitch / _BIN)), len(turns) // 3))
    phase = np.mod(turns, 1.0)
    bins = np.minimum((phase * count).astype(int), count - 1)
    order = np.argsort(bins, kind="stable")
    edges = np.searchsorted(bins[order], np.arange(count + 1))
    sorted_heights = heights[order]
    level, spread = np.full(count, np.nan), np.full(count, np.nan)
    for k in range(count):
        part = sorted_heights[edges[k] : edges[k + 1]]
        if len(part) >= 2:
            level[k] = np.median(part)
            spread[k] = 1.4826 * np.median(np.abs(part - level[k]))
    seen = np.isfinite(level)
    if not seen.any():
        level[:], spread[:], seen[:] = float(np.median(heights)), float(np.std(heights)), True
    at = np.arange(count)
    level = np.interp(at, at[seen], level[seen], period=count)
    typical = float(np.nanmedian(spread))
    peak, peak_at, peak_error = _extreme(level, pitch, 1.0)
    valley, valley_at, valley_error = _extreme(level, pitch, -1.0)
    return Profile(level, peak, valley, peak_at, valley_at, peak_error, valley_error, typical)


def _extreme(level: Reals, pitch: float, sign: float) -> tuple[float, float, float]:
    """Height, phase and error of the highest (or lowest) point, rounded or pointed."""
    up = sign * level
    count = len(up)
    step = pitch / count
    kernel = np.ones(3) / 3
    smooth = np.convolve(np.r_[up[-1:], up, up[:1]], kernel, "valid")
    top = int(smooth.argmax())
    half = max(2, int(np.clip(0.05 * pitch / step, 4, 1.8 / step)))
    offs = np.arange(-2 * half, 2 * half + 1)
    values = up[(top + offs) % count]
    mm = offs * step
    near = np.abs(offs) <= half
    round_fit = np.polyfit(mm[near], values[near], 2)
    rounded = float(np.std(values[near] - np.polyval(round_fit, mm[near])))
    vertex = -round_fit[1] / (2 * round_fit[0]) if round_fit[0] < 0 else np.inf
    best, at = float(smooth.max()), 0.0
    if abs(vertex) <= half * step:
        best, at = float(np.polyval(round_fit, vertex)), float(vertex)
    flank = _flanks(mm, values, half * step)
    error = max(rounded / np.sqrt(near.sum() / 3), 0.01)
    if flank is not None:
        tip, tip_at, pointed = flank
        if pointed < 0.6 * rounded - 0.004:
            return sign * tip, float(top * step + tip_at) / pitch % 1.0, max(pointed, 0.03, 0.5 * abs(tip - best))
    return sign * best, float(top * step + at) / pitch % 1.0, error


def _flanks(mm: Reals, values: Reals, reach: float) -> tuple[float, float, float] | None:
    """Where the two flanks beside a cusp would meet, with their residual."""
    best = None
    for middle in np.linspace(-0.5, 0.5, 11):
        left = (mm < middle - 0.28) & (mm > middle - 0.28 - 1.2 * reach)
        right = (mm > middle + 0.28) & (mm < middle + 0.28 + 1.2 * reach)
        if left.sum() < 5 or right.sum() < 5:
            continue
        a, b = np.polyfit(mm[left] - middle, values[left], 2), np.polyfit(mm[right] - middle, values[right], 2)
        miss = np.r_[values[left] - np.polyval(a, mm[left] - middle), values[right] - np.polyval(b, mm[right] - middle)]
        roots = np.roots(a - b)
        roots = roots[np.isreal(roots)].real
        roots = roots[np.abs(roots) < 0.6]
        if len(roots) == 0:
            continue
        at = roots[np.abs(roots).argmin()]
        rms = float(np.sqrt(np.mean(miss**2)))
        if best is None or rms < best[2]:
            best = (float(np.polyval(a, at)), float(at + middle), rms)
    return best
