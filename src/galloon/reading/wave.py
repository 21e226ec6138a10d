"""Fits a repeating wave to an edge: pitch, level, slope and shape, outliers held off."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from galloon.reading.arrays import Reals

#: Shortest scallop looked for (mm).
SHORTEST = 6.0
#: One harmonic per so many millimetres of pitch, within the limits.
_PER_HARMONIC, _FEW, _MANY = 2.5, 3, 14


@dataclass(frozen=True)
class Wave:
    """``y = level + slope (x - middle) + harmonics(x)``; ``miss`` is the robust residual (mm)."""

    pitch: float
    middle: float
    level: float
    slope: float
    shape: Reals
    miss: float
    pitch_error: float
    slope_error: float
    level_error: float
    samples: float

    def base(self, x: Reals) -> Reals:
        """The straight line the wave swings about."""
        return self.level + self.slope * (x - self.middle)

    def at(self, x: Reals) -> Reals:
        """Height of the wave at x."""
        t = x - self.middle
        phase = 2 * np.pi / self.pitch * t
        return np.asarray(self.base(x) + _swings(phase, len(self.shape) // 2) @ self.shape, np.float64)

    @property
    def height(self) -> float:
        """From the wave's lowest to its highest point."""
        phase = np.linspace(0, 2 * np.pi, 721)
        swing = _swings(phase, len(self.shape) // 2) @ self.shape
        return float(np.ptp(swing))


def harmonics(pitch: float) -> int:
    """How many harmonics a wave of this pitch is given."""
    return int(np.clip(pitch / _PER_HARMONIC, _FEW, _MANY))


def _swings(phase: Reals, count: int) -> Reals:
    turn = np.cumprod(np.repeat(np.exp(1j * phase)[:, None], count, axis=1), axis=1)
    return np.hstack([turn.real, turn.imag])


def fit_wave(x: Reals, y: Reals, pitch: float, *, rounds: int = 6) -> Wave:
    """Gauss-Newton on the pitch with Tukey weights; ``pitch`` is the start value."""
    middle = float((x.min() + x.max()) / 2)
    t = x - middle
    reach = float(np.abs(t).max())
    count = harmonics(pitch)
    weight, shape = np.ones_like(y), np.zeros(2 * count)
    for step in range(rounds):
        swing = _swings(2 * np.pi / pitch * t, count)
        design = np.column_stack([np.ones(len(t)), t / reach, swing, np.zeros(len(t))])
        if step == 0:
            shape = _solve(design[:, :-1], y, weight)[0][2:]
        design[:, -1] = _slope_of(swing, shape, count) * t / reach
        coef, cover = _solve(design, y, weight)
        shape = coef[2:-1]
        miss = y - design @ coef
        scale = max(1.4826 * float(np.median(np.abs(miss[weight > 0.05]))), 0.02)
        weight = np.clip(1 - (miss / (4.5 * scale)) ** 2, 0, 1) ** 2
        if step < rounds - 1:
            pitch = 2 * np.pi / (2 * np.pi / pitch + float(np.clip(coef[-1] / reach, -0.4 / reach, 0.4 / reach)))
    noise = float(np.sqrt((weight * miss**2).sum() / max(1.0, weight.sum())))
    error = noise * np.sqrt(np.clip(np.diag(cover), 0, None))
    return Wave(
        pitch=float(pitch), middle=middle, level=float(coef[0]), slope=float(coef[1]) / reach, shape=shape, miss=noise,
        pitch_error=float(error[-1] / reach * pitch**2 / (2 * np.pi)), slope_error=float(error[1]) / reach,
        level_error=float(error[0]), samples=float(weight.sum()),
    )  # fmt: skip


def _slope_of(swing: Reals, shape: Reals, count: int) -> Reals:
    k = np.arange(1, count + 1)
    return np.asarray(-swing[:, count:] @ (k * shape[:count]) + swing[:, :count] @ (k * shape[count:]), np.float64)


def _solve(design: Reals, y: Reals, weight: Reals) -> tuple[Reals, Reals]:
    left = design * weight[:, None]
    normal = left.T @ design
    normal[np.diag_indices_from(normal)] += 1e-9 * np.trace(normal) / len(normal)
    cover = np.linalg.inv(normal)
    return np.asarray(cover @ (left.T @ y), np.float64), np.asarray(cover, np.float64)


def candidates(x: Reals, y: Reals) -> list[float]:
    """Pitches worth trying: spectral peaks and their multiples, shortest first."""
    step = 0.5
    even = np.arange(x.min(), x.max(), step)
    rough = np.interp(even, x, y)
    rough = rough - np.polyval(np.polyfit(even, rough, 1), even)
    length = len(even) * step
    power = np.abs(np.fft.rfft(rough * np.hanning(len(rough)), 16 * len(rough))) ** 2
    rate = np.fft.rfftfreq(16 * len(rough), step)
    keep = (rate > 1.0 / length) & (rate < 1 / SHORTEST)
    peaks = np.flatnonzero((power[1:-1] > power[:-2]) & (power[1:-1] >= power[2:]) & keep[1:-1]) + 1
    peaks = peaks[np.argsort(power[peaks])[::-1]][:6]
    peaks = peaks[power[peaks] > 0.004 * power[peaks].max(initial=0.0)]
    found = {round(m / rate[p], 3) for p in peaks for m in (1, 2, 3, 4, 5) if m / rate[p] < length / 1.3}
    return sorted(p for p in found if p >= SHORTEST)


def best_wave(x: Reals, y: Reals) -> Wave | None:
    """The wave of the shortest pitch that explains the edge as well as any longer one."""
    thin = np.linspace(0, len(x) - 1, min(len(x), 500)).astype(int)
    tx, ty = x[thin], y[thin]
    tried = [fit_wave(tx, ty, pitch, rounds=4) for pitch in candidates(x, y)]
    tried = [w for w in tried if SHORTEST * 0.9 < w.pitch < np.ptp(x) / 1.25 and w.samples > 0.5 * len(tx)]
    if not tried:
        return None
    cost = np.array([_cost(w, tx, ty) for w in tried])
    bound = 1.3 * cost.min() + 0.012 * min(w.height for w in tried if w.height > 0) + 0.01
    good = sorted((w for w, c in zip(tried, cost, strict=True) if c <= bound), key=lambda w: w.pitch)
    return fit_wave(x, y, good[0].pitch)


def _cost(wave: Wave, x: Reals, y: Reals) -> float:
    """Root mean square miss, each clipped at 1.5 mm so that a stray thread counts little."""
    return float(np.sqrt(np.mean(np.minimum(np.abs(y - wave.at(x)), 1.5) ** 2)))
