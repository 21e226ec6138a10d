"""Turns a colour picture into thread cover: 0 on the bare ground, 1 on solid thread, whatever the light."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise

import cv2
import numpy as np

from galloon.reading.arrays import Array, Bytes, Mask

#: Texture is judged in windows of this size (mm): larger than a mesh, smaller than a motif.
_WINDOW = 4.0
#: Working size of the coarse picture (mm per pixel).
_COARSE = 0.5
#: Reach of the light field inside the lace, where only holes show the ground (mm).
_NEAR = 9.0
#: So many pixels of a picture are enough to find the level of solid thread.
_ENOUGH = 3e6


@dataclass(frozen=True)
class Cover:
    """Thread cover of a picture and how it was told from the ground.

    ``cover`` is float32 HxW; ``lace`` marks textured pixels on the coarse grid of ``coarse`` mm per pixel;
    ``contrast`` is thread against ground in grey levels, ``noise`` the ground's own spread in cover units.
    """

    cover: Array
    lace: Mask
    coarse: float
    contrast: float
    noise: float
    energy_gap: float
    light_on_dark: bool


def cover_of(pixels: Bytes, mm_per_px: float) -> Cover:
    """Thread cover of an RGB picture (HxWx3 uint8) at ``mm_per_px``."""
    grey = _along_thread_axis(pixels, mm_per_px)
    step = max(1.0, _COARSE / mm_per_px)
    lace, gap = _textured(grey, mm_per_px, step)
    grey, small, flipped = _thread_up(grey, lace, step)
    ground, thread = _fields(small, lace)
    cover = _normalised(grey, ground, thread)
    full = solid_level(cover, lace, mm_per_px)
    thread = ground + (thread - ground) * full
    cover *= np.float32(1 / full)
    return Cover(
        cover=cover,
        lace=lace,
        coarse=mm_per_px * step,
        contrast=float(np.median(thread - ground)),
        noise=_ground_noise(cover, lace),
        energy_gap=gap,
        light_on_dark=not flipped,
    )


def shrink(image: Array, step: float) -> Array:
    """An area-averaged copy ``step`` times smaller."""
    size = (max(1, round(image.shape[1] / step)), max(1, round(image.shape[0] / step)))
    return np.asarray(cv2.resize(image, size, interpolation=cv2.INTER_AREA), np.float32)


def _along_thread_axis(pixels: Bytes, mm_per_px: float) -> Array:
    """One channel along the colour direction in which thread and ground differ most."""
    step = max(1.0, 0.17 / mm_per_px, float(np.sqrt(pixels.shape[0] * pixels.shape[1] / 1.5e6)))
    small = shrink(pixels, step)
    size = max(3, round(2.5 / (mm_per_px * step)))
    rough = small - cv2.blur(small, (size, size))
    energy = cv2.blur((rough**2).sum(axis=2), (size, size))
    busy = rough[energy >= np.quantile(energy[::4, ::4], 0.6)]
    _, axes = np.linalg.eigh(busy.T @ busy / max(1, len(busy)))
    axis = axes[:, -1] * np.sign(axes[:, -1].sum() or 1.0)
    red, green, blue = (np.ascontiguousarray(pixels[..., k]) for k in range(3))
    grey = cv2.addWeighted(red, float(axis[0]), green, float(axis[1]), 0.0, dtype=cv2.CV_32F)
    return np.asarray(cv2.addWeighted(grey, 1.0, blue.astype(np.float32), float(axis[2]), 0.0), np.float32)


def _textured(grey: Array, mm_per_px: float, step: float) -> tuple[Mask, float]:
    """Where the picture is busy at the scale of threads (coarse grid), and how far apart the two classes lie."""
    size = max(3, round(1.5 / mm_per_px))
    fine = grey - cv2.blur(grey, (size, size))
    energy = shrink(cv2.multiply(fine, fine), step)
    wide = max(3, round(_WINDOW / (mm_per_px * step)))
    log = np.log(cv2.blur(energy, (wide, wide)) + 0.05)
    level, gap = _otsu(log)
    return log > level, gap


def _otsu(values: Array) -> tuple[float, float]:
    """Otsu's threshold (IEEE Trans. SMC 9, 1979) on 128 bins, and the distance between the class means."""
    counts, edges = np.histogram(values, bins=128)
    middle = (edges[:-1] + edges[1:]) / 2
    below = np.cumsum(counts)
    above = below[-1] - below
    total = np.cumsum(counts * middle)
    with np.errstate(divide="ignore", invalid="ignore"):
        low, high = total / below, (total[-1] - total) / above
        between = np.nan_to_num(below * above * (high - low) ** 2)
    at = int(np.argmax(between))
    return float(edges[at + 1]), float(np.nan_to_num(high[at] - low[at]))


