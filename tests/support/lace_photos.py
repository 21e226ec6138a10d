"""Draws photographs of a lace beside a bank-size card, seen by a camera held nearly level above them."""

from __future__ import annotations

import cv2
import numpy as np

from . import lace_looks as looks
from . import lace_scans as scans
from . import lace_shapes as shapes

#: ISO/IEC 7810 ID-1 (mm).
CARD = (85.60, 53.98, 0.76, 3.18)


def photo(
    seed: int, level: str = "medium", *, tilt: float | None = None, card: bool = True, apart: float | None = None
) -> scans.Scan:
    """A photo; ``tilt`` is the camera's slant in degrees, ``apart`` mm from the lace's edge to the card (below 0: on
    the lace).
    """
    rng = np.random.default_rng([seed, 313])
    lace = scans.random_lace(rng)
    lace = scans.with_changes(lace, width=min(lace.width, 180.0))
    length = float(np.clip(rng.uniform(2.5, 3.5) * lace.repeat, 110, 330))
    margin = 10 + lace.fringe
    gap = CARD[0] + 26  # room for the card to lie either way beside the lace, not on it
    field = np.array([length + 2 * margin + 10, lace.width + 2 * margin + gap])
    wide = 2800 if level != "hard" else 2400
    size = (wide, int(wide * field[1] / field[0] * 1.02))
    tilt = float(rng.uniform(0, {"easy": 3, "medium": 6, "hard": 10}[level])) if tilt is None else tilt
    camera = _camera(rng, field, size, tilt)
    start = -lace.phase * lace.repeat
    at = np.array([start + length / 2, gap / 2])
    turn = float(np.radians(rng.uniform(-4, 4)))
    place = _moved(at, turn)
    view = camera(0.0) @ place
    full, cover, inside = scans.coverage(lace, (start, start + length), view, size, rng)
    look = looks.random_look(rng, level)
    alpha = cv2.resize(full, size, interpolation=cv2.INTER_AREA).astype(np.float32) / 255
    near = None if apart is None else (lace.width - gap) / 2 + apart
    paint, mask = _card_picture(camera(CARD[2]), field, size, rng, look, near)
    pixels = _exposed(alpha, paint, mask if card else mask * 0, look, rng)
    openness = 1 - float(cover.sum(dtype=np.int64)) / max(1.0, float(inside.sum(dtype=np.int64)))
    return scans.Scan(pixels, 0.0, scans.truth_of(lace, openness), f"tilt {tilt:.1f} {look.note}", view, lace)


def _moved(at: np.ndarray, turn: float) -> np.ndarray:
    c, s = np.cos(turn), np.sin(turn)
    return np.array([[c, -s, 0], [s, c, 0], [0, 0, 1]]) @ np.array([[1, 0, -at[0]], [0, 1, -at[1]], [0, 0, 1]])


def _camera(rng, field: np.ndarray, size: tuple[int, int], tilt: float):
    """A pinhole camera above the table; returns the map of the plane at a height to picture px."""
    high = float(rng.uniform(350, 650)) * max(1.0, float(field.max()) / 350)
    about = float(rng.uniform(0, 2 * np.pi))
    t = np.radians(tilt)
    axis = np.array([np.cos(about), np.sin(about), 0.0])
    cross = np.array([[0, -axis[2], axis[1]], [axis[2], 0, -axis[0]], [-axis[1], axis[0], 0]])
    turn = np.eye(3) + np.sin(t) * cross + (1 - np.cos(t)) * cross @ cross
    focal = size[0] / (field[0] * (1.06 + 0.01 * tilt)) * high

    def plane(height: float) -> np.ndarray:
        # camera looks down -z from `high`; points on the plane are (x, y, height)
        to_camera = np.column_stack([turn[:, 0], turn[:, 1], turn @ np.array([0, 0, height]) + [0, 0, -high]])
        lens = np.array([[focal, 0, -size[0] / 2], [0, focal, -size[1] / 2], [0, 0, -1]])
        return lens @ to_camera * np.array([[1], [1], [1]])

    return plane


def _card_picture(view: np.ndarray, field: np.ndarray, size: tuple[int, int], rng, look, near: float | None) -> tuple:
    w, h, _, r = CARD
    c = np.linspace(0, np.pi / 2, 12)
    arc = np.column_stack([np.cos(c), np.sin(c)]) * r
    ring = []
    for k, (sx, sy) in enumerate(((1, 1), (-1, 1), (-1, -1), (1, -1))):
        turned = arc @ np.linalg.matrix_power(np.array([[0, 1], [-1, 0]]), k)
        ring.append(turned + [sx * (w / 2 - r), sy * (h / 2 - r)])
    upright = rng.random() < 0.25
    at = np.array([rng.uniform(-0.25, 0.25) * field[0], field[1] / 2 - (w if upright else h) / 2 - 8])
    if near is not None:
        at[1] = near + (w if upright else h) / 2
    place = np.linalg.inv(_moved(np.zeros(2), float(rng.uniform(-0.15, 0.15) + (np.pi / 2 if upright else 0))))
    place = np.array([[1, 0, at[0]], [0, 1, at[1]], [0, 0, 1]]) @ place
    big = np.diag([3, 3, 1.0]) @ view @ place
    pen = shapes.Pen(np.zeros((size[1] * 3, size[0] * 3), np.uint8), big, 1.0)
    outline = np.vstack(ring)
    pen.fill(outline * (1 - 0.5 / (3 * np.sqrt(abs(np.linalg.det(view[:2, :2]))) * 40)))
    mask = cv2.resize(pen.image, size, interpolation=cv2.INTER_AREA).astype(np.float32) / 255
    paint = _face(view @ place, size, rng, look)
    return paint, mask


def _face(view: np.ndarray, size: tuple[int, int], rng, look) -> np.ndarray:
    w, h, _, _ = CARD
    while True:
        base = rng.uniform(10, 245, 3)
        if np.abs(base - look.ground).max() > 60:
            break
    paint = np.empty((size[1], size[0], 3), np.float32)
    paint[:] = base
    pen = shapes.Pen(np.zeros((size[1], size[0]), np.uint8), view, 1.0)
    pen.fill(np.array([[-w / 2, h / 2 - 6], [w / 2, h / 2 - 6], [w / 2, h / 2 - 16], [-w / 2, h / 2 - 16]]))
    pen.fill(np.array([[-32, -2], [-20, -2], [-20, 7], [-32, 7]]))
    for row in (-10, -16):
        for k in range(10):
            pen.fill(np.array([[-35 + 5 * k, row], [-32 + 5 * k, row], [-32 + 5 * k, row + 3], [-35 + 5 * k, row + 3]]))
    share = pen.image.astype(np.float32)[..., None] / 255
    return paint * (1 - share) + rng.uniform(10, 245, 3).astype(np.float32) * share


def _exposed(alpha: np.ndarray, paint: np.ndarray, mask: np.ndarray, look, rng) -> np.ndarray:
    grain = 1 + look.texture_depth * looks.texture(look.texture, alpha.shape, look.texture_size * 8, rng)
    shade = cv2.GaussianBlur(np.roll(mask, (4, 4), (0, 1)), (0, 0), 4) * 0.25
    out = look.ground[None, None] * (grain * (1 - shade))[..., None] * (1 - alpha)[..., None]
    out = out + look.thread[None, None] * alpha[..., None]
    out = (out * (1 - mask[..., None]) + paint * mask[..., None]).astype(np.float32)
    out *= looks.light_field(alpha.shape, look, rng)[..., None]
    return looks.camera(out, look, rng)
