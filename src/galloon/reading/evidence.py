"""Gathers, from one picture, every quantity that figures and doubts are drawn from."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from galloon.reading.arrays import Bytes, Reals
from galloon.reading.band import Band, find_band
from galloon.reading.contrast import Cover, cover_of
from galloon.reading.level import Levelled, level
from galloon.reading.motif_map import MotifMap, motif_map
from galloon.reading.openness import openness_of
from galloon.reading.repeat import Repeat, find_repeat
from galloon.reading.symmetry import Likenesses, likenesses, mean_repeat


@dataclass(frozen=True)
class Ruler:
    """How picture px become millimetres: ``flatten`` (3x3), true at ``anchor`` (px), with a relative error.

    ``corners`` are those of the card it was taken from (4x2 px), ``foreshortened`` how slanted that lies, 0 to 1.
    """

    flatten: Reals
    anchor: Reals
    error: float
    corners: Reals | None = None
    foreshortened: float = 0.0

    def mm_per_px(self) -> float:
        """Scale at the anchor."""
        x, y = self.anchor
        a = self.flatten
        depth = a[2, 0] * x + a[2, 1] * y + a[2, 2]
        top = a @ np.array([x, y, 1.0]) / depth
        jacobian = (a[:2, :2] - np.outer(top[:2], a[2, :2])) / depth
        return float(np.sqrt(abs(np.linalg.det(jacobian))))


@dataclass(frozen=True)
class Evidence:
    """One picture's worth. Later fields are None where an earlier step found nothing to go on."""

    cover: Cover
    band: Band | None
    lace: Levelled | None
    motifs: MotifMap | None
    repeat: Repeat | None
    alike: Likenesses | None
    openness: float
    ruler: Ruler


def flat_ruler(shape: tuple[int, ...], mm_per_px: float, error: float = 0.0) -> Ruler:
    """A scanner's ruler: one scale everywhere, true in the middle of the picture."""
    middle = np.array([shape[1] / 2 - 0.5, shape[0] / 2 - 0.5])
    return Ruler(np.diag([mm_per_px, mm_per_px, 1.0]), middle, error)


def gather(pixels: Bytes, ruler: Ruler) -> Evidence:
    """Run every step on an RGB picture (HxWx3 uint8)."""
    scale = ruler.mm_per_px()
    cover = cover_of(pixels, scale)
    band = find_band(cover, cover.coarse / scale)
    if band is None:
        return Evidence(cover, None, None, None, None, None, 1.0, ruler)
    lace = level(cover, band, ruler.flatten, ruler.anchor)
    if not sound(lace):
        return Evidence(cover, band, lace, None, None, None, 1.0, ruler)
    motifs = motif_map(lace)
    pitch = shared_pitch(lace)
    repeat = find_repeat(motifs, pitch)
    alike = None if repeat is None else likenesses(mean_repeat(motifs, repeat.length)[0])
    return Evidence(cover, band, lace, motifs, repeat, alike, openness_of(lace), ruler)


def sound(lace: Levelled) -> bool:
    """Whether two edges were found far enough apart to be those of one lace."""
    x = (lace.top.middle + lace.low.middle) / 2
    return (
        lace.top.base(x) + lace.low.base(x) > 4.0 and float(np.ptp(lace.top.x)) > 10 and float(np.ptp(lace.low.x)) > 10
    )


def shared_pitch(lace: Levelled) -> float | None:
    """The pitch that the pattern is counted in: that of both edges where they agree, else the first scalloped one."""
    waves = [side.wave for side in (lace.top, lace.low) if side.wave is not None]
    if not waves:
        return None
    if len(waves) == 2 and abs(waves[0].pitch / waves[1].pitch - 1) < 0.01:
        weights = [1 / max(w.pitch_error, 1e-5) ** 2 for w in waves]
        return float(np.average([w.pitch for w in waves], weights=weights))
    return waves[0].pitch
