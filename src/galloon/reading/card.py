"""Finds a bank-size card in a photograph and takes scale and perspective from it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import cv2
import numpy as np

from galloon.errors import BadInput, Fault
from galloon.reading.arrays import Array, Bytes, Reals
from galloon.reading.evidence import Ruler
from galloon.reading.straighten import apply
from galloon.said import said

#: ISO/IEC 7810 ID-1: width, height, thickness and corner radius (mm).
WIDE: Final = 85.60
TALL: Final = 53.98
THICK: Final = 0.76
ROUND: Final = 3.18
#: The card's face lies nearer the camera than the lace: scale is low by THICK over a camera height of 300 to 700 mm.
_NEARER: Final = THICK / 430
_NEARER_ERROR: Final = 0.0006
#: Longest side of the picture searched (px).
_SEARCH = 1200


@dataclass(frozen=True)
class Card:
    """A card's four corners in picture px, in turn, the first side a long one, and how well it fits, 0 to 1."""

    corners: Reals
    fit: float


def card_ruler(pixels: Bytes, name: str) -> Ruler:
    """The ruler a card gives. Raises BadInput when no card is found or it is seen too much from the side."""
    card = find_card(pixels)
    if card is None:
        says = said(
            "no bank-size card was found; lay one flat beside the lace, wholly in the picture, on a plain ground"
        )
        raise BadInput((Fault(name, None, "no card found", "", says),))
    ruler = ruler_of(card)
    if ruler.foreshortened > 0.2:
        says = said("the card is seen from the side; hold the camera level above it")
        raise BadInput((Fault(name, None, "card foreshortened", f"{ruler.foreshortened:.0%}", says),))
    return ruler


def ruler_of(card: Card) -> Ruler:
    """Scale and perspective from a card's corners."""
    face = np.array([[0, 0], [WIDE, 0], [WIDE, TALL], [0, TALL]], np.float32)
    flatten = cv2.getPerspectiveTransform(card.corners.astype(np.float32), face)
    grown = np.diag([1 + _NEARER, 1 + _NEARER, 1.0]) @ flatten
    middle = apply(np.linalg.inv(flatten), np.array([[WIDE / 2, TALL / 2]]))[0]
    short = _foreshortening(flatten, middle)
    grown = _as_seen(np.asarray(grown, np.float64), middle) @ grown
    side = float(np.hypot(*(card.corners[1] - card.corners[0])))
    error = float(np.hypot(_NEARER_ERROR, 0.25 / side)) + 0.005 * short
    return Ruler(np.asarray(grown, np.float64), middle, error, card.corners, short)


def _as_seen(flatten: Reals, at: Reals) -> Reals:
    """A turn of the table (3x3) after which the picture's x axis at ``at`` is its own, however the card lies."""
    here = apply(flatten, at + np.array([[0.0, 0.0], [1.0, 0.0]]))
    c, s = (here[1] - here[0]) / np.linalg.norm(here[1] - here[0])
    return np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]])


def _foreshortening(flatten: Reals, at: Reals) -> float:
    step = np.array([[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]])
    here = apply(np.asarray(flatten, np.float64), at + step)
    sizes = np.linalg.svd((here[1:] - here[0]).T, compute_uv=False)
    return float(1 - sizes[1] / sizes[0])


def without_card(pixels: Bytes, corners: Reals) -> Bytes:
    """The picture with the card and a rim painted over with the ground around it."""
    step = max(1.0, max(pixels.shape[:2]) / 500)
    small = cv2.resize(pixels, None, fx=1 / step, fy=1 / step, interpolation=cv2.INTER_AREA)
    middle = corners.mean(0)
    grown = middle + (corners - middle) * 1.07
    hole = np.zeros(small.shape[:2], np.uint8)
    cv2.fillConvexPoly(hole, np.round(grown / step).astype(np.int32), 1)
    keep = np.float32(1) - hole.astype(np.float32)
    sigma = 0.04 * float(np.hypot(*(corners[2] - corners[0]))) / step
    total = cv2.GaussianBlur(keep, (0, 0), sigma) + 1e-9
    near = cv2.GaussianBlur(small.astype(np.float32) * keep[..., None], (0, 0), sigma) / total[..., None]
    wide = cv2.GaussianBlur(small.astype(np.float32) * keep[..., None], (0, 0), sigma * 4)
    wide = wide / (cv2.GaussianBlur(keep, (0, 0), sigma * 4) + 1e-9)[..., None]
    trust = np.clip(total / 0.02, 0, 1)[..., None]
    patch = cv2.resize(trust * near + (1 - trust) * wide, pixels.shape[1::-1], interpolation=cv2.INTER_LINEAR)
    full = np.zeros(pixels.shape[:2], np.uint8)
    cv2.fillConvexPoly(full, np.round(grown).astype(np.int32), 1)
    out = pixels.copy()
    out[full > 0] = np.clip(patch[full > 0], 0, 255).astype(np.uint8)
    return out


