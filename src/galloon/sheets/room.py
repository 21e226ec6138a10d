"""Finds room for words and arrows inside a piece: clear of every line and of one another."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
import shapely

from galloon.geometry import Points, coordinates, length_of

#: Least room between a label and any line, mm.
_CLEAR: Final = 1.0
#: Detail of outlines that placing labels may ignore, mm.
_DETAIL: Final = 0.4
#: Spots tried across and up when a place is looked for.
_SPOTS: Final = 14
#: Shares of a line's length tried for a label along it, the middle first.
_SHARES: Final = (0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82)
#: Steps away from a line tried for its label, mm.
_STEPS: Final = (0.0, 1.0, 2.5, 4.5, 7.0)
#: Clearance that no label gains from exceeding, mm; beyond it the middle of the piece is preferred.
_ENOUGH: Final = 14.0


def boxes(centres: Points, size: tuple[float, float], turn: complex | Points) -> Any:
    """Rectangles of ``size`` (width, height) about ``centres``, their length along the unit directions ``turn``."""
    half = np.array([complex(x * size[0], y * size[1]) / 2.0 for x, y in ((-1, -1), (1, -1), (1, 1), (-1, 1))])
    corners = np.asarray(centres)[:, None] + half[None, :] * np.broadcast_to(turn, np.shape(centres))[:, None]
    return shapely.polygons(np.stack([corners.real, corners.imag], axis=-1))


def upright(direction: complex) -> complex:
    """The direction or its opposite: the one in which words read from the left, or upwards."""
    back = direction.real < -1e-6 or (abs(direction.real) <= 1e-6 and direction.imag < 0.0)
    return -direction if back else direction


def _spots_along(line: Points, reach: float) -> tuple[Points, Points]:
    """Places on a line, the likeliest first, and its direction there, both taken over ``reach`` mm to each side."""
    steps = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(line)))])
    at = np.array(_SHARES) * steps[-1]
    here, ahead, behind = (
        np.interp(at + shift, steps, line.real) + 1j * np.interp(at + shift, steps, line.imag)
        for shift in (0.0, reach, -reach)
    )
    chord = ahead - behind
    return (2.0 * here + ahead + behind) / 4.0, chord / np.abs(chord)


class Room:
    """What is still free inside some rings; each thing placed takes its share."""

    def __init__(self, *rings: Points) -> None:
        inside = [shapely.make_valid(shapely.polygons(coordinates(ring))) for ring in rings]
        inner = shapely.simplify(shapely.intersection_all(inside), _DETAIL)
        self._free = shapely.buffer(inner, -_CLEAR - _DETAIL, quad_segs=2)
        self.middle = complex(inner.centroid.x, inner.centroid.y) if not inner.is_empty else 0j

    def keep_clear(self, points: Points, gap: float = 0.5) -> None:
        """Let nothing come nearer than ``gap`` to a line."""
        line = shapely.simplify(shapely.linestrings(coordinates(points)), _DETAIL)
        self._without(shapely.buffer(line, gap + _DETAIL, quad_segs=2))

    def best(self, size: tuple[float, float], turn: complex = 1.0 + 0.0j, *, over: float = 0.0) -> complex | None:
        """The middle of the place with most clearance for a rectangle, which is taken; None where none fits.

        ``over`` mm of room are asked for above and under it besides, and left free.
        """
        if self._free.is_empty:
            return None
        left, bottom, right, top = self._free.bounds
        x, y = np.meshgrid(np.linspace(left, right, _SPOTS + 2)[1:-1], np.linspace(bottom, top, _SPOTS + 2)[1:-1])
        spots = np.append((x + 1j * y).ravel(), self.middle)
        tried = boxes(spots, (size[0], size[1] + 2.0 * over), turn)
        fits = self._covers(tried)
        if not fits.any():
            return None
        spots, tried = spots[fits], tried[fits]
        clearance = np.minimum(shapely.distance(tried, shapely.boundary(self._free)), _ENOUGH)
        best = int(np.argmax(np.round(clearance - 0.05 * np.abs(spots - self.middle), 6)))
        self._take(boxes(spots[best : best + 1], size, turn)[0])
        return complex(spots[best])

    def beside(self, line: Points, size: tuple[float, float], *, sides: tuple[int, ...] = (1,)) -> Place | None:
        """A place close along a line, on its left (1) or right (-1), which is taken; None where none fits."""
        length = length_of(line)
        if size[0] > length - 1.0:
            return None
        middles, turns = _spots_along(line, min(size[0] / 2.0, 0.2 * length))
        away = size[1] / 2.0 + _CLEAR + _DETAIL + 0.2
        shifts = np.array([side * (away + step) for step in _STEPS for side in sides])
        spots = (middles[None, :] + shifts[:, None] * (1j * turns)[None, :]).ravel()
        turns = np.tile(turns, len(shifts))
        tried = boxes(spots, size, turns)
        fits = np.flatnonzero(self._covers(tried))
        if len(fits) == 0:
            return None
        first = int(fits[0])
        self._take(tried[first])
        return complex(spots[first]), upright(complex(turns[first]))

    def _covers(self, tried: Any) -> Any:
        shapely.prepare(self._free)
        return shapely.covers(self._free, tried)

    def _take(self, box: Any) -> None:
        self._without(shapely.buffer(box, 1.5 * _CLEAR, quad_segs=1))

    def _without(self, shape: Any) -> None:
        self._free = shapely.difference(self._free, shape)


#: The middle of a label and the unit direction it is written in.
Place = tuple[complex, complex]
