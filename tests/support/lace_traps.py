"""Pictures that must not be measured as a whole lace: no lace at all, or lace lying wrong."""

from __future__ import annotations

import cv2
import numpy as np

from . import lace_looks as looks
from . import lace_scans as scans
from . import lace_shapes as shapes

NOT_LACE = ("blank", "texture", "net", "ribbon", "printed page", "speckle", "photo", "stripes", "hair")
WRONG = ("folded", "folded end", "cropped edge", "cropped both", "single repeat", "under one repeat")


def trap(kind: str, seed: int, level: str = "medium") -> scans.Scan:
    rng = np.random.default_rng([seed, 991])
    if kind in NOT_LACE:
        return _not_lace(kind, rng, level)
    return _wrong(kind, seed, rng, level)


def _not_lace(kind: str, rng, level: str) -> scans.Scan:
    dpi = float(rng.choice([100, 150, 200]))
    mpp = 25.4 / dpi
    size = (int(rng.uniform(150, 290) / mpp), int(rng.uniform(120, 210) / mpp))
    look = looks.random_look(rng, level)
    alpha = _alpha(kind, size, mpp, rng)
    pixels = looks.expose(alpha, look, mpp, rng)
    if kind == "photo":
        pixels = looks.camera(_blobs(size, rng), look, rng)
    return scans.Scan(pixels, mpp, {}, f"{kind} {look.note}")


def _alpha(kind: str, size, mpp: float, rng) -> np.ndarray:
    big = (size[1] * 2, size[0] * 2)
    angle = np.radians(rng.uniform(-7, 7))
    c, s = np.cos(angle) * 2 / mpp, np.sin(angle) * 2 / mpp
    view = np.array([[c, -s, size[0]], [s, c, size[1]], [0, 0, 1]])
    pen = shapes.Pen(np.zeros(big, np.uint8), view, 2 / mpp)
    wide, tall = size[0] * mpp, size[1] * mpp
    if kind == "net":
        half = float(rng.choice([tall, rng.uniform(0.2, 0.4) * tall]))
        mesh = str(rng.choice(["hexagon", "diamond", "square", "round"]))
        shapes.draw_mesh(pen, mesh, rng.uniform(1.3, 4), rng.uniform(0.2, 0.5), (-wide, wide, half))
    elif kind == "ribbon":
        half = rng.uniform(4, 0.35 * tall)
        pen.fill(np.array([[-wide, -half], [wide, -half], [wide, half], [-wide, half]]))
        if rng.random() < 0.5:
            for y in np.arange(-half, half, 0.6):
                pen.line(np.array([[-wide, y], [wide, y]]), 0.2, int(rng.uniform(170, 240)))
        if rng.random() < 0.3:
            for side in (-1, 1):
                for x in np.arange(-wide, wide, 2.0):
                    pen.line(np.array([[x, side * half], [x + 0.6, side * (half + 0.9)], [x + 1.2, side * half]]), 0.3)
    elif kind == "printed page":
        _text(pen, wide, tall, rng)
    elif kind == "speckle":
        for _ in range(int(rng.uniform(40, 2000))):
            at = rng.uniform(-1, 1, 2) * [wide / 2, tall / 2]
            pen.line(at + np.array([[0, 0], [rng.uniform(0, 3), rng.uniform(-1, 1)]]), rng.uniform(0.2, 1.2))
    elif kind == "stripes":
        step = rng.uniform(4, 25)
        for y in np.arange(-tall, tall, step):
            pen.line(np.array([[-wide, y], [wide, y]]), step * rng.uniform(0.2, 0.6))
    elif kind == "hair":
        for _ in range(int(rng.uniform(5, 60))):
            walk = np.cumsum(rng.normal(0, 2, (60, 2)), axis=0) + rng.uniform(-1, 1, 2) * [wide / 2, tall / 2]
            pen.line(walk, 0.2)
    return cv2.resize(pen.image, size, interpolation=cv2.INTER_AREA).astype(np.float32) / 255


def _text(pen, wide: float, tall: float, rng) -> None:
    height = rng.uniform(1.6, 4.5)
    words = "the lace lies on the glass and the light runs under it so that every hole shows dark".split()  # noqa: SIM905
    flat = np.zeros_like(pen.image)
    scale = height * pen.per_mm / 22
    y = int(12 * pen.per_mm)
    while y < flat.shape[0] - 8 * pen.per_mm:
        line = " ".join(rng.choice(words, int(rng.uniform(4, 40))))
        keep = int(flat.shape[1] / (13 * scale)) - 4
        cv2.putText(
            flat,
            line[: max(keep, 1)],
            (int(10 * pen.per_mm), y),
            cv2.FONT_HERSHEY_COMPLEX,
            scale,
            255,
            max(1, int(scale * 2)),
            cv2.LINE_AA,
        )
        y += int(height * 1.9 * pen.per_mm * (2 if rng.random() < 0.1 else 1))
    turn = cv2.getRotationMatrix2D((flat.shape[1] / 2, flat.shape[0] / 2), float(rng.uniform(-7, 7)), 1)
    pen.image = cv2.warpAffine(flat, turn, flat.shape[::-1])


