"""Finds where in the picture the lace lies and which way it runs, on the coarse grid."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

from galloon.reading.arrays import Array, Bytes, Mask, Reals
from galloon.reading.contrast import Cover, joined_at_borders, shrink

#: Half the texture window: the busy mask reaches this far beyond the thread (mm).
_HALO = 2.0


@dataclass(frozen=True)
class Band:
    """The lace's place: ``angle`` turns its length onto the picture's x axis (degrees), ``box`` in picture px.

    ``touches`` says which picture borders it runs into (left, right, top, bottom, as seen by the picture);
    ``evidence`` is the strength of its repeat along and across; ``share`` the part of the picture it fills.
    """

    angle: float
    outline: Reals
    mask: Mask
    touches: tuple[bool, bool, bool, bool]
    evidence: tuple[float, float]
    share: float
    pieces: int


def find_band(cover: Cover, step: float) -> Band | None:
    """The largest busy region, or None when nothing in the picture is large enough to be lace."""
    body, pieces = _body(cover.lace, cover.coarse)
    if body is None:
        return None
    touches = _touches(body)
    angle, along, across = _direction(body, touches, cover, step)
    contours, _ = cv2.findContours(body.astype(np.uint8), cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    ring = max(contours, key=cv2.contourArea)[:, 0, :].astype(np.float64)
    return Band(
        angle=angle,
        outline=(ring + 0.5) * step,
        mask=body,
        touches=touches,
        evidence=(along, across),
        share=float(body.mean()),
        pieces=pieces,
    )


def _disc(mm: float, coarse: float) -> Bytes:
    size = 2 * max(1, round(mm / coarse)) + 1
    return np.asarray(cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size)), np.uint8)


def _body(lace: Mask, coarse: float) -> tuple[Mask | None, int]:
    pad = round(14 / coarse)
    raw = cv2.copyMakeBorder(joined_at_borders(lace.astype(np.uint8)), pad, pad, pad, pad, cv2.BORDER_REPLICATE)
    raw = cv2.morphologyEx(raw, cv2.MORPH_CLOSE, _disc(5, coarse))
    raw = cv2.morphologyEx(raw, cv2.MORPH_OPEN, _disc(4, coarse))
    count, labels, stats, _ = cv2.connectedComponentsWithStats(raw)
    if count < 2:
        return None, 0
    areas = stats[1:, cv2.CC_STAT_AREA]
    best = 1 + int(np.argmax(areas))
    body = (labels == best).astype(np.uint8)
    holes, marks, sizes, _ = cv2.connectedComponentsWithStats(1 - body)
    for k in range(1, holes):
        x, y, w, h, _ = sizes[k]
        if x > 0 and y > 0 and x + w < raw.shape[1] and y + h < raw.shape[0]:
            body[marks == k] = 1
    body = cv2.erode(body, _disc(_HALO, coarse))[pad:-pad, pad:-pad]
    if body.sum() * coarse**2 < 400:
        return None, 0
    return body > 0, int((areas > 0.15 * areas.max()).sum())


def _touches(body: Mask) -> tuple[bool, bool, bool, bool]:
    tall, wide = body.shape
    left, right, top, low = (
        body[:, :3].any(1).sum(),
        body[:, -3:].any(1).sum(),
        body[:3].any(0).sum(),
        body[-3:].any(0).sum(),
    )
    rows, cols = body.any(1).sum(), body.any(0).sum()
    del tall, wide
    return (
        bool(left > 0.12 * rows), bool(right > 0.12 * rows), bool(top > 0.12 * cols), bool(low > 0.12 * cols),
    )  # fmt: skip


def _direction(
    body: Mask, touches: tuple[bool, bool, bool, bool], cover: Cover, step: float
) -> tuple[float, float, float]:
    """Angle of the lace's length, with the repeat evidence along it and across it."""
    left, right, top, low = touches
    if left and right and not (top and low):
        base = line_angle(body)
    elif top and low and not (left and right):
        base = 90.0 + line_angle(np.rot90(body, -1))
    elif any(touches):
        base = _free_angle(body) if not (left and right and top and low) else 0.0
    else:
        base = _free_angle(body)
    along = repeat_evidence(cover, body, base, step)
    across = repeat_evidence(cover, body, base + 90.0, step)
    sure = (left and right) != (top and low)
    if not sure and across > along:
        base, along, across = base + 90.0, across, along
    return (base + 90.0) % 180.0 - 90.0, along, across