def find_card(pixels: Bytes) -> Card | None:
    """The best card in an RGB picture, corners to a fraction of a pixel; None when there is none."""
    step = max(1.0, max(pixels.shape[:2]) / _SEARCH)
    small = cv2.resize(pixels, None, fx=1 / step, fy=1 / step, interpolation=cv2.INTER_AREA)
    rough = [quad * step for quad in _quads(small)]
    rough = sorted(rough, key=_shape_miss)[:12]
    grey = [np.asarray(pixels[..., k], np.float32) for k in range(3)]
    found = [card for quad in rough if (card := _refined(grey, quad)) is not None]
    return max(found, key=lambda card: card.fit, default=None)


def _quads(small: Bytes) -> list[Reals]:
    """Four-sided outlines of about the right shape, from edges and from regions of like colour."""
    area = small.shape[0] * small.shape[1]
    found: list[Reals] = []
    for mask in _masks(small):
        contours, _ = cv2.findContours(mask, cv2.RETR_LIST, cv2.CHAIN_APPROX_NONE)
        for ring in contours:
            hull = cv2.convexHull(ring)
            size = cv2.contourArea(hull)
            if not 0.004 * area < size < 0.4 * area:
                continue
            quad = _four_sided(hull, size)
            if quad is not None and _shape_miss(quad) < 0.35:
                found.append(quad)
    return _distinct(found)


def _masks(small: Bytes) -> list[Array]:
    soft = cv2.GaussianBlur(small, (0, 0), 1.5)
    masks: list[Array] = []
    for low in (15, 35, 70):
        edge = np.zeros(small.shape[:2], np.uint8)
        for k in range(3):
            edge = np.maximum(edge, cv2.Canny(np.ascontiguousarray(soft[..., k]), low, 2.5 * low))
        masks.append(cv2.morphologyEx(edge, cv2.MORPH_CLOSE, np.ones((5, 5), np.uint8)))
    lab = cv2.cvtColor(cv2.medianBlur(small, 7), cv2.COLOR_RGB2LAB).astype(np.float32)
    ground = np.median(
        np.vstack(
            [lab[:8].reshape(-1, 3), lab[-8:].reshape(-1, 3), lab[:, :8].reshape(-1, 3), lab[:, -8:].reshape(-1, 3)]
        ),
        0,
    )
    away = np.linalg.norm(lab - ground, axis=2)
    for level in (10, 22, 45):
        mask = (away > level).astype(np.uint8)
        masks.append(cv2.morphologyEx(mask, cv2.MORPH_OPEN, np.ones((11, 11), np.uint8)))
    return masks


def _four_sided(hull: Array, size: float) -> Reals | None:
    length = cv2.arcLength(hull, True)
    for share in (0.02, 0.035, 0.05, 0.07):
        quad = cv2.approxPolyDP(hull, share * length, True)
        if len(quad) == 4:
            corners = quad[:, 0, :].astype(np.float64)
            if cv2.contourArea(quad) > 0.9 * size:
                return _ordered(corners)
    return None


def _ordered(corners: Reals) -> Reals:
    sides = np.linalg.norm(np.roll(corners, -1, axis=0) - corners, axis=1)
    return corners if sides[0] + sides[2] >= sides[1] + sides[3] else np.roll(corners, -1, axis=0)


def _shape_miss(corners: Reals) -> float:
    sides = np.linalg.norm(np.roll(corners, -1, axis=0) - corners, axis=1)
    ratio = (sides[0] + sides[2]) / (sides[1] + sides[3])
    uneven = abs(np.log(sides[0] / sides[2])) + abs(np.log(sides[1] / sides[3]))
    return float(abs(np.log(ratio / (WIDE / TALL))) + 0.5 * uneven)


def _distinct(quads: list[Reals]) -> list[Reals]:
    kept: list[Reals] = []
    for quad in sorted(quads, key=_shape_miss):
        size = np.ptp(quad, axis=0).max()
        if all(
            np.abs(quad.mean(0) - k.mean(0)).max() > 0.03 * size or abs(np.ptp(k, axis=0).max() / size - 1) > 0.04
            for k in kept
        ):
            kept.append(quad)
    return kept


