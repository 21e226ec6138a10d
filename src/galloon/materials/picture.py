"""The picture of one repeat of a lace, as a value."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import cached_property
from hashlib import sha256
from typing import Final

from galloon.errors import BadValue

#: Most samples of a picture that is kept: 24 cm of lace at 5 samples a millimetre and 10 cm of repeat.
MOST_SAMPLES: Final = 600_000


@dataclass(frozen=True)
class LacePicture:
    """``rows`` × ``columns`` samples of red, green, blue and share of thread (255 solid), top row first.

    It spans one repeat and the whole width, from peak line to peak line; the edge that is described first lies along
    the lower side, and a valley of it at either end.
    """

    columns: int
    rows: int
    samples: bytes = field(repr=False)

    def __post_init__(self) -> None:
        if not (self.columns > 0 and self.rows > 0 and self.columns * self.rows <= MOST_SAMPLES):
            raise BadValue("picture", f"must have 1 to {MOST_SAMPLES} samples", (self.columns, self.rows))
        if len(self.samples) != 4 * self.columns * self.rows:
            raise BadValue("picture", "must hold four bytes a sample", len(self.samples))

    @cached_property
    def name(self) -> str:
        """32 hexadecimal digits that follow from what is seen, the same for the same picture."""
        return sha256(f"{self.columns} {self.rows} ".encode() + self.samples).hexdigest()[:32]
