"""Paper sizes by name, in millimetres as their standards give them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from galloon.errors import BadValue


@dataclass(frozen=True)
class Paper:
    """A sheet of paper, upright: ``width`` ≤ ``height``, in mm."""

    name: str
    width: float
    height: float

    def __post_init__(self) -> None:
        if not 0.0 < self.width <= self.height:
            raise BadValue(f"paper {self.name}", "must be upright, sides more than 0 mm", (self.width, self.height))


#: ISO 216:2007, A series, trimmed sizes.
A0: Final = Paper("A0", 841.0, 1189.0)
A1: Final = Paper("A1", 594.0, 841.0)
A2: Final = Paper("A2", 420.0, 594.0)
A3: Final = Paper("A3", 297.0, 420.0)
A4: Final = Paper("A4", 210.0, 297.0)
#: ANSI/ASME Y14.1, size A: 8 1/2 × 11 in, exact at 25.4 mm an inch.
LETTER: Final = Paper("Letter", 215.9, 279.4)

_BY_NAME: Final = {paper.name.lower(): paper for paper in (A0, A1, A2, A3, A4, LETTER)}


def paper(name: str) -> Paper:
    """The paper called ``name``, in capitals or not. Raises BadValue for a name that is not known."""
    found = _BY_NAME.get(name.strip().lower())
    if found is None:
        raise BadValue("paper", f"must be one of {', '.join(_BY_NAME)}", name)
    return found
