"""Where a garment laid flat folds at its sides, and where its side seams lie there."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final, Literal

import numpy as np
import shapely
from numpy.typing import NDArray

from galloon.geometry import Points
from galloon.pieces import Garment

View = Literal["front", "back"]
Array = NDArray[np.float64]
#: A placing of points: arrays of x and y to where they come to.
Place = Callable[[Array, Array], tuple[Array, Array]]

#: Panels whose widths differ by less than this share of both are eased so that the seam lies at the fold.
_EASED: Final = 0.1
_FAR: Final = 1e5


@dataclass(frozen=True, eq=False)
class Sides:
    """At some levels (upwards), distances from the centre line in mm.

    ``centres`` and ``own``: each panel's centre and side on the pattern; ``seam``: the side seam when worn; ``fold``:
    where the flat garment folds. ``wraps`` where a panel passes that fold.
    """

    levels: Array
    centres: dict[View, Array]
    own: dict[View, Array]
    seam: Array
    fold: Array
    wraps: bool

    def ease(self, view: View) -> Place:
        """Stretches or shrinks a panel across so that its centre comes to the centre line and its side to the seam."""
        wanted = self.seam if view == "front" else 2.0 * self.fold - self.seam
        centre = self.centres[view]
        factor = wanted / (self.own[view] - centre)

        def place(x: Array, y: Array) -> tuple[Array, Array]:
            return (x - np.interp(y, self.levels, centre)) * np.interp(y, self.levels, factor), y

        return place

    def within(self) -> Any:
        """The half plane up to the fold."""
        x = np.concatenate([[-_FAR], self.fold[[0]], self.fold, self.fold[[-1]], [-_FAR]]) + 1e-6
        y = np.concatenate([[-_FAR, -_FAR], self.levels, [_FAR, _FAR]])
        return shapely.polygons(np.column_stack([x, y]))

    def turn_over(self, x: Array, y: Array) -> tuple[Array, Array]:
        """Where what passes the fold comes to on the other side."""
        return 2.0 * np.interp(y, self.levels, self.fold) - x, y


def sides_of(garment: Garment) -> Sides:
    """The sides of a garment with side seams, or of one that wraps round the body in one piece."""
    whole = [piece for piece in garment.outer if piece.part.covers == "wrap" and not piece.part.laid_on]
    if whole:
        levels, across = _upwards(whole[0].edge_points("centre back"))
        none = np.zeros_like(across)
        own: dict[View, Array] = {"front": across / 2.0, "back": across / 2.0}
        return Sides(levels, {"front": none, "back": none}, own, across / 2.0, across / 2.0, True)
    sides = {view: _with_gap(garment, view, _profile(garment, view, "side")) for view in _VIEWS}
    centres = {view: _profile(garment, view, "centre") for view in _VIEWS}
    levels = np.unique(np.concatenate([profile[0] for profile in (*sides.values(), *centres.values())]))
    own = {view: np.interp(levels, *sides[view]) for view in _VIEWS}
    middle = {view: np.interp(levels, *centres[view]) for view in _VIEWS}
    front, back = (own[view] - middle[view] for view in _VIEWS)
    fold = (front + back) / 2.0
    wraps = float(np.mean(np.abs(front - back)) / np.mean(fold)) > 2.0 * _EASED
    return Sides(levels, middle, own, front if wraps else fold, fold, wraps)


_VIEWS: Final[tuple[View, View]] = ("front", "back")


def _profile(garment: Garment, view: View, of: Literal["side", "centre"]) -> tuple[Array, Array]:
    """Levels upwards, and how far from the pattern's centre line the edges called side or centre lie there."""
    pieces = garment.covering(view)
    edges = [piece.edge_points(edge.name) for piece in pieces for edge in piece.edges if of in edge.name]
    if edges:
        return _upwards(np.concatenate(edges))
    widest = max((float(piece.stitch.real.max()) for piece in pieces), default=1.0)
    return np.array([0.0]), np.array([widest if of == "side" else 0.0])


def _with_gap(garment: Garment, view: View, side: tuple[Array, Array]) -> tuple[Array, Array]:
    """The side's line, carried out over what an open side leaves bare: to where front and back would have met."""
    if garment.design.open_side is None:
        return side
    levels, _ = side
    return levels, np.array([garment.draft.laid.side_x(view, -float(level)) for level in levels])


def _upwards(points: Points) -> tuple[Array, Array]:
    points = points[np.argsort(points.imag, kind="stable")]
    return points.imag, points.real
