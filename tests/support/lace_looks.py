"""Colour, ground, light, blur, noise and compression of a synthetic scan."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np


@dataclass(frozen=True)
class Look:
    """How a cover map becomes a picture."""

    thread: np.ndarray
    ground: np.ndarray
    texture: str
    texture_size: float
    texture_depth: float
    light: float
    shadow: float
    blur: float
    noise: float
    jpeg: int | None
    sheen: float

    @property
    def note(self) -> str:
        return f"{self.texture} jpeg={self.jpeg} noise={self.noise:.0f} blur={self.blur:.2f}"


def random_look(rng, level: str) -> Look:
    least = {"easy": 110, "medium": 70, "hard": 55}[level]
    while True:
        thread, ground = _colour(rng), _colour(rng)
        if abs(thread.mean() - ground.mean()) > least:
            break
    hard = level == "hard"
    plain = rng.random() < {"easy": 0.8, "medium": 0.4, "hard": 0.3}[level]
    return Look(
        thread=thread, ground=ground,
        texture="plain" if plain else str(rng.choice(["grain", "wood", "weave", "cloth"])),
        texture_size=float(rng.uniform(0.4, 3.0)),
        texture_depth=float(rng.uniform(0.01, {"easy": 0.02, "medium": 0.05, "hard": 0.08}[level])),
        light=float(rng.uniform(0, {"easy": 0.03, "medium": 0.1, "hard": 0.35}[level])),
        shadow=float(rng.uniform(0.1, 0.3)) if hard and rng.random() < 0.5 else 0.0,
        blur=float(rng.uniform(0.0, {"easy": 0.6, "medium": 1.0, "hard": 1.8}[level])),
        noise=float(rng.uniform(0.5, {"easy": 3, "medium": 6, "hard": 10}[level])),
        jpeg={"easy": None, "medium": int(rng.choice([80, 90, 95])), "hard": 60}[level],
        sheen=float(rng.uniform(0, 0.06)),
    )  # fmt: skip


def _colour(rng) -> np.ndarray:
    base = rng.uniform(8, 248)
    return np.clip(base + rng.normal(0, 22, 3), 3, 252)


def texture(kind: str, shape: tuple[int, int], px: float, rng) -> np.ndarray:
    """Relative brightness around zero, about unit spread; ``px`` is one texture size in pixels."""
    if kind == "plain":
        return np.zeros(shape, np.float32)
    noise = rng.standard_normal(shape).astype(np.float32)
    if kind == "weave":
        y, x = np.mgrid[: shape[0], : shape[1]].astype(np.float32)
        step = max(px * 0.5, 2.2)
        return (np.sin(2 * np.pi * x / step) * np.sin(2 * np.pi * y / step) + 0.5 * noise).astype(np.float32)
    sx, sy = {"grain": (px * 0.5, px * 0.5), "wood": (px * 12, px * 0.7), "cloth": (px, px * 0.3)}[kind]
    out = cv2.GaussianBlur(noise, (0, 0), sigmaX=max(sx, 0.5), sigmaY=max(sy, 0.5))
    return out / max(float(out.std()), 1e-6)


def expose(alpha: np.ndarray, look: Look, mpp: float, rng) -> np.ndarray:
    """Compose thread over ground, then light, blur, noise and compression."""
    shape = alpha.shape
    grain = 1 + look.texture_depth * texture(look.texture, shape, look.texture_size / mpp, rng)
    sheen = 1 + look.sheen * texture("grain", shape, 0.6 / mpp, rng)
    out = np.empty((*shape, 3), np.float32)
    for k in range(3):
        out[..., k] = look.ground[k] * grain * (1 - alpha) + look.thread[k] * sheen * alpha
    out *= light_field(shape, look, rng)[..., None]
    return camera(out, look, rng)


def light_field(shape: tuple[int, int], look: Look, rng) -> np.ndarray:
    y, x = np.mgrid[: shape[0], : shape[1]].astype(np.float32)
    x, y = x / shape[1] * 2 - 1, y / shape[0] * 2 - 1
    turn = rng.uniform(0, 2 * np.pi)
    field = 1 - look.light / 2 * (1 + x * np.cos(turn) + y * np.sin(turn)) / 2 - look.light / 4 * (x * x + y * y)
    if look.shadow:
        edge = x * np.cos(turn + 1) + y * np.sin(turn + 1) - rng.uniform(-0.5, 0.5)
        field *= 1 - look.shadow / (1 + np.exp(-edge / rng.uniform(0.05, 0.2)))
    return field.astype(np.float32)


def camera(out: np.ndarray, look: Look, rng) -> np.ndarray:
    if look.blur > 0.2:
        out = cv2.GaussianBlur(out, (0, 0), look.blur)
    out = out + rng.standard_normal(out.shape).astype(np.float32) * look.noise
    pixels = np.clip(out + 0.5, 0, 255).astype(np.uint8)
    if look.jpeg is not None:
        _, data = cv2.imencode(".jpg", pixels, [cv2.IMWRITE_JPEG_QUALITY, look.jpeg])
        pixels = cv2.imdecode(data, cv2.IMREAD_COLOR)
    return pixels
