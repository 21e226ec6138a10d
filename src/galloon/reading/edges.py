"""The two edges of a levelled lace: traced coarsely, fitted, then placed to a fraction of a pixel."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from galloon.reading.arrays import Array, Mask, Reals
from galloon.reading.profile import Profile, fold
from galloon.reading.refine import half_cover
from galloon.reading.straighten import Frame, apply
from galloon.reading.trace import along_lines, outer_path
from galloon.reading.wave import Wave, best_wave, fit_wave

#: Shallower than this is a straight edge with a rough thread, not a scallop (mm).
LEAST_DEPTH = 1.2
#: Columns this near a cut end or the picture border are left out (mm).
_END = 2.0
#: An edge that leaves the picture at its ends only is read from the rest when that is at least this share.
_MOSTLY = 0.65


@dataclass(frozen=True)
class Side:
    """One edge in frame millimetres: x along, y outward from the frame's middle row.

    ``wave`` is None for a straight edge, whose line is then ``level`` and ``slope`` about ``middle``.
    ``cropped`` is the share of its columns that run out of the picture, ``strength`` of thread 0 to 1.
    """

    x: Reals
    y: Reals
    wave: Wave | None
    profile: Profile | None
    middle: float
    level: float
    slope: float
    level_error: float
    slope_error: float
    miss: float
    cropped: float
    strength: float
    seen: float

    @property
    def scalloped(self) -> bool:
        """Whether the edge swings enough to be a scallop."""
        return self.wave is not None

    def base(self, x: float) -> float:
        """The line the edge swings about, at x."""
        return self.level + self.slope * (x - self.middle)

    @property
    def peak(self) -> float:
        """Peak line above the level."""
        return self.profile.peak if self.profile else 0.0


def coarse_sides(cover: Array, valid: Mask, body: Mask, mm_per_px: float) -> tuple[Side, Side]:
    """Top and bottom edge from a coarse frame (cover, valid picture area, lace body: all HxW)."""
    lines = along_lines(cover, mm_per_px)
    tall = cover.shape[0]
    part = min(tall, int(0.5 * tall + 8 / mm_per_px))
    sides = []
    for flip in (False, True):
        # upside down, a line leaning one way leans the other, so the layers of ``lines`` turn round too
        turn = slice(None, None, -1) if flip else slice(None)
        path = outer_path(lines[turn, turn][:, :part], valid[turn][:part], mm_per_px)
        sides.append(_coarse_side(path.rows, path.strength, valid[turn], body[turn], mm_per_px))
    return sides[0], sides[1]


def _coarse_side(rows: Reals, strength: Reals, valid: Mask, body: Mask, mm_per_px: float) -> Side:
    tall, wide = valid.shape
    cols = np.arange(wide)
    lace = _lace_columns(body, mm_per_px)
    first_valid = valid.argmax(0)
    margin = 1.0 / mm_per_px
    free = rows > first_valid + margin
    lace = _clear_of_crop(lace, free)
    cropped = 1 - free[lace].mean() if lace.any() else 1.0
    use = lace & free
    x = (cols[use] + 0.5) * mm_per_px
    y = (tall / 2 - rows[use] - 0.5) * mm_per_px
    if use.sum() < 40:
        x, y = (cols + 0.5) * mm_per_px, (tall / 2 - rows - 0.5) * mm_per_px
        return _straight(x, y, 1.0, 0.0, 0.0)
    mean_strength = float(strength[use].mean())
    wave = best_wave(x, y)
    if wave is not None and not _is_scallop(wave, y):
        wave = None
    line = _straight(x, y, float(cropped), mean_strength, 1.0)
    if wave is None:
        return line
    return _with_wave(line, wave, rough=True)


def _is_scallop(wave: Wave, y: Reals) -> bool:
    return wave.height >= LEAST_DEPTH and wave.height > 2.2 * wave.miss


def _clear_of_crop(lace: Mask, free: Mask) -> Mask:
    """The lace columns without the ends where the edge leaves the picture, if most of it stays inside."""
    at = np.flatnonzero(lace)
    if len(at) == 0 or free[at].all():
        return lace
    middle = (at[0] + at[-1]) / 2
    cut = at[~free[at]]
    left = max((int(c) + 1 for c in cut if c < middle), default=int(at[0]))
    right = min((int(c) for c in cut if c >= middle), default=int(at[-1]) + 1)
    if right - left < _MOSTLY * len(at):
        return lace
    cols = np.arange(len(lace))
    return np.asarray(lace & (cols >= left) & (cols < right))


def _lace_columns(body: Mask, mm_per_px: float) -> Mask:
    """Columns where the lace stands in the frame, clear of its cut ends."""
    counts = body.sum(0)
    full = counts > 0.6 * np.median(counts[counts > 0]) if counts.any() else counts > 0
    at = np.flatnonzero(full)
    if len(at):  # between its ends the lace is all there, however narrow its valleys make it
        full[at[0] : at[-1] + 1] = counts[at[0] : at[-1] + 1] > 0
    end = max(1, round(_END / mm_per_px))
    grown = np.convolve((~full).astype(int), np.ones(2 * end + 1, int), "same") > 0
    grown[:end], grown[-end:] = True, True
    return np.asarray(~grown)


def _straight(x: Reals, y: Reals, cropped: float, strength: float, seen: float) -> Side:
    middle = float((x.min() + x.max()) / 2)
    t = x - middle
    weight = np.ones_like(y)
    slope, level, scale = 0.0, float(np.median(y)), 1.0
    for _ in range(8):
        slope, level = np.polyfit(t, y, 1, w=np.sqrt(weight) + 1e-6)
        miss = y - slope * t - level
        scale = max(1.4826 * float(np.median(np.abs(miss))), 0.02)
        weight = np.clip(1 - (miss / (4 * scale)) ** 2, 0, 1) ** 2
    count = max(4.0, float(np.ptp(x)) / 2)
    return Side(
        x=x, y=y, wave=None, profile=None, middle=middle, level=float(level), slope=float(slope),
        level_error=scale / np.sqrt(count), slope_error=scale * 3.5 / np.sqrt(count) / max(1.0, float(np.ptp(x))),
        miss=scale, cropped=cropped, strength=strength, seen=seen,
    )  # fmt: skip


def _with_wave(side: Side, wave: Wave, *, rough: bool = False) -> Side:
    inflate = _run_length(side, wave)
    wave = replace(
        wave,
        pitch_error=wave.pitch_error * inflate,
        slope_error=wave.slope_error * inflate,
        level_error=wave.level_error * inflate,
    )
    turns = (side.x - wave.middle) / wave.pitch
    profile = fold(turns, side.y - wave.base(side.x), wave.pitch, rough=rough)
    return replace(
        side, wave=wave, profile=profile, middle=wave.middle, level=wave.level, slope=wave.slope,
        level_error=wave.level_error, slope_error=wave.slope_error, miss=wave.miss,
    )  # fmt: skip


def _run_length(side: Side, wave: Wave) -> float:
    """How much neighbouring misses go together: the factor by which errors exceed those of white noise."""
    miss = side.y - wave.at(side.x)
    miss = np.clip(miss, -4 * wave.miss, 4 * wave.miss)
    miss = miss - miss.mean()
    power = float(miss @ miss) or 1.0
    total = 1.0
    for lag in (1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 48, 64):
        if lag >= len(miss):
            break
        rho = float(miss[lag:] @ miss[:-lag]) / power
        if rho < 0.05:
            break
        total += 2 * rho * (lag if lag < 4 else lag / 3)
    return float(np.sqrt(total))


def fine_side(cover: Array, coarse: Side, expected: Reals, mm_per_px: float, *, flip: bool) -> Side:
    """The same edge from the full-size levelled cover; ``expected`` gives its row per column, NaN where none."""
    turn = cover[::-1] if flip else cover
    tall = cover.shape[0]
    rows = tall - 1 - expected if flip else expected
    use = np.isfinite(rows)
    cols = np.flatnonzero(use)
    found = half_cover(turn, cols, rows[cols], mm_per_px)
    good = np.isfinite(found)
    x = (cols[good] + 0.5) * mm_per_px
    y = (tall / 2 - found[good] - 0.5) * mm_per_px
    seen = float(good.mean()) if len(good) else 0.0
    if good.sum() < 60:
        return replace(coarse, seen=0.0)
    line = _straight(x, y, coarse.cropped, coarse.strength, seen)
    if coarse.wave is None:
        return line
    return _with_wave(line, fit_wave(x, y, coarse.wave.pitch))


def expected_rows(side: Side, coarse: Frame, fine: Frame, *, flip: bool) -> Reals:
    """Where a coarse side should lie in a finer frame, row per column; NaN outside it."""
    x, y = side.x, side.y.copy()
    if side.wave is not None:
        model = side.wave.at(x)
        y = np.clip(y, model - 0.8, model + 0.8)
    else:
        line = side.level + side.slope * (x - side.middle)
        y = np.clip(y, line - 0.8, line + 0.8)
    up = coarse.size[1] / 2 - y / coarse.mm_per_px - 0.5
    rows = coarse.size[1] - 1 - up if flip else up
    points = np.column_stack([x / coarse.mm_per_px - 0.5, rows])
    there = apply(fine.to_frame @ coarse.to_picture, points)
    cols = np.arange(fine.size[0], dtype=np.float64)
    out = np.interp(cols, there[:, 0], there[:, 1], left=np.nan, right=np.nan)
    gap = np.interp(cols, there[:, 0], np.r_[np.diff(there[:, 0]), 0.0], left=0, right=0)
    return np.where(gap > 12 * coarse.mm_per_px / fine.mm_per_px, np.nan, out)