def joined_at_borders(busy: Bytes) -> Bytes:
    """A mask (HxW, 0 or 1) filled along opposite picture borders, from the first to the last busy pixel of each.

    A dense mesh may pass for plain ground; where it runs out of the picture no outline closes it in. Done only
    where both borders are busy for a fifth of their length, as they are when the lace runs from one to the other.
    """
    out = busy.copy()
    for view in (out, out.T):
        ends = view[:, [0, -1]]
        if min(int(np.flatnonzero(column).size) for column in ends.T) < 0.2 * len(view):
            continue
        for k in (0, -1):
            at = np.flatnonzero(view[:, k])
            view[at[0] : at[-1] + 1, k] = 1
    return out


def filled(lace: Mask, coarse: float) -> Mask:
    """The busy area with its solid motifs filled in: closed over 10 mm, holes that reach no border filled."""
    size = 2 * round(5 / coarse) + 1
    disc = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size))
    pad = size
    raw = cv2.copyMakeBorder(lace.astype(np.uint8), pad, pad, pad, pad, cv2.BORDER_REPLICATE)
    raw = joined_at_borders(cv2.morphologyEx(raw, cv2.MORPH_CLOSE, disc)[pad:-pad, pad:-pad])
    count, marks, stats, _ = cv2.connectedComponentsWithStats((raw == 0).astype(np.uint8))
    for k in range(1, count):
        x, y, w, h, _ = stats[k]
        if x > 0 and y > 0 and x + w < raw.shape[1] and y + h < raw.shape[0]:
            raw[marks == k] = 1
    return np.asarray(raw > 0)


def _thread_up(grey: Array, lace: Mask, step: float) -> tuple[Array, Array, bool]:
    """The grey picture turned so that thread is brighter than ground."""
    small = shrink(grey, step)
    if small.shape != lace.shape:
        small = cv2.resize(small, lace.shape[::-1])
    solid = filled(lace, _COARSE)
    outside = ~cv2.dilate(solid.astype(np.uint8), np.ones((9, 9), np.uint8)).astype(bool)
    if outside.sum() < 0.004 * outside.size:
        outside = ~lace
    if outside.sum() < 20 or lace.sum() < 20:
        return grey, small, False
    flipped = bool(np.median(small[lace]) < np.median(small[outside]))
    if flipped:
        return -grey, -small, True
    return grey, small, False


def _spread(values: Array, weight: Array, sigma: float) -> Array:
    """Normalised convolution: a smooth field through the weighted values.

    So smooth a field needs few points: it is reckoned on a grid of a quarter of ``sigma`` and drawn out again.
    """
    step = max(1.0, sigma / 4)
    size = values.shape[1::-1]
    small = (max(4, round(size[0] / step)), max(4, round(size[1] / step)))
    pair: Array = np.dstack([values * weight, weight]).astype(np.float32)
    if small[0] < size[0] and small[1] < size[1]:
        pair = cv2.resize(pair, small, interpolation=cv2.INTER_AREA)
    across, down = (sigma * pair.shape[k] / values.shape[k] for k in (1, 0))
    soft = cv2.GaussianBlur(pair, (0, 0), sigmaX=across, sigmaY=down)
    field = soft[..., 0] / np.maximum(soft[..., 1], 1e-9)
    return np.asarray(cv2.resize(field, size, interpolation=cv2.INTER_CUBIC), np.float32)


def _softened(image: Array, sigma: float) -> Array:
    """A wide Gaussian blur, on a coarser grid."""
    step = max(1.0, sigma / 4)
    small = shrink(image, step)
    soft = cv2.GaussianBlur(small, (0, 0), sigma / step)
    return np.asarray(cv2.resize(soft, image.shape[1::-1], interpolation=cv2.INTER_LINEAR), np.float32)


