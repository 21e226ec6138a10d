"""How long the pattern is: the shortest shift along the lace after which its motifs coincide."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias

import cv2
import numpy as np

from galloon.reading.arrays import Array, Reals
from galloon.reading.motif_map import SCALE, MotifMap

#: Shortest pattern looked for where no scallop gives a pitch (mm).
_SHORTEST = 8.0
#: Least part of the lace that must overlap itself after the shift.
_OVERLAP = 0.3
#: A shift is a repeat beyond doubt at this likeness when no place differs by more than this: a longer one that is
#: more alike still is then only the mesh falling into step. Drawn laces: true shifts 0.8 to 1, false ones under 0.76.
_PLAINLY, _NOWHERE = 0.8, 0.2


#: More blur (mm) under which a repeat once found is measured, and the likeness it then needs.
_SOFTER, _ALIKE = 1.2, 0.5
#: Bands across the lace in which it is measured, error of one band that no agreement makes smaller, and error where
#: too few bands show it (mm).
_BANDS, _STEADY, _UNSURE = 6, 0.02, 0.1
#: Pitches (0 where none are counted), shift in mm, its likeness, its worst local difference.
Tried: TypeAlias = tuple[int, float, float, float]


@dataclass(frozen=True)
class Repeat:
    """Length in mm, likeness of shifted motifs 0 to 1, their worst local difference (0 same, 1 unrelated).

    ``tilt`` is its growth per mm down the lace as a share, ``tilt_error`` and ``error`` (mm) are one sigma.
    ``pitches`` is 0 where there is no scallop to count; ``count`` how many repeats the picture shows.
    """

    length: float
    likeness: float
    worst: float
    pitches: int
    count: float
    tilt: float
    tilt_error: float
    error: float


def find_repeat(lace: MotifMap, pitch: float | None) -> Repeat | None:
    """The repeat of a map, as a whole number of pitches where there is a pitch."""
    part = lace.rows(_inner(lace))
    rough, weight = _flattened(lace.density[part], lace.weight[part])
    extent = rough.shape[1] * SCALE
    tried = _free(rough, weight, extent) if pitch is None else _whole(rough, weight, extent, pitch)
    chosen = _choose(tried)
    if chosen is None:
        return None
    n, lag, like, worst = chosen
    length, tilt, tilt_error, error = _settled(rough, weight, lag)
    return Repeat(length, like, worst, n, extent / length, tilt, tilt_error, error)


def _whole(rough: Array, weight: Array, extent: float, pitch: float) -> list[Tried]:
    """Shifts by every whole number of pitches that leaves an overlap."""
    tried = []
    for n in range(1, int(extent * (1 - _OVERLAP) / pitch) + 1):
        lag, like = peak_near(rough, weight, n * pitch, 0.6)
        tried.append((n, lag, like, worst_difference(rough, weight, lag)))
    return tried


def _inner(lace: MotifMap) -> tuple[float, float]:
    top, low = lace.valleys[0] + 1.2, lace.valleys[1] - 1.2
    return (top, low) if low - top > 8 else lace.peaks


def _flattened(density: Array, weight: Array) -> tuple[Array, Array]:
    """Density less its mean along each row, so that bands along the lace do not count as likeness."""
    total = weight.sum(1, keepdims=True)
    mean = (density * weight).sum(1, keepdims=True) / np.maximum(total, 1)
    return np.asarray((density - mean) * weight, np.float32), weight


def likeness(rough: Array, weight: Array, lag: float) -> float:
    """Correlation of the map with itself shifted by ``lag`` mm (to the nearest half pixel by interpolation)."""
    a, b, wa, wb = _shifted(rough, weight, lag)
    both = wa * wb
    top = float((a * b * both).sum())
    low = float(np.sqrt((a * a * both).sum() * (b * b * both).sum()))
    return top / low if low > 0 else 0.0


def _shifted(rough: Array, weight: Array, lag: float) -> tuple[Array, Array, Array, Array]:
    px = lag / SCALE
    whole = int(np.floor(px))
    part = np.float32(px - whole)
    end = rough.shape[1] - whole - 1
    later = (1 - part) * rough[:, whole : whole + end] + part * rough[:, whole + 1 : whole + 1 + end]
    later_weight = np.minimum(weight[:, whole : whole + end], weight[:, whole + 1 : whole + 1 + end])
    return rough[:, :end], later, weight[:, :end], later_weight


def peak_near(rough: Array, weight: Array, lag: float, reach: float) -> tuple[float, float]:
    """The shift of greatest likeness within ``reach`` mm of ``lag``, and that likeness."""
    base = round(lag / SCALE)
    span = max(2, round(reach / SCALE))
    lags = [k for k in range(base - span, base + span + 1) if 1 <= k < rough.shape[1] - 3]
    if len(lags) < 3:
        return lag, 0.0
    values = np.array([likeness(rough, weight, k * SCALE) for k in lags])
    at = int(np.clip(values.argmax(), 1, len(values) - 2))
    left, mid, right = values[at - 1 : at + 2]
    bend = left - 2 * mid + right
    step = float(np.clip(0.5 * (left - right) / bend, -1, 1)) if bend < 0 else 0.0
    return (lags[at] + step) * SCALE, float(values.max())


def worst_difference(rough: Array, weight: Array, lag: float) -> float:
    """Largest local difference after the shift, in units of the largest local variation."""
    a, b, wa, wb = _shifted(rough, weight, lag)
    both = wa * wb
    size = (max(3, round(7 / SCALE)), max(3, round(7 / SCALE)))
    share = cv2.blur(both, size)
    gap = cv2.blur((a - b) ** 2 * both, size)
    power = cv2.blur((a * a + b * b) * both, size)
    keep = share > 0.5
    if not keep.any():
        return 1.0
    high = float(np.quantile((power / np.maximum(share, 1e-6))[keep], 0.98))
    return float(np.quantile((gap / np.maximum(share, 1e-6))[keep], 0.995)) / max(high, 1e-9)


def _choose(tried: list[Tried]) -> Tried | None:
    """The shortest shift that is as good as the best, or None when none is."""
    for shift in tried:
        if shift[2] >= _PLAINLY and shift[3] <= _NOWHERE:
            return shift
    best = max((like for _, _, like, _ in tried), default=0.0)
    least = min((worst for *_, worst in tried), default=1.0)
    for shift in tried:
        _, _, like, worst = shift
        if like >= best - max(0.03, 0.6 * (1 - best)) and worst <= max(2.2 * least, least + 0.12):
            return shift
    return None


def _free(rough: Array, weight: Array, extent: float) -> list[Tried]:
    """The shifts of greatest likeness, all shifts tried."""
    lags = np.arange(round(_SHORTEST / SCALE), int(extent * (1 - _OVERLAP) / SCALE))
    if len(lags) < 5:
        return []
    values = _all_likeness(rough, weight)[lags]
    peaks = np.flatnonzero((values[1:-1] >= values[:-2]) & (values[1:-1] > values[2:])) + 1
    peaks = peaks[values[peaks] > 0.25]
    if len(peaks) == 0:
        return []
    strong = peaks[values[peaks] > 0.5 * values[peaks].max()][:14]
    tried = []
    for p in strong:
        lag, like = peak_near(rough, weight, float(lags[p] * SCALE), 0.8)
        tried.append((0, lag, like, worst_difference(rough, weight, lag)))
    return tried


def _all_likeness(rough: Array, weight: Array) -> Reals:
    reach = cv2.getOptimalDFTSize(2 * rough.shape[1])
    a = np.fft.rfft(rough, reach, axis=1)
    w = np.fft.rfft(weight, reach, axis=1)
    s = np.fft.rfft(rough * rough, reach, axis=1)
    cross = np.fft.irfft((np.abs(a) ** 2).sum(0), reach)
    first = np.fft.irfft((s * np.conj(w)).sum(0), reach)
    second = np.fft.irfft((np.conj(s) * w).sum(0), reach)
    return np.asarray(cross / np.sqrt(np.maximum(first * second, 1e-9)), np.float64)


def _settled(rough: Array, weight: Array, lag: float) -> tuple[float, float, float, float]:
    """The shift measured again with more blur, then its growth down the lace and the errors of both.

    A mesh that is not in step with the motifs draws the best shift towards a whole number of its own cells; for
    finding the repeat it must stay, for measuring it must go.
    """
    sigma = _SOFTER / SCALE
    share = np.maximum(cv2.GaussianBlur(weight, (0, 0), sigma), 0.05)
    soft, _ = _flattened(np.asarray(cv2.GaussianBlur(rough * weight, (0, 0), sigma) / share), weight)
    length, like = peak_near(soft, weight, lag, 1.2)
    if like < _ALIKE:
        length = lag
    return length, *_tilt(soft, weight, length)


def _tilt(rough: Array, weight: Array, lag: float) -> tuple[float, float, float]:
    """Relative growth of the repeat per mm down the lace, the error of that, and of the repeat itself (mm).

    A straight line through the repeats of six bands, each weighed by how much it shows and how alike it is.
    """
    seen = []
    for band in np.array_split(np.arange(rough.shape[0]), _BANDS):
        part = slice(int(band[0]), int(band[-1]) + 1)
        length, like = peak_near(rough[part], weight[part], lag, 1.2)
        if like > _ALIKE:
            power = float((rough[part] ** 2).sum()) / (1.03 - like)
            seen.append((float(band.mean()) * SCALE, length, power))
    if len(seen) < 3:
        return 0.0, 1.0, _UNSURE
    at, found, power = np.array(seen).T
    trust = power / power.mean()
    design = np.column_stack([np.ones(len(at)), at - np.average(at, weights=trust)])
    spread = np.linalg.inv(design.T @ (design * trust[:, None]))
    line = spread @ (design.T @ (trust * found))
    miss = found - design @ line
    error = float(np.sqrt((trust * miss**2).sum() / max(1, len(at) - 2) + _STEADY**2))
    sigmas = error * np.sqrt(np.diag(spread))
    return float(line[1] / lag), float(sigmas[1] / lag), float(sigmas[0])
