"""Words on the pieces of a cutting plan: as large as fit inside, in one line or several, across or up the page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import Any, Final

import numpy as np
import shapely

from galloon.drawing import RecordingCanvas, TextStyle, text_width
from galloon.geometry import Points
from galloon.sheets.room import boxes

#: Room left between words and the outline, mm.
_CLEAR: Final = 0.5
#: Distance of lines, and how far the first stands below the top of its box, as shares of the letters' size.
_LINE: Final = 1.22
_ASCENT: Final = 0.95
#: Most lines a label is broken into.
_MOST_LINES: Final = 3
#: Sizes tried between the largest and the smallest.
_SIZES: Final = 7
#: Spots tried across and up.
_SPOTS: Final = 9


@dataclass(frozen=True)
class Label:
    """Lines of text about ``middle`` (mm on paper), ``size`` mm high; ``upright`` ones read up the page."""

    lines: tuple[str, ...]
    middle: complex
    size: float
    upright: bool

    def draw(self, canvas: RecordingCanvas, shift: tuple[float, float] = (0.0, 0.0)) -> None:
        """The lines, moved by ``shift``."""
        canvas.layer("letters")
        turn = 1j if self.upright else 1.0 + 0j
        style = TextStyle(self.size, anchor="middle")
        for number, line in enumerate(self.lines):
            down = (len(self.lines) / 2.0 - number) * _LINE - _ASCENT
            at = self.middle + turn * 1j * down * self.size + complex(*shift)
            canvas.text(line, (at.real, at.imag), style=style, angle=90.0 if self.upright else 0.0)


def place_label(words: str, ring: Sequence[tuple[float, float]], sizes: tuple[float, float]) -> Label | None:
    """The words wholly inside ``ring`` (mm on paper), as large as fit between the two ``sizes``; None where none do."""
    free = shapely.buffer(shapely.make_valid(shapely.polygons(ring)), -_CLEAR)
    if free.is_empty:
        return None
    shapely.prepare(free)
    spots = _spots(free)
    ways = [(lines, upright) for lines in _broken(words) for upright in (False, True)]
    for size in np.linspace(sizes[1], sizes[0], _SIZES):
        for lines, upright in ways:
            box = (max(text_width(line, size) for line in lines), len(lines) * _LINE * size)
            tried = boxes(spots, box, 1j if upright else 1.0 + 0j)
            fits = np.flatnonzero(shapely.covers(free, tried))
            if len(fits):
                return Label(lines, complex(spots[fits[0]]), float(size), upright)
    return None


def number_label(number: int, ring: Sequence[tuple[float, float]], size: float) -> Label:
    """A figure in the widest part of ``ring``, for a piece too narrow for its name."""
    inside = shapely.maximum_inscribed_circle(shapely.make_valid(shapely.polygons(ring)))
    x, y = shapely.get_coordinates(inside)[0]
    return Label((str(number),), complex(x, y), size, False)


def _spots(free: Any) -> Points:
    """Places to try for the middle, the middle of the shape first."""
    left, bottom, right, top = free.bounds
    x, y = np.meshgrid(np.linspace(left, right, _SPOTS + 2)[1:-1], np.linspace(bottom, top, _SPOTS + 2)[1:-1])
    middle = complex(free.centroid.x, free.centroid.y)
    grid = np.append(middle, (x + 1j * y).ravel())
    return np.asarray(grid[np.argsort(np.abs(grid - middle), kind="stable")], np.complex128)


def _broken(words: str) -> Iterator[tuple[str, ...]]:
    """The words in one line, then in every way in two, then in three."""
    parts = words.split()
    for count in range(min(_MOST_LINES, len(parts))):
        for cuts in combinations(range(1, len(parts)), count):
            ends = (0, *cuts, len(parts))
            yield tuple(" ".join(parts[a:b]) for a, b in pairwise(ends))