def _blobs(size, rng) -> np.ndarray:
    out = np.zeros((size[1], size[0], 3), np.float32)
    for scale in (4, 12, 40, 120):
        noise = rng.standard_normal((size[1] // scale + 2, size[0] // scale + 2, 3)).astype(np.float32)
        out += cv2.resize(noise, size, interpolation=cv2.INTER_CUBIC) * scale**0.5
    return 120 + out * 8


def _wrong(kind: str, seed: int, rng, level: str) -> scans.Scan:
    lace = scans.random_lace(rng, str(rng.choice(["double scallop", "double scallop", "single scallop"])))
    lace = scans.with_changes(lace, fringe=0.0)
    if kind in ("single repeat", "under one repeat"):
        lace = scans.with_changes(lace, pitches=max(2, lace.pitches)) if rng.random() < 0.5 else lace
        share = rng.uniform(1.02, 1.25) if kind == "single repeat" else rng.uniform(0.5, 0.9)
        return _short(lace, share, rng, level)
    if kind.startswith("cropped"):
        whole = scans.scan(seed, level, lace=lace, dpi=150)
        return _crop(whole, lace, rng, both=kind == "cropped both")
    return _fold(lace, rng, level, end=kind == "folded end")


def _short(lace: scans.Lace, share: float, rng, level: str) -> scans.Scan:
    mpp = 25.4 / 150
    length = share * lace.repeat
    reaches = rng.random() < 0.5
    margin = 10.0
    along = length if reaches else length + 2 * margin
    size = (int(along / mpp), int((lace.width + 2 * margin) / mpp))
    start = -lace.phase * lace.repeat
    view = scans._flat_view(start + length / 2, float(np.radians(rng.uniform(-1, 1))), mpp, size, None)
    span = (start - length, start + 2 * length) if reaches else (start, start + length)
    full, cover, inside = scans.coverage(lace, span, view, size, rng)
    return scans.finish(lace, full, cover, inside, looks.random_look(rng, level), mpp, rng, view)


def _crop(whole: scans.Scan, lace: scans.Lace, rng, *, both: bool) -> scans.Scan:
    cut = int(rng.uniform(0.05, 0.4) * lace.width / whole.mm_per_px + 20 / whole.mm_per_px)
    cut = min(cut, int(whole.pixels.shape[0] * 0.4))
    pixels = whole.pixels[cut:-cut] if both else (whole.pixels[cut:] if rng.random() < 0.5 else whole.pixels[:-cut])
    return scans.Scan(np.ascontiguousarray(pixels), whole.mm_per_px, whole.truth, whole.note, whole.to_px, lace)


def _fold(lace: scans.Lace, rng, level: str, *, end: bool) -> scans.Scan:
    mpp = 25.4 / 150
    length = float(np.clip(3 * lace.repeat, 80, 320))
    margin = 12.0
    size = (int(length / mpp), int((lace.width + 2 * margin) / mpp))
    start = -lace.phase * lace.repeat
    angle = float(np.radians(rng.uniform(-2, 2)))
    view = scans._flat_view(start + length / 2, angle, mpp, size, None)
    full, _, _ = scans.coverage(lace, (start - length, start + 2 * length), view, size, rng)
    alpha = cv2.resize(full, size, interpolation=cv2.INTER_AREA).astype(np.float32) / 255
    if end:
        at = np.array([size[0] * rng.uniform(0.2, 0.45), size[1] / 2])
        normal = np.array([np.cos(t := rng.uniform(-0.9, 0.9)), np.sin(t)])
        if rng.random() < 0.5:
            at[0], normal[0] = size[0] - at[0], -normal[0]
        normal = -normal
    else:
        share = rng.uniform(0.12, 0.4) * lace.width
        offset = lace.width / 2 - share
        sign = 1.0 if rng.random() < 0.5 else -1.0
        at = np.array([size[0] / 2, size[1] / 2 + sign * offset / mpp])
        normal = np.array([-np.sin(angle), np.cos(angle)]) * sign
    alpha = _doubled(alpha, at, normal)
    look = looks.random_look(rng, level)
    pixels = looks.expose(alpha, look, mpp, rng)
    return scans.Scan(pixels, mpp, scans.truth_of(lace, 0.5), f"folded {look.note}", view, lace)


def _doubled(alpha: np.ndarray, at: np.ndarray, normal: np.ndarray) -> np.ndarray:
    """What lies beyond the line (point, outward normal) is folded back over the rest."""
    flip = np.eye(2) - 2 * np.outer(normal, normal)
    move = at - flip @ at
    back = cv2.warpAffine(alpha, np.column_stack([flip, move]), alpha.shape[::-1])
    y, x = np.mgrid[: alpha.shape[0], : alpha.shape[1]].astype(np.float32)
    beyond = (x - at[0]) * normal[0] + (y - at[1]) * normal[1] > 0
    both = 1 - (1 - alpha) * (1 - back)
    both[beyond] = 0
    return both