def line_angle(body: Mask) -> float:
    """Slope of a band that crosses the picture from left to right, in degrees."""
    cols = np.flatnonzero(body.any(0))
    first = body.argmax(0)[cols].astype(float)
    last = (body.shape[0] - 1 - body[::-1].argmax(0))[cols].astype(float)
    free = [edge for edge in (first, last) if np.mean((edge < 2) | (edge > body.shape[0] - 3)) < 0.3]
    slopes = []
    for edge in free:
        inner = (edge >= 2) & (edge <= body.shape[0] - 3)
        if inner.sum() > 20:
            slopes.append(_robust_slope(cols[inner].astype(float), edge[inner]))
    return float(np.degrees(np.arctan(np.mean(slopes)))) if slopes else 0.0


def _robust_slope(x: Reals, y: Reals) -> float:
    weight = np.ones_like(x)
    slope, level = 0.0, float(np.median(y))
    for _ in range(8):
        slope, level = np.polyfit(x, y, 1, w=weight)
        miss = np.abs(y - slope * x - level)
        weight = 1 / np.sqrt(1 + (miss / (1.5 * np.median(miss) + 0.5)) ** 2)
    return float(slope)


def _free_angle(body: Mask) -> float:
    contours, _ = cv2.findContours(body.astype(np.uint8), cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    (_, (wide, tall), angle) = cv2.minAreaRect(max(contours, key=cv2.contourArea))
    angle = angle if wide >= tall else angle + 90.0
    return float((angle + 90.0) % 180.0 - 90.0)


def repeat_evidence(cover: Cover, body: Mask, angle: float, step: float) -> float:
    """Height of the highest repeat peak of the thread density along a direction, 0 to 1."""
    size = body.shape[::-1]
    density = cv2.resize(shrink(cover.cover, step), size)
    density = cv2.GaussianBlur(density, (0, 0), 1.2 / cover.coarse)
    soft = body.astype(np.float32)
    mean = cv2.GaussianBlur(density * soft, (0, 0), 8 / cover.coarse) / np.maximum(
        cv2.GaussianBlur(soft, (0, 0), 8 / cover.coarse), 1e-3
    )
    rough = (density - mean) * soft
    turn = _turned(rough, angle)
    weight = _turned(soft, angle)
    return _peak(turn, weight, cover.coarse)


def _turned(image: Array, angle: float) -> Array:
    side = int(np.hypot(*image.shape)) + 2
    turn = cv2.getRotationMatrix2D((image.shape[1] / 2, image.shape[0] / 2), angle, 1.0)
    turn[:, 2] += [side / 2 - image.shape[1] / 2, side / 2 - image.shape[0] / 2]
    return np.asarray(cv2.warpAffine(image, turn, (side, side)), np.float32)


def _peak(rough: Array, weight: Array, coarse: float) -> float:
    reach = cv2.getOptimalDFTSize(2 * rough.shape[1])
    spectrum = np.fft.rfft(rough, reach, axis=1)
    counts = np.fft.rfft(weight, reach, axis=1)
    auto = np.fft.irfft(np.abs(spectrum) ** 2, reach, axis=1).sum(0)
    share = np.fft.irfft(np.abs(counts) ** 2, reach, axis=1).sum(0)
    level = auto / np.maximum(share, 0.2 * share[0])
    extent = int(weight.any(0).sum())
    lo, hi = round(8 / coarse), int(extent * 0.62)
    if hi <= lo + 3 or auto[0] <= 0:
        return 0.0
    return float(level[lo:hi].max() / level[0])
