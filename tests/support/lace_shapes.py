"""Scallop families, meshes and motifs for synthetic laces, in millimetres."""

from __future__ import annotations

from dataclasses import dataclass, replace

import cv2
import numpy as np

SYMMETRIC = ["sine", "arc", "cusp", "flat", "pointed", "two-lobe", "soft two-lobe", "three-lobe", "smooth"]
ALL = [*SYMMETRIC, "skewed", "skewed cusp", "uneven two-lobe", "random"]


def scallop(family: str, u: np.ndarray) -> np.ndarray:
    """Height 0 (valley) to 1 (peak) at phase u; even in u for the symmetric families."""
    grid = np.linspace(0, 1, 4001)
    raw = _raw(family, grid)
    low, high = raw.min(), raw.max()
    return (_raw(family, np.mod(u, 1.0)) - low) / (high - low)


def _raw(family: str, u: np.ndarray) -> np.ndarray:
    v = np.abs(u - 0.5) * 2  # 0 at the valley side u=.5, 1 at u=0
    w = np.minimum(u, 1 - u) * 2  # 0 at u=0 (peak), 1 at the valley
    if family == "sine":
        return np.cos(2 * np.pi * u)
    if family == "arc":
        return np.sqrt(np.clip(1 - (0.9 * w) ** 2, 0, None))
    if family == "cusp":
        return np.cos(np.pi * w / 2)
    if family == "flat":
        return np.tanh(2.2 * np.cos(2 * np.pi * u))
    if family == "pointed":
        return -np.cos(np.pi * v / 2) + 0.15 * np.cos(2 * np.pi * u)
    if family == "two-lobe":
        return np.maximum(np.cos(np.pi * (w - 0.42) / 1.2), 0.0) * (1 - 0.05 * w)
    if family == "soft two-lobe":
        return 0.8 * np.cos(2 * np.pi * u) - 0.5 * np.cos(4 * np.pi * u)
    if family == "three-lobe":
        side = np.cos(np.pi * (w - 0.62) / 0.9) * 0.85
        return np.maximum(np.cos(np.pi * w / 0.9), side)
    if family == "smooth":
        return np.cos(2 * np.pi * u) + 0.18 * np.cos(4 * np.pi * u)
    if family.startswith("notched"):
        # flat but for a notch that is so wide at half its depth, as a share of the pitch: "notched 0.05"
        return -np.exp(-np.log(2) * ((1 - w) / float(family.split()[1])) ** 2)
    if family == "skewed":
        return np.cos(2 * np.pi * u + 0.6 * np.sin(2 * np.pi * u + 0.9))
    if family == "skewed cusp":
        return np.cos(np.pi * (u**1.4 - 0.5))
    if family == "uneven two-lobe":
        first = np.sin(np.pi * np.clip(u / 0.6, 0, 1))
        return np.maximum(first, 0.75 * np.sin(np.pi * np.clip((u - 0.55) / 0.45, 0, 1)))
    return np.cos(2 * np.pi * u) + 0.25 * np.sin(4 * np.pi * u + 0.5) + 0.12 * np.sin(6 * np.pi * u + 1.9)


@dataclass
class Pen:
    """Draws millimetre shapes on a picture through a projection."""

    image: np.ndarray
    to_px: np.ndarray
    per_mm: float

    def place(self, points: np.ndarray) -> np.ndarray:
        flat = np.column_stack([points, np.ones(len(points))]) @ self.to_px.T
        px = flat[:, :2] / flat[:, 2:3] - 0.5
        return np.round(np.clip(px, -60000, 60000) * 16).astype(np.int32).reshape(-1, 1, 2)

    def line(self, points: np.ndarray, width: float, value: int = 255, *, closed: bool = False) -> None:
        thick = max(1, round(width * self.per_mm))
        cv2.polylines(self.image, [self.place(points)], closed, value, thick, cv2.LINE_AA, 4)

    def fill(self, points: np.ndarray, value: int = 255) -> None:
        cv2.fillPoly(self.image, [self.place(points)], value, cv2.LINE_8, 4)


@dataclass(frozen=True)
class Stroke:
    """One line or filled shape of a motif."""

    points: np.ndarray
    width: float
    filled: float

    def mapped(self, sx: float, sy: float, dx: float) -> Stroke:
        return replace(self, points=self.points * [sx, sy] + [dx, 0.0])

    def shifted(self, dx: float) -> Stroke:
        return replace(self, points=self.points + [dx, 0.0])

    def draw(self, pen: Pen) -> None:
        if self.filled > 0:
            if self.filled < 1:
                _hatch(pen, self.points, self.filled)
            else:
                pen.fill(self.points)
        if self.width > 0:
            pen.line(self.points, self.width, closed=self.filled > 0)


