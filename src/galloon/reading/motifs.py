"""Lifts the outlines of solid motifs from a straightened repeat, for applique."""

from __future__ import annotations

import cv2
import numpy as np

from galloon.errors import BadValue
from galloon.reading.arrays import Array, Bytes, Reals
from galloon.reading.model import LaceReading

#: Mesh threads vanish under this blur (mm); thread denser than this share is motif.
_BLUR, _DENSE = 0.45, 0.62


def motif_outlines(reading: LaceReading, *, least: float = 6.0, sag: float = 0.15) -> tuple[Reals, ...]:
    """Closed outlines (Nx2, mm, x along the lace, y up, first point not repeated), largest first.

    ``least`` is the smallest motif kept, across its longer way; ``sag`` how far the outline may be simplified.
    Motifs that cross the end of the repeat are lifted whole. Empty when the reading shows no whole repeat.
    """
    if reading.straightened is None:
        return ()
    return outlines_in(reading.straightened.thread, reading.straightened.mm_per_px, least=least, sag=sag)


def outlines_in(thread: Bytes, px: float, *, least: float = 6.0, sag: float = 0.15) -> tuple[Reals, ...]:
    """The same from the share of thread in one whole repeat (HxW uint8, 255 solid) at ``px`` mm per sample."""
    if least <= 0 or sag <= 0:
        raise BadValue("motif outlines", "least size and sag must be positive", (least, sag))
    solid = _solid(thread, px)
    twice = np.hstack([solid, solid, solid])
    contours, _ = cv2.findContours(twice, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    found = [ring for ring in contours if _kept(ring, solid.shape[1], twice.shape[1], least / px)]
    rings = [_outline(ring, solid, px, sag) for ring in sorted(found, key=cv2.contourArea, reverse=True)]
    return tuple(ring for ring in rings if len(ring) >= 3)


def _solid(thread: Array, px: float) -> Array:
    share: Array = thread.astype(np.float32) / 255
    wide = round(6 * _BLUR / px)
    padded = np.hstack([share[:, -wide:], share, share[:, :wide]]) if share.shape[1] > wide else share
    soft = cv2.GaussianBlur(padded, (0, 0), _BLUR / px)
    soft = soft[:, wide:-wide] if share.shape[1] > wide else soft
    return (soft > _DENSE).astype(np.uint8)


def _kept(ring: Array, wide: int, total: int, least: float) -> bool:
    x, _, w, h = cv2.boundingRect(ring)
    middle = x + w / 2
    return bool(max(w, h) >= least and wide <= middle < 2 * wide and x > 0 and x + w < total)


def _outline(ring: Array, solid: Array, px: float, sag: float) -> Reals:
    thin = cv2.approxPolyDP(ring, sag / px, True)[:, 0, :].astype(np.float64)
    thin[:, 0] -= solid.shape[1]
    return np.column_stack([(thin[:, 0] + 0.5) * px, (solid.shape[0] - thin[:, 1] - 0.5) * px])
