"""Draws synthetic scans and photographs of laces whose true measures are known, from a seed."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import cv2
import numpy as np

from . import lace_looks as looks
from . import lace_shapes as shapes

SUPER = 3


@dataclass(frozen=True)
class Lace:
    """A lace in millimetres: x along, y across, the origin on its middle line."""

    edges: str
    width: float
    pitch: float
    depth: float
    family: str
    pitches: int
    mirror_across: bool
    second_edge: str | None
    half_turn: bool
    second_pitch: float
    second_depth: float
    second_family: str
    phase: float
    mesh: str
    cell: float
    thread: float
    cord: float
    fringe: float
    fringe_gap: float
    motif_seed: int
    motif_fill: float

    @property
    def repeat(self) -> float:
        return self.pitch * self.pitches


@dataclass(frozen=True)
class Scan:
    """A drawn picture and what is true of it."""

    pixels: np.ndarray
    mm_per_px: float
    truth: dict
    note: str = ""
    to_px: np.ndarray = field(default_factory=lambda: np.eye(3))
    lace: Lace | None = None


def random_lace(rng: np.random.Generator, edges: str | None = None) -> Lace:
    edges = edges or str(rng.choice(["double scallop"] * 6 + ["single scallop"] * 2 + ["straight"]))
    pitch = float(rng.uniform(12, 60))
    pitches = int(rng.choice([1, 1, 2, 2, 3, 4]))
    pitches = max(1, min(pitches, int(130 / pitch)))
    depth = float(np.clip(pitch * rng.uniform(0.12, 0.5), 2.5, 25))
    low = 2 * depth + 20
    width = float(rng.uniform(low, max(low + 20, 230)))
    mirror = bool(rng.random() < 0.5)
    second = str(rng.choice(["mirror", "mirror", "half step", "other", "turn"]))
    family = str(rng.choice(shapes.SYMMETRIC if mirror or rng.random() < 0.5 else shapes.ALL))
    half_turn = (mirror and second in ("mirror", "half step")) or (second == "turn" and not mirror)
    if second == "turn" and mirror:
        second, half_turn = "mirror", True
    other = second == "other"
    alike = not other or rng.random() < 0.4
    second_family = family if alike else str(rng.choice(shapes.SYMMETRIC))
    second_depth = depth if alike else float(depth * rng.choice([0.45, 0.6, 0.75]))
    ratio = 1.0 if alike or rng.random() < 0.6 else float(pitches) / float(rng.choice([pitches + 1, pitches * 2]))
    if edges != "double scallop":
        half_turn = half_turn if edges == "straight" else False
    return Lace(
        edges=edges, width=width, pitch=pitch, depth=depth, family=family, pitches=pitches,
        mirror_across=mirror, second_edge=second, half_turn=half_turn,
        second_pitch=pitch * ratio, second_depth=second_depth, second_family=second_family,
        phase=float(rng.uniform(0, 1)), mesh=str(rng.choice(["hexagon", "diamond", "square", "round", "bars"])),
        cell=float(rng.uniform(1.3, 3.5)), thread=float(rng.uniform(0.15, 0.4)), cord=float(rng.uniform(0.5, 1.3)),
        fringe=float(rng.choice([0, 0, rng.uniform(3, 12)])), fringe_gap=float(rng.uniform(0.8, 2.2)),
        motif_seed=int(rng.integers(1 << 30)), motif_fill=float(rng.choice([1.0, 1.0, 0.75])),
    )  # fmt: skip


def edge_height(lace: Lace, x: np.ndarray, *, second: bool) -> np.ndarray:
    """How far the edge stands from the middle line at x (mm)."""
    half = lace.width / 2
    if lace.edges in ("straight", "none") or (second and lace.edges == "single scallop"):
        return np.full_like(x, half)
    if not second:
        return half - lace.depth * (1 - shapes.scallop(lace.family, x / lace.pitch))
    if lace.second_edge == "mirror":
        return edge_height(lace, x, second=False)
    if lace.second_edge == "half step":
        return edge_height(lace, x - lace.repeat / 2, second=False)
    if lace.second_edge == "turn":
        return edge_height(lace, -x, second=False)
    shift = 0.0 if lace.mirror_across else 0.27
    return half - lace.second_depth * (1 - shapes.scallop(lace.second_family, x / lace.second_pitch + shift))


def outline(lace: Lace, start: float, end: float, step: float = 0.05) -> np.ndarray:
    x = np.linspace(start, end, int((end - start) / step) + 2)
    top = np.column_stack([x, edge_height(lace, x, second=False)])
    low = np.column_stack([x, -edge_height(lace, x, second=True)])
    return np.vstack([top, low[::-1]])


def _inset(ring: np.ndarray, by: float) -> np.ndarray:
    half = len(ring) // 2
    out = []
    for part, sign in ((ring[:half], -1.0), (ring[half:], 1.0)):
        run = np.gradient(part, axis=0)
        steep = np.hypot(run[:, 0], run[:, 1]) / np.maximum(np.abs(run[:, 0]), 1e-9)
        out.append(part + np.column_stack([np.zeros(half), sign * by * np.minimum(steep, 3.0)]))
    return np.vstack(out)


def motif(lace: Lace) -> list[shapes.Stroke]:
    """The strokes of one repeat with every symmetry applied."""
    mx = lace.repeat / 2 if lace.mirror_across else lace.repeat
    paired = lace.second_edge in ("mirror", "half step", "turn") and lace.edges != "single scallop"
    deep = max(lace.depth, lace.second_depth) if lace.edges != "straight" else 1.5
    top = lace.width / 2 - deep - 1.5
    rng = np.random.default_rng(lace.motif_seed)
    base = shapes.random_strokes(rng, (0.0, mx), (0.0 if paired else -top, top), lace.motif_fill)
    out = list(base)
    if lace.mirror_across:
        out += [s.mapped(-1, 1, 0) for s in out]
    if paired:
        if lace.second_edge == "mirror":
            out += [s.mapped(1, -1, 0) for s in out]
        elif lace.second_edge == "half step":
            out += [s.mapped(1, -1, lace.repeat / 2) for s in out]
        else:
            out += [s.mapped(-1, -1, 0) for s in out]
    return out


def coverage(lace: Lace, span: tuple[float, float], to_px: np.ndarray, size: tuple[int, int], rng) -> tuple:
    """Thread cover (0..255, with fringe), cover inside the outline and outline mask, all at SUPER times the size."""
    big = np.diag([SUPER, SUPER, 1.0]) @ to_px
    shape = (size[1] * SUPER, size[0] * SUPER)
    middle = np.array([(span[0] + span[1]) / 2, 0.0, 1.0])
    away = float(big[2] @ middle)
    # area scale of a projection at a point: det / w^3
    per_mm = float(np.sqrt(abs(np.linalg.det(big) / away**3)))
    pen = shapes.Pen(np.zeros(shape, np.uint8), big, per_mm)
    start, end = span
    inside = shapes.Pen(np.zeros(shape, np.uint8), big, per_mm)
    ring = outline(lace, start, end)
    # the filler paints half a pixel beyond the polygon, so the polygon is drawn half a pixel smaller
    inside.fill(_inset(ring, 0.5 / per_mm))
    shapes.draw_mesh(pen, lace.mesh, lace.cell, lace.thread, (start, end, lace.width / 2))
    strokes = motif(lace)
    first, last = int(np.floor(start / lace.repeat)) - 1, int(np.ceil(end / lace.repeat)) + 1
    for k in range(first, last + 1):
        for stroke in strokes:
            stroke.shifted(k * lace.repeat).draw(pen)
    if lace.cord > 0:
        half = len(ring) // 2
        pen.line(ring[:half], 2 * lace.cord)
        pen.line(ring[half:], 2 * lace.cord)
    cover = cv2.bitwise_and(pen.image, inside.image)
    full = cover
    if lace.fringe > 0 and lace.edges != "straight":
        pen.image = cover.copy()
        _fringe(pen, lace, span, rng)
        full = pen.image
    return full, cover, inside.image


def _fringe(pen: shapes.Pen, lace: Lace, span: tuple[float, float], rng) -> None:
    for second in (False, True):
        if second and lace.edges == "single scallop":
            continue
        sign = -1.0 if second else 1.0
        x = np.arange(span[0] + 1, span[1] - 1, lace.fringe_gap)
        x = x + rng.normal(0, lace.fringe_gap * 0.15, len(x))
        y = edge_height(lace, x, second=second) - 0.2
        long = lace.fringe * rng.uniform(0.6, 1.2, len(x))
        lean = rng.normal(0, 0.18, len(x))
        bend = rng.normal(0, 0.1, len(x))
        for a, b, n, t, c in zip(x, y, long, lean, bend, strict=True):
            s = np.linspace(0, 1, 6)
            pen.line(np.column_stack([a + n * (t * s + c * s * s), sign * (b + n * s)]), 0.16)


def truth_of(lace: Lace, openness: float) -> dict:
    double = lace.edges == "double scallop"
    second = None
    if double:
        second = lace.second_edge if lace.second_edge in ("mirror", "half step") else "other"
    scalloped = lace.edges in ("double scallop", "single scallop")
    # which of two unlike edges is the first is the reader's choice
    return {
        "edges": lace.edges, "width": lace.width, "scallop_pitch": lace.pitch if scalloped else None,
        "scallop_depth": lace.depth if scalloped else None, "repeat": lace.repeat, "openness": openness,
        "mirror_across": lace.mirror_across, "second_edge": second, "half_turn": lace.half_turn,
        "second_pitch": lace.second_pitch if double else None,
        "second_depth": (lace.second_depth if lace.second_edge == "other" else lace.depth) if double else None,
    }  # fmt: skip


def scan(seed: int, level: str = "medium", *, lace: Lace | None = None, dpi: float | None = None) -> Scan:
    """A flatbed scan: ``easy``, ``medium`` or ``hard``."""
    rng = np.random.default_rng([seed, 77])
    lace = lace or random_lace(rng)
    dpi = dpi or float(rng.choice([150, 200, 200, 240, 300]))
    hard = level == "hard"
    repeats = 2.5 if hard and rng.random() < 0.5 else float(rng.uniform(2.5, 4.5))
    length = max(repeats * lace.repeat, 60.0 if not hard else 0.0)
    length = min(length, max(320.0, 2.5 * lace.repeat))
    margin = 8 + (lace.fringe if lace.edges != "straight" else 0)
    turn = {"easy": 0.5, "medium": 3.0, "hard": 7.0}[level]
    angle = float(np.radians(rng.uniform(-turn, turn)))
    reaches = bool(rng.random() < 0.6)
    across = lace.width + abs(np.sin(angle)) * length + 2 * margin
    along = length if reaches else length * np.cos(angle) + abs(np.sin(angle)) * lace.width + 2 * margin
    along *= 1.0
    mpp = 25.4 / dpi
    if along * across / mpp**2 > 7e6:
        mpp = float(np.sqrt(along * across / 7e6))
        mpp = 25.4 / round(25.4 / mpp)
    size = (int(along / mpp), int(across / mpp))
    start = -lace.phase * lace.repeat
    span = (start - length, start + 2 * length) if reaches else (start, start + length)
    mid = start + length / 2
    view = _flat_view(mid, angle, mpp, size, rng if hard else None)
    full, cover, inside = coverage(lace, span, view, size, rng)
    look = looks.random_look(rng, level)
    return finish(lace, full, cover, inside, look, mpp, rng, view)


def _flat_view(mid: float, angle: float, mpp: float, size: tuple[int, int], rng) -> np.ndarray:
    c, s = np.cos(angle), np.sin(angle)
    turn = np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]]) @ np.array([[1, 0, -mid], [0, 1, 0], [0, 0, 1]])
    bend = np.eye(3)
    if rng is not None:
        half = np.hypot(*size) * mpp / 2
        bend[2, :2] = rng.uniform(-0.012, 0.012, 2) / half
    scale = np.array([[1 / mpp, 0, size[0] / 2], [0, 1 / mpp, size[1] / 2], [0, 0, 1]])
    return scale @ bend @ turn


def finish(lace, full, cover, inside, look, mpp, rng, view) -> Scan:
    size = (full.shape[1] // SUPER, full.shape[0] // SUPER)
    alpha = cv2.resize(full, size, interpolation=cv2.INTER_AREA).astype(np.float32) / 255
    pixels = looks.expose(alpha, look, mpp, rng)
    openness = 1 - float(cover.sum(dtype=np.int64)) / max(1.0, float(inside.sum(dtype=np.int64)))
    return Scan(pixels, mpp, truth_of(lace, openness), f"{lace.edges} {lace.family} {look.note}", view, lace)


def with_changes(lace: Lace, **changes) -> Lace:
    return replace(lace, **changes)


def plain_lace(width: float, pitch: float, depth: float, edges: str = "double scallop", **changes) -> Lace:
    """A lace with nothing odd about it, like on both edges, but for the changes."""
    start = random_lace(np.random.default_rng(12), edges)
    given = {
        "width": width, "pitch": pitch, "depth": depth, "family": "sine", "pitches": 2, "mirror_across": True,
        "second_edge": "mirror", "half_turn": True, "second_pitch": pitch, "second_depth": depth,
        "second_family": "sine", "mesh": "hexagon", "cell": 2.0, "thread": 0.3, "cord": 0.8, "fringe": 0.0,
        "motif_seed": 4, "motif_fill": 1.0,
    } | changes  # fmt: skip
    return replace(start, **given)