def _fields(small: Array, lace: Mask) -> tuple[Array, Array]:
    """Smooth ground and thread levels on the coarse grid."""
    solid = filled(lace, _COARSE)
    outside = ~cv2.dilate(solid.astype(np.uint8), np.ones((5, 5), np.uint8)).astype(bool)
    if outside.sum() < 0.003 * outside.size:
        outside = small <= np.quantile(small, 0.1)
    sigma = _NEAR / _COARSE
    weight = outside.astype(np.float32) + 1e-6
    ground = _spread(small, weight, sigma * 3)
    lift = np.quantile((small - ground)[solid], 0.97) if solid.any() else 1.0
    lift = max(float(lift), 1.0)
    thread = ground + lift
    for _ in range(3):
        cover = (small - ground) / np.maximum(thread - ground, 1.0)
        weight = np.where(outside, 1.0, np.where(np.abs(cover) < 0.18, 0.15, 0.0)).astype(np.float32)
        ground = _spread(small, weight + 1e-6 * outside, sigma)
        rise = small - ground
        dense = solid & (cover > 0.75)
        level = float(np.median(rise[dense])) if dense.sum() > 30 else lift
        near = _spread(rise, dense.astype(np.float32) + 1e-9, sigma * 2)
        trust = _softened(dense.astype(np.float32), sigma * 2)
        trust = trust / (trust + 0.01)
        thread = ground + np.maximum(trust * near + (1 - trust) * level, 0.3 * level)
    return ground, np.asarray(thread, np.float32)


def _normalised(grey: Array, ground: Array, thread: Array) -> Array:
    size = grey.shape[::-1]
    base = cv2.resize(ground, size, interpolation=cv2.INTER_LINEAR)
    rise = cv2.resize(np.maximum(thread - ground, 1.0), size, interpolation=cv2.INTER_LINEAR)
    np.subtract(grey, base, out=base)
    return np.asarray(np.divide(base, rise, out=base), np.float32)


def solid_level(cover: Array, lace: Mask, mm_per_px: float) -> float:
    """Cover of thread that fills a whole patch: the level of flat bright patches 0.35 mm wide."""
    cover, lace = _strips(cover, lace)
    soft = cv2.GaussianBlur(cover, (0, 0), max(0.5, 0.08 / mm_per_px))
    size = max(3, round(0.35 / mm_per_px))
    kernel = np.ones((size, size), np.uint8)
    step = max(1, round(0.2 / mm_per_px))
    low, high = (change(soft, kernel)[::step, ::step] for change in (cv2.erode, cv2.dilate))
    soft = soft[::step, ::step]
    busy = cv2.resize(lace.astype(np.uint8), soft.shape[::-1], interpolation=cv2.INTER_NEAREST) > 0
    bright = busy & (soft > 0.6)
    if bright.sum() < 50:
        return 1.0
    relief = (high - low)[bright]
    flat = relief <= np.quantile(relief, 0.25)
    return float(np.clip(np.median(soft[bright][flat]), 0.7, 1.6))


def _strips(cover: Array, lace: Mask) -> tuple[Array, Mask]:
    """Strips of a large picture, spread evenly over its height, that stand for the whole; and of the mask over it."""
    share = _ENOUGH / cover.size
    if share >= 1:
        return cover, lace
    edges = np.linspace(0, 1, 13)
    spans = [(a, a + share * (b - a)) for a, b in pairwise(edges)]

    def cut(image: Array) -> Array:
        return np.vstack([image[int(a * len(image)) : int(b * len(image))] for a, b in spans])

    return cut(cover), cut(lace)


def _ground_noise(cover: Array, lace: Mask) -> float:
    solid = cv2.dilate(filled(lace, _COARSE).astype(np.uint8), np.ones((7, 7), np.uint8))
    rows = np.linspace(0, cover.shape[0] - 1, lace.shape[0]).astype(int)
    cols = np.linspace(0, cover.shape[1] - 1, lace.shape[1]).astype(int)
    values = cover[np.ix_(rows, cols)][solid == 0]
    if len(values) < 50:
        return 0.05
    low, high = np.quantile(values, [0.16, 0.84])
    return float(high - low) / 2
