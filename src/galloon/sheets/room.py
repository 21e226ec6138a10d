"""Finds room for words and arrows inside a piece: clear of every line and of one another."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
import shapely

from galloon.geometry import Points, coordinates, length_of, point_along

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

    def best(self, size: tuple[float, float], turn: complex = 1.0 + 0.0j) -> complex | None:
        """The middle of the place with most clearance for a rectangle, which is taken; None where none fits."""
        if self._free.is_empty:
            return None
        left, bottom, right, top = self._free.bounds
        x, y = np.meshgrid(np.linspace(left, right, _SPOTS + 2)[1:-1], np.linspace(bottom, top, _SPOTS + 2)[1:-1])
        spots = np.append((x + 1j * y).ravel(), self.middle)
        tried = boxes(spots, size, turn)
        fits = self._covers(tried)
        if not fits.any():
            return None
        spots, tried = spots[fits], tried[fits]
        clearance = np.minimum(shapely.distance(tried, shapely.boundary(self._free)), _ENOUGH)
        best = int(np.argmax(np.round(clearance - 0.05 * np.abs(spots - self.middle), 6)))
        self._take(tried[best])
        return complex(spots[best])

    def beside(self, line: Points, size: tuple[float, float], *, sides: tuple[int, ...] = (1,)) -> Place | None:
        """A place close along a line, on its left (1) or right (-1), which is taken: middle and direction; None where none fits."""
        length = length_of(line)
        if size[0] > 0.96 * length and size[0] > length - 2.0:
            return None
        reach = min(size[0] / 2.0, 0.2 * length)
        spots, turns = [], []
        for step in _STEPS:
            for side in sides:
                for share in _SHARES:
                    ahead = point_along(line, share * length + reach) - point_along(line, share * length - reach)
                    turn = ahead / abs(ahead)
                    middle = (point_along(line, share * length) + point_along(line, share * length - reach)) / 2.0
                    middle = (middle + point_along(line, share * length + reach)) / 2.0
                    spots.append(middle + side * 1j * turn * (size[1] / 2.0 + _CLEAR + _DETAIL + 0.2 + step))
                    turns.append(turn)
        tried = boxes(np.array(spots), size, np.array(turns))
        fits = np.flatnonzero(self._covers(tried))
        if len(fits) == 0:
            return None
        first = int(fits[0])
        self._take(tried[first])
        return spots[first], upright(turns[first])

    def _covers(self, tried: Any) -> Any:
        shapely.prepare(self._free)
        return shapely.covers(self._free, tried)

    def _take(self, box: Any) -> None:
        self._without(shapely.buffer(box, _CLEAR, quad_segs=1))

    def _without(self, shape: Any) -> None:
        self._free = shapely.difference(self._free, shape)


#: The middle of a label and the unit direction it is written in.
Place = tuple[complex, complex]
