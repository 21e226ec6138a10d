"""Her own lace drawn on a sheet: the picture of one repeat laid over an area again and again."""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache
from typing import Final, NamedTuple

import numpy as np

from galloon.drawing import Colour, Matrix, Path, RecordingCanvas
from galloon.drawing import Picture as Shown
from galloon.materials import Cloth, LacePicture

#: Most repeats drawn on one area; of a shorter one so many would be no picture but a grey.
_MOST: Final = 400


class Lie(NamedTuple):
    """One repeat on paper: its corner on the peak line of the edge described first, and the ways from there to the end
    of its length and of its width; mm.
    """

    corner: complex
    length: complex
    width: complex


def spans(cloth: Cloth) -> tuple[float, float]:
    """What the picture of a lace spans, mm: one repeat of its length, and all its width."""
    picture, lace = cloth.picture, cloth.lace
    motif = lace.motif if lace is not None else None
    if motif is None and picture is not None:
        motif = cloth.width * picture.columns / picture.rows
    return motif or cloth.width, cloth.width


def lay_picture(
    canvas: RecordingCanvas,
    cloth: Cloth,
    lie: Lie,
    area: Sequence[Path],
    *,
    ground: Colour,
    strength: float,
    less: int = 1,
) -> bool:
    """Draws the lace inside ``area`` (rings together, even-odd) on the layer that is set; whether it could.

    Holes show ``ground``, thread is mixed with it to ``strength``; ``less`` leaves out all but one of so many samples
    each way. A scalloped lace has one width, an allover as many as it takes.
    """
    if cloth.picture is None or not area:
        return False
    shown = _on_ground(cloth.picture, ground, strength, less)
    corners = np.array([complex(x, y) for path in area for x, y in path.corners]) - lie.corner
    turned = (lie.length.conjugate() * lie.width).imag
    along = -(lie.width.conjugate() * corners).imag / turned
    across = (lie.length.conjugate() * corners).imag / turned
    rows = range(1) if cloth.lace is not None and cloth.lace.first is not None else _whole(across)
    places = [(column, row) for row in rows for column in _whole(along)]
    if len(places) > _MOST:
        return False
    canvas.clip(tuple(area))
    for column, row in places:
        at = lie.corner + column * lie.length + row * lie.width
        canvas.image(
            shown, Matrix(lie.length.real, lie.length.imag, lie.width.real, lie.width.imag, at.real, at.imag)
        )  # fmt: skip
    canvas.clip()
    return True


def _whole(shares: np.ndarray[tuple[int], np.dtype[np.float64]]) -> range:
    return range(math.floor(float(shares.min()) + 1e-6), math.ceil(float(shares.max()) - 1e-6))


@lru_cache(maxsize=16)
def _on_ground(picture: LacePicture, ground: Colour, strength: float, less: int) -> Shown:
    """The picture without transparency."""
    samples = np.frombuffer(picture.samples, np.uint8).reshape(picture.rows, picture.columns, 4) / 255.0
    samples = np.dstack([samples[..., :3] * samples[..., 3:], samples[..., 3:]])
    if less > 1:
        rows, columns = (np.arange(0, side, less) for side in (picture.rows, picture.columns))
        samples = np.add.reduceat(np.add.reduceat(samples, rows, 0), columns, 1)
        samples /= np.outer(np.diff([*rows, picture.rows]), np.diff([*columns, picture.columns]))[..., None]
    mixed = 255.0 * strength * samples[..., :3] + np.array(ground) * (1.0 - strength * samples[..., 3:])
    return Shown.from_array(np.round(mixed).astype(np.uint8))
