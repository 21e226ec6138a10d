"""Lays all scallops of an edge over each other and finds their peak and valley height."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from galloon.reading.arrays import Reals

#: Bin of the folded profile (mm along the edge).
_BIN = 0.2
#: A tip is fitted within this of its top: a twentieth of the pitch, within these limits (mm).
_TIP: Final = (0.8, 1.8)
#: Either side of a cusp so much is blunted by thread and blur (mm).
_BLUNT: Final = 0.28
#: Flanks that miss their points by this share of what one curve misses by or less are a cusp's; by this or more, not.
_POINTED, _ROUND = 0.5, 0.95
#: Points are held to be strays beyond so many spreads on the lace's side and outward of it.
_INNER, _OUTER = 4.5, 3.2
#: Error of a tip that too few points show (mm).
_BLIND: Final = 0.5


@dataclass(frozen=True)
class Profile:
    """Heights of the mean scallop: ``peak`` and ``valley`` above the edge's level, at phases 0 to 1.

    ``spread`` is how far single scallops lie off it, ``blank`` the longest stretch that no scallop shows (mm).
    """

    heights: Reals
    peak: float
    valley: float
    peak_at: float
    valley_at: float
    peak_error: float
    valley_error: float
    spread: float
    blank: float

    @property
    def depth(self) -> float:
        """Peak line to valley line."""
        return self.peak - self.valley


def fold(turns: Reals, heights: Reals, pitch: float, *, rough: bool = False) -> Profile:
    """Median scallop from heights above the level at ``turns`` (x over pitch, any whole part).

    ``rough`` leaves its tips where the smoothed median has them, unfitted, with an error to match.
    """
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
    place = (phase * pitch, heights, pitch) if not rough else (np.zeros(0), np.zeros(0), pitch)
    peak, peak_at, peak_error = _extreme(level, place, 1.0)
    valley, valley_at, valley_error = _extreme(level, place, -1.0)
    return Profile(level, peak, valley, peak_at, valley_at, peak_error, valley_error, typical, _blank(phase) * pitch)


def _blank(phase: Reals) -> float:
    """The longest stretch of phase, 0 to 1, without a point."""
    found = np.sort(phase)
    return float(np.diff(np.r_[found, found[0] + 1]).max())


def _extreme(level: Reals, place: tuple[Reals, Reals, float], sign: float) -> tuple[float, float, float]:
    """Height, phase and error of the highest (or lowest) point, rounded or pointed.

    The mean scallop only says where to look; the points themselves are fitted, since a steep cusp rises by more
    than its own depth is to be known within one bin. The better two flanks fit than one curve, the more a cusp is
    believed in.
    """
    x, heights, pitch = place
    smooth = np.convolve(np.r_[level[-1:], level, level[:1]] * sign, np.ones(3) / 3, "valid")
    top = (int(smooth.argmax()) + 0.5) / len(level) * pitch
    away = np.mod(x - top + pitch / 2, pitch) - pitch / 2
    reach = float(np.clip(0.05 * pitch, *_TIP))
    near = np.abs(away) <= 3 * reach
    away, up = away[near], sign * heights[near]
    curve = _rounded(away, up, reach, sign)
    flank = _flanks(away, up, reach, sign)
    if curve is None or flank is None:
        only = curve or flank or _Tip(float(smooth.max()), 0.0, _BLIND, 0.0)
        return sign * only.height, (top + only.at) / pitch % 1.0, max(only.error, 0.01)
    ratio = (flank.miss + 0.1 * flank.error) / max(curve.miss + 0.1 * curve.error, 1e-6)
    pointed = float(np.clip((_ROUND - ratio) / (_ROUND - _POINTED), 0, 1))
    share = np.array([1 - pointed, pointed])
    height, at = share @ np.array([(curve.height, curve.at), (flank.height, flank.at)])
    spread = share @ np.array([curve.error**2, flank.error**2 + 0.02**2])
    spread += pointed * (1 - pointed) * (curve.height - flank.height) ** 2
    return sign * float(height), (top + float(at)) / pitch % 1.0, max(float(np.sqrt(spread)), 0.01)


@dataclass(frozen=True)
class _Tip:
    """Height, place, error of the height, and the robust miss of the points about the fitted lines (mm)."""

    height: float
    at: float
    error: float
    miss: float


def _fit(x: Reals, y: Reals, degree: int, out: float) -> tuple[Reals, Reals, float]:
    """Polynomial through points with strays held off: coefficients, their covariance, root mean square miss.

    ``out`` is the sign of y outward of the lace. Fringe only ever lies outward, so strays there count less.
    """
    design = np.vander(x, degree + 1)
    weight, ridge = np.ones_like(y), 1e-9 * len(x) * np.eye(degree + 1)
    for _ in range(8):
        spread = np.linalg.inv(design.T @ (design * weight[:, None]) + ridge)
        coef = spread @ (design.T @ (weight * y))
        miss = y - design @ coef
        inner = np.abs(miss[miss * out <= 0])
        scale = max(1.4826 * float(np.median(inner if len(inner) > 2 else np.abs(miss))), 0.01)
        weight = np.clip(1 - (miss / (np.where(miss * out > 0, _OUTER, _INNER) * scale)) ** 2, 0.02, 1) ** 2
    rms = float(np.sqrt((weight * miss**2).sum() / max(1.0, weight.sum() - degree - 1)))
    return coef, spread * rms**2, float(np.sqrt(np.average(miss**2, weights=weight)))


def _rounded(x: Reals, y: Reals, reach: float, out: float) -> _Tip | None:
    """The vertex of a parabola through the points near the tip, or its end where the vertex lies outside."""
    part = np.abs(x) <= reach
    if part.sum() < 6:
        return None
    coef, cover, miss = _fit(x[part], y[part], 2, out)
    vertex = -coef[1] / (2 * coef[0]) if coef[0] < 0 else np.inf
    at = float(vertex) if abs(vertex) <= reach else 0.0
    powers = np.array([at * at, at, 1.0])
    return _Tip(float(powers @ coef), at, float(np.sqrt(powers @ cover @ powers)), miss)


def _flanks(x: Reals, y: Reals, reach: float, out: float) -> _Tip | None:
    """Where the two flanks beside a cusp would meet."""
    best = None
    for middle in np.linspace(-0.5, 0.5, 11):
        off = x - middle
        left = (off < -_BLUNT) & (off > -_BLUNT - 1.2 * reach)
        right = (off > _BLUNT) & (off < _BLUNT + 1.2 * reach)
        if left.sum() < 5 or right.sum() < 5:
            continue
        (a, cover_a, miss_a), (b, cover_b, miss_b) = (_fit(off[part], y[part], 2, out) for part in (left, right))
        roots = np.roots(a - b)
        roots = roots[np.isreal(roots)].real
        roots = roots[np.abs(roots) < 0.6]
        if len(roots) == 0:
            continue
        at = float(roots[np.abs(roots).argmin()])
        miss = float(np.hypot(miss_a, miss_b)) / np.sqrt(2)
        if best is None or miss < best.miss:
            best = _Tip(float(np.polyval(a, at)), at + float(middle), _meeting(at, (a, cover_a), (b, cover_b)), miss)
    return best


def _meeting(at: float, one: tuple[Reals, Reals], other: tuple[Reals, Reals]) -> float:
    """Error of the height at which two parabolas cross: each moves the crossing along the other."""
    powers = np.array([at * at, at, 1.0])
    slopes = [2 * c[0] * at + c[1] for c, _ in (one, other)]
    errors = [float(np.sqrt(max(0.0, powers @ cover @ powers))) for _, cover in (one, other)]
    gap = slopes[0] - slopes[1]
    if abs(gap) < 1e-6:
        return max(errors)
    return float(np.hypot(slopes[1] / gap * errors[0], slopes[0] / gap * errors[1]))
