"""How a garment looks from front and back, as cloth by cloth on a coarse grid; and how unlike two such looks are."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np
import numpy.typing as npt
import shapely

from galloon.body import Wearer
from galloon.design import FinishKind
from galloon.geometry import Points, coordinates
from galloon.ideas.figures import drafted_ring
from galloon.materials import Kind
from galloon.pieces import Garment, Piece

#: Cells across half a panel and down it.
_ACROSS: Final = 18
_DOWN: Final = 26
#: The grid reaches from the centre line over this share of the hip girth, and down over this share of the crotch
#: length: any panel lies inside.
_WIDE: Final = 0.30
_DEEP: Final = 0.55
#: What another trim at an edge counts, as a share of the whole look.
_TRIM: Final = 0.10

Cells = npt.NDArray[np.uint8]


@dataclass(frozen=True)
class Look:
    """``cells``: 0 where there is nothing, else 1 + the number of the cloth in the design; front, then back.

    ``trims`` are the edges finished with lace and the lace; ``lace`` the share of what is covered that is lace.
    """

    cells: bytes
    trims: frozenset[tuple[str, str]]
    lace: float

    @property
    def grid(self) -> Cells:
        """The cells as an array."""
        return np.frombuffer(self.cells, np.uint8)


@lru_cache(maxsize=8)
def _points(wide: float, deep: float) -> npt.NDArray[np.float64]:
    x = (np.arange(_ACROSS) + 0.5) / _ACROSS * wide
    y = -(np.arange(_DOWN) + 0.5) / _DOWN * deep
    return np.stack([grid.ravel() for grid in np.meshgrid(x, y)])


def look_of(garment: Garment) -> Look:
    """The look of a garment: what lies on top at each cell."""
    wearer: Wearer = garment.design.wearer
    x, y = _points(wearer.hip * _WIDE, wearer.crotch_length * _DEEP)
    names = list(garment.design.cloths)
    laces = {name for name, cloth in garment.design.cloths.items() if cloth.kind is Kind.LACE}
    views: dict[str, Cells] = {view: np.zeros(len(x), np.uint8) for view in ("front", "back")}
    for piece in sorted(garment.outer, key=lambda piece: bool(piece.part.laid_on)):
        if piece.part.covers == "gusset":
            continue
        for body, ring in _shown(garment, piece):
            area = shapely.polygons(coordinates(ring))
            shapely.prepare(area)
            views[body][shapely.contains_xy(area, x, y)] = 1 + names.index(piece.part.cloth)
    cells = np.concatenate(list(views.values()))
    of_lace = np.isin(cells, [1 + number for number, name in enumerate(names) if name in laces])
    return Look(cells.tobytes(), _trims(garment), float(of_lace.sum() / max(1, np.count_nonzero(cells))))


def _shown(garment: Garment, piece: Piece) -> Iterator[tuple[str, Points]]:
    """Where a piece shows; one that wraps shows as the front and the back it is made from."""
    covers = piece.part.covers
    if covers == "wrap":
        yield from ((body, drafted_ring(garment, body)) for body in ("front", "back"))
    else:
        yield "back" if covers == "back" else "front", piece.stitch


def _trims(garment: Garment) -> frozenset[tuple[str, str]]:
    finishes = garment.scene.design.finishes
    return frozenset(
        (zone, finish.trim.name)
        for zone, finish in finishes
        if finish.kind is FinishKind.LACE_TRIM and finish.trim is not None
    )


def unlike(one: Look, others: npt.NDArray[np.uint8]) -> npt.NDArray[np.float64]:
    """For each row of ``others`` (cells), the share of the cells covered in either that differ from ``one``."""
    grid = one.grid
    differ = (others != grid).sum(axis=1)
    covered = ((others > 0) | (grid > 0)).sum(axis=1)
    return np.asarray(differ / np.maximum(covered, 1))


def trims_unlike(one: Look, other: Look) -> float:
    """What different trims add to how unlike two looks are."""
    return _TRIM * len(one.trims ^ other.trims) / 2.0
