"""What a cutting plan is: every piece with its outline on the cloth, the length taken, and what is proven of it."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from galloon.cutting.outlines import Ring
from galloon.errors import BadValue
from galloon.said import said

#: Said of a plan that the clock ended the search for.
ANOTHER_RUN: Final = said("It was searched for by the clock: another run may find another plan.")


@dataclass(frozen=True)
class Placed:
    """One copy of a piece on the cloth.

    ``outline`` is the cut line in cloth coordinates (mm, anticlockwise): x along the length from 0, y across from 0.
    ``flipped``: the outline is the mirror image of the drawn one. ``turned``: given half a turn.
    ``edge``: ``"lower"`` (y = 0), ``"upper"`` or ``"inside"`` on lace; ``"fold"`` on folded cloth; otherwise ``""``.
    ``other_side``: worn with the other side of the cloth out, which makes an unflipped copy the mirrored twin.
    """

    piece: str
    copy: int
    flipped: bool
    edge: str
    turned: bool
    outline: Ring
    other_side: bool = False


@dataclass(frozen=True)
class Plan:
    """A cutting plan (mm). ``width`` is what lies flat: half the cloth when ``folded``.

    ``lower_bound``: no layout under the same rules is shorter. ``proven``: the length equals that bound, to within
    ``tolerance.CUT_STEP``, for places on ``grid`` (mm; None: places are not tied to a grid). ``use``: area of the
    pieces over the area taken. ``start``: place within the motif repeat where x = 0 lies (None: no motif binds).
    ``says`` tells the maker how the plan was found and what it assumes.
    """

    width: float
    length: float
    lower_bound: float
    proven: bool
    grid: float | None
    use: float
    placed: tuple[Placed, ...]
    start: float | None = None
    folded: bool = False
    says: str = ""

    def __post_init__(self) -> None:
        for name, value in (("plan width", self.width), ("plan length", self.length)):
            if not (math.isfinite(value) and value > 0):
                raise BadValue(name, "must be more than 0 mm", value)
        if self.lower_bound > self.length + 1e-6:
            raise BadValue("plan lower bound", "must not exceed the length", (self.lower_bound, self.length))


@dataclass(frozen=True)
class Progress:
    """How a longer search stands: seconds gone, best length so far and the bound (mm)."""

    seconds: float
    length: float
    lower_bound: float
