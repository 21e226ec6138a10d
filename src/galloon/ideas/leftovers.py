"""Which pieces of a garment can be cut from the leftovers on the shelf."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from galloon.cutting import ClothPiece, Remnant, RemnantRules, plan_remnant
from galloon.design import CuttingWishes
from galloon.errors import CannotMake
from galloon.geometry import ring_area
from galloon.pieces import Garment, Piece, ring_of
from galloon.workflow.cutting_orders import StripOrder, order_of

#: Fixed work of one search, so that the same pieces always get the same answer.
_RULES: Final = RemnantRules(moves=1500)


@dataclass(frozen=True)
class Leftover:
    """A leftover by its name, of which cloth, and its outline as the cloth lay."""

    name: str
    cloth: str
    remnant: Remnant

    @property
    def area(self) -> float:
        """The cloth there is, mm²."""
        return float(self.remnant.shape.area)


@dataclass(frozen=True)
class FromLeftover:
    """Pieces that were found to fit on one leftover, by exact check, and their area with all copies (mm²)."""

    leftover: str
    cloth: str
    pieces: tuple[str, ...]
    area: float


def at_most(garment: Garment, leftovers: Sequence[Leftover]) -> dict[str, float]:
    """By cloth, the area (mm²) that could come from leftovers at the very most: what is left, and what is cut."""
    found: dict[str, float] = {}
    for cloth, pieces in _on_width(garment, leftovers):
        largest = max(one.area for one in leftovers if one.cloth == cloth)
        room = sum(one.area for one in leftovers if one.cloth == cloth)
        fitting = sum(_area(piece) for piece in pieces if _area(piece) <= largest)
        found[cloth] = min(room, fitting)
    return found


def fitted(garment: Garment, leftovers: Sequence[Leftover]) -> tuple[FromLeftover, ...]:
    """What each leftover was found to give: as many of the smallest pieces still to be cut as fit on it together.

    Leftovers of one cloth are used up largest first. Pieces that lie on a lace's edges are left to its strip.
    """
    found = []
    for cloth, pieces in _on_width(garment, leftovers):
        rest = sorted(pieces, key=lambda piece: (_area(piece), piece.name))
        for one in sorted((one for one in leftovers if one.cloth == cloth), key=lambda one: (-one.area, one.name)):
            count = _how_many(garment, one, rest)
            if count:
                taken, rest = rest[:count], rest[count:]
                area = sum(_area(piece) for piece in taken)
                found.append(FromLeftover(one.name, cloth, tuple(piece.name for piece in taken), area))
    return tuple(found)


def _on_width(garment: Garment, leftovers: Sequence[Leftover]) -> Iterator[tuple[str, list[Piece]]]:
    """The pieces cut from the width of each cloth that there are leftovers of."""
    for cloth in dict.fromkeys(one.cloth for one in leftovers):
        pieces = [piece for piece in garment.pieces if piece.part.cloth == cloth]
        if pieces and not any(piece.strip for piece in pieces):
            yield cloth, pieces


def _how_many(garment: Garment, leftover: Leftover, pieces: Sequence[Piece]) -> int:
    """How many of the first pieces fit together."""
    for count in range(len(pieces), 0, -1):
        if sum(_area(piece) for piece in pieces[:count]) > leftover.area:
            continue
        try:
            if plan_remnant(leftover.remnant, _told(garment, leftover.cloth, pieces[:count]), _RULES).fits:
                return count
        except CannotMake:
            continue
    return 0


def _told(garment: Garment, cloth: str, pieces: Sequence[Piece]) -> tuple[ClothPiece, ...]:
    order = order_of(garment.design.cloths[cloth], pieces, CuttingWishes())
    return () if isinstance(order, StripOrder) else order.pieces


def _area(piece: Piece) -> float:
    return abs(ring_area(ring_of(piece))) * piece.part.quantity
