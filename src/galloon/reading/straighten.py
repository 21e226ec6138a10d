"""Lays the lace level: picture, cover and valid area seen in a frame whose x runs along the lace."""

from __future__ import annotations

from dataclasses import dataclass

import cv2
import numpy as np

from galloon.reading.arrays import Array, Mask, Reals


@dataclass(frozen=True)
class Frame:
    """A straight frame: ``to_frame`` maps picture px to frame px (3x3), ``mm_per_px`` is the frame's scale."""

    to_frame: Reals
    size: tuple[int, int]
    mm_per_px: float

    @property
    def to_picture(self) -> Reals:
        """Frame px back to picture px (3x3)."""
        return np.asarray(np.linalg.inv(self.to_frame), np.float64)

    def view(self, image: Array, fill: float = 0.0) -> Array:
        """An image as seen in the frame, area-averaged where the frame is coarser."""
        scale = float(np.sqrt(abs(np.linalg.det(self.to_frame[:2, :2]))))
        source, to_frame = image, self.to_frame
        if scale < 0.6:
            step = 1 / scale
            size = (max(1, round(image.shape[1] / step)), max(1, round(image.shape[0] / step)))
            source = cv2.resize(image, size, interpolation=cv2.INTER_AREA)
            sx, sy = image.shape[1] / size[0], image.shape[0] / size[1]
            to_frame = self.to_frame @ np.array([[sx, 0, 0.5 * sx - 0.5], [0, sy, 0.5 * sy - 0.5], [0, 0, 1.0]])
        return np.asarray(
            cv2.warpPerspective(
                source, to_frame, self.size, flags=cv2.INTER_LINEAR, borderMode=cv2.BORDER_CONSTANT, borderValue=fill
            )
        )

    def valid(self, shape: tuple[int, int]) -> Mask:
        """Which frame pixels the picture (HxW) covers."""
        ring = np.array([[0, 0], [shape[1] - 1, 0], [shape[1] - 1, shape[0] - 1], [0, shape[0] - 1]], np.float64)
        inside = np.zeros(self.size[::-1], np.uint8)
        cv2.fillConvexPoly(inside, np.round(apply(self.to_frame, ring)).astype(np.int32), 1)
        return inside > 0


def apply(matrix: Reals, points: Reals) -> Reals:
    """Points (Nx2) through a projective 3x3 matrix."""
    flat = points @ matrix[:2, :2].T + matrix[:2, 2]
    depth = points @ matrix[2, :2] + matrix[2, 2]
    return np.asarray(flat / depth[:, None], np.float64)


def level_frame(flatten: Reals, angle: float, around: Reals, mm_per_px: float) -> Frame:
    """A frame that holds the points ``around`` (picture px), its x along ``angle``.

    ``flatten`` (3x3) takes picture px to millimetres on the table; ``mm_per_px`` is the wanted scale.
    """
    c, s = np.cos(np.radians(angle)), np.sin(np.radians(angle))
    turn = np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]])
    to_level = np.diag([1 / mm_per_px, 1 / mm_per_px, 1.0]) @ turn @ flatten
    placed = apply(to_level, around)
    low, high = np.floor(placed.min(0)), np.ceil(placed.max(0))
    shift = np.array([[1.0, 0.0, -low[0]], [0.0, 1.0, -low[1]], [0.0, 0.0, 1.0]])
    size = (int(high[0] - low[0]) + 1, int(high[1] - low[1]) + 1)
    return Frame(shift @ to_level, size, mm_per_px)
