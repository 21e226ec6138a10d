"""A raster picture as a frozen value: RGB samples, top row first."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Final

from galloon.errors import BadValue

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

#: A printed page at 300 dpi holds 8.7 million samples; more than this serves no eye and fills memory.
MOST_SAMPLES: Final = 40_000_000


@dataclass(frozen=True)
class Picture:
    """``rows`` × ``columns`` samples of red, green, blue; ``opacity`` above 0 to 1."""

    columns: int
    rows: int
    samples: bytes = field(repr=False)
    opacity: float = 1.0

    def __post_init__(self) -> None:
        if not (self.columns > 0 and self.rows > 0 and self.columns * self.rows <= MOST_SAMPLES):
            raise BadValue("picture", f"must have 1 to {MOST_SAMPLES} samples", (self.columns, self.rows))
        if len(self.samples) != 3 * self.columns * self.rows:
            raise BadValue("picture", "must hold three bytes a sample", len(self.samples))
        if not 0.0 < self.opacity <= 1.0:
            raise BadValue("picture opacity", "must be above 0 and at most 1", self.opacity)

    @staticmethod
    def from_array(array: NDArray[np.uint8], opacity: float = 1.0) -> Picture:
        """From an array of shape (rows, columns, 3), 8-bit RGB, top row first."""
        if array.ndim != 3 or array.shape[2] != 3 or array.dtype.name != "uint8":
            raise BadValue("picture", "must be an 8-bit array of shape (rows, columns, 3)", array.shape)
        return Picture(int(array.shape[1]), int(array.shape[0]), array.tobytes(), opacity)