def _hatch(pen: Pen, ring: np.ndarray, share: float) -> None:
    low, high = ring.min(0), ring.max(0)
    mask = Pen(np.zeros_like(pen.image), pen.to_px, pen.per_mm)
    corner = mask.place(np.vstack([low, high, [low[0], high[1]], [high[0], low[1]]]))[:, 0] / 16
    x0, y0 = np.maximum(np.floor(corner.min(0)).astype(int) - 2, 0)
    x1, y1 = np.maximum(np.ceil(corner.max(0)).astype(int) + 3, 0)
    if x1 <= x0 or y1 <= y0 or x0 >= pen.image.shape[1] or y0 >= pen.image.shape[0]:
        return
    mask.fill(ring)
    lines = Pen(np.zeros_like(pen.image), pen.to_px, pen.per_mm)
    gap = 0.8
    for y in np.arange(low[1], high[1] + gap, gap):
        lines.line(np.array([[low[0], y], [high[0], y]]), gap * share)
    cut = np.s_[y0:y1, x0:x1]
    pen.image[cut] = np.maximum(pen.image[cut], np.minimum(mask.image[cut], lines.image[cut]))


def draw_mesh(pen: Pen, kind: str, cell: float, thread: float, box: tuple[float, float, float]) -> None:
    """A net over x from box[0] to box[1], y within ±box[2]."""
    start, end, half = box
    start, end = start - cell, end + cell
    x = np.arange(start, end, cell / 8)
    rows = np.arange(-half - cell, half + cell, cell)
    if kind == "square":
        for y in rows:
            pen.line(np.array([[start, y], [end, y]]), thread)
        for at in np.arange(start, end, cell):
            pen.line(np.array([[at, -half - 1], [at, half + 1]]), thread)
    elif kind == "bars":
        for at in np.arange(start, end, cell * 0.8):
            pen.line(np.array([[at, -half - 1], [at, half + 1]]), thread)
        for y in rows[::3]:
            pen.line(np.array([[start, y], [end, y]]), thread)
    elif kind == "diamond":
        run = 2 * half + 2 * cell
        for at in np.arange(start - run, end + run, cell * 1.2):
            pen.line(np.array([[at, -half - cell], [at + run * 0.8, half + cell]]), thread)
            pen.line(np.array([[at, half + cell], [at + run * 0.8, -half - cell]]), thread)
    elif kind == "hexagon":
        for k, y in enumerate(rows):
            wave = np.abs(np.mod(x / cell + 0.5 * (k % 2), 1) * 2 - 1) * cell * 0.5
            pen.line(np.column_stack([x, y + wave]), thread)
            for at in np.arange(start + cell * (0.5 - 0.5 * (k % 2)), end, cell):
                pen.line(np.array([[at, y - cell * 0.5], [at, y]]), thread)
    else:
        for k, y in enumerate(rows):
            wave = np.sin(2 * np.pi * (x / cell + 0.5 * (k % 2))) * cell * 0.5
            pen.line(np.column_stack([x, y + wave]), thread)


def random_strokes(rng, xs: tuple[float, float], ys: tuple[float, float], fill: float) -> list[Stroke]:
    """Flowers, leaves, dots and scrolls scattered in a box."""
    wide, tall = xs[1] - xs[0], ys[1] - ys[0]
    out: list[Stroke] = []
    count = int(np.clip(wide * tall / 350, 3, 24))
    for _ in range(count):
        at = np.array([rng.uniform(*xs), rng.uniform(*ys)])
        size = float(np.clip(rng.uniform(0.12, 0.3) * min(wide, tall), 2.0, 14.0))
        out += _one(rng, at, size, fill)
    return [s for s in out if s.points[:, 1].max() < ys[1] + 1 and s.points[:, 1].min() > -max(abs(ys[0]), ys[1]) - 1]


def _one(rng, at: np.ndarray, size: float, fill: float) -> list[Stroke]:
    kind = rng.choice(["flower", "flower", "leaf", "dots", "scroll", "ring"])
    t = np.linspace(0, 2 * np.pi, 90, endpoint=False)
    turn = rng.uniform(0, 2 * np.pi)
    cord = float(rng.uniform(0.3, 0.8))
    if kind == "flower":
        petals = int(rng.integers(4, 9))
        r = size * (0.65 + 0.35 * np.cos(petals * t))
        ring = at + np.column_stack([r * np.cos(t + turn), r * np.sin(t + turn)])
        return [Stroke(ring, cord, fill)]
    if kind == "leaf":
        s = np.linspace(0, 1, 40)
        edge = 0.3 * size * np.sin(np.pi * s)
        body = np.vstack([np.column_stack([s * 2 * size, edge]), np.column_stack([s * 2 * size, -edge])[::-1]])
        c, q = np.cos(turn), np.sin(turn)
        return [Stroke(at + body @ np.array([[c, q], [-q, c]]), cord, fill)]
    if kind == "dots":
        ring = np.column_stack([np.cos(t), np.sin(t)])
        where = at + rng.normal(0, size, (4, 2))
        return [Stroke(p + ring * float(rng.uniform(0.7, 1.6)), 0.0, 1.0) for p in where]
    if kind == "ring":
        return [Stroke(np.vstack([at + size * np.column_stack([np.cos(t), np.sin(t)]), at + [size, 0]]), cord, 0.0)]
    s = np.linspace(0, 3.5 * np.pi, 120)
    r = size * (0.15 + s / 8)
    return [Stroke(at + np.column_stack([r * np.cos(s + turn), r * np.sin(s + turn)]), cord, 0.0)]