def _refined(grey: list[Array], quad: Reals) -> Card | None:
    """Each side as the line through its strongest steps; corners where the lines meet."""
    lines, fits = [], []
    for k in range(4):
        line, fit = _side_line(grey, quad[k], quad[(k + 1) % 4])
        lines.append(line)
        fits.append(fit)
    if min(fits) < 0.55:
        return None
    corners = np.array([_meet(lines[k - 1], lines[k]) for k in range(4)])
    corners = _ordered(corners)
    if not np.isfinite(corners).all() or _shape_miss(corners) > 0.25:
        return None
    fit = min(fits) * _roundness(grey, corners) - _shape_miss(corners)
    return Card(corners, fit) if fit > 0.25 else None


def _side_line(grey: list[Array], a: Reals, b: Reals) -> tuple[tuple[Reals, Reals], float]:
    """Point and direction of a side, and the share of samples that lie on it."""
    along = (b - a) / np.linalg.norm(b - a)
    normal = np.array([-along[1], along[0]])
    length = float(np.linalg.norm(b - a))
    reach = max(6.0, 0.035 * length)
    at = np.linspace(0.1, 0.9, 120)[:, None] * length
    offs = np.arange(-reach, reach + 0.5, 0.5)
    middle = a + at * along
    x = (middle[:, :1] + offs * normal[0]).astype(np.float32)
    y = (middle[:, 1:] + offs * normal[1]).astype(np.float32)
    power = np.zeros(x.shape, np.float32)
    for channel in grey:
        values = cv2.remap(channel, x, y, cv2.INTER_LINEAR, borderMode=cv2.BORDER_REPLICATE)
        soft = cv2.GaussianBlur(values, (0, 0), sigmaX=2.0, sigmaY=1.0)
        power += np.gradient(soft, axis=1) ** 2
    where = _sub_peak(power, offs)
    weight = np.ones_like(where)
    for _ in range(6):
        slope, level = np.polyfit(at[:, 0] - length / 2, where, 1, w=np.sqrt(weight) + 1e-6)
        miss = where - slope * (at[:, 0] - length / 2) - level
        scale = max(1.4826 * float(np.median(np.abs(miss))), 0.3)
        weight = np.clip(1 - (miss / (4 * scale)) ** 2, 0, 1) ** 2
    on = float(np.mean(np.abs(miss) < max(1.5, 0.004 * length)))
    start = a + along * length / 2 + normal * level
    return (start, along + normal * slope), on


def _sub_peak(power: Array, offs: Reals) -> Reals:
    at = np.clip(power.argmax(1), 1, power.shape[1] - 2)
    rows = np.arange(len(power))
    left, mid, right = power[rows, at - 1], power[rows, at], power[rows, at + 1]
    bend = left - 2 * mid + right
    move = np.where(bend < 0, 0.5 * (left - right) / np.minimum(bend, -1e-9), 0.0)
    return np.asarray(offs[at] + np.clip(move, -1, 1) * 0.5, np.float64)


def _meet(one: tuple[Reals, Reals], two: tuple[Reals, Reals]) -> Reals:
    matrix = np.column_stack([one[1], -two[1]])
    if abs(np.linalg.det(matrix)) < 1e-6:
        return np.full(2, np.nan)
    step = np.linalg.solve(matrix, two[0] - one[0])
    return np.asarray(one[0] + step[0] * one[1], np.float64)


def _roundness(grey: list[Array], corners: Reals) -> float:
    """1 where the very corners show ground, as rounded corners do; less where they are square."""
    middle = corners.mean(0)
    half = np.array([WIDE, TALL]) / 2
    diagonal = float(np.hypot(*half))
    hits = 0
    for corner in corners:
        ray = middle - corner
        spots = [corner + ray * share / diagonal for share in (-1.5, 0.35, 4.5)]
        outer, tip, inner = (_colour(grey, spot) for spot in spots)
        hits += bool(np.linalg.norm(tip - outer) < np.linalg.norm(tip - inner))
    return 0.5 + 0.125 * hits


def _colour(grey: list[Array], at: Reals) -> Reals:
    tall, wide = grey[0].shape
    x, y = int(np.clip(at[0], 2, wide - 3)), int(np.clip(at[1], 2, tall - 3))
    return np.array([float(channel[y - 1 : y + 2, x - 1 : x + 2].mean()) for channel in grey])
