"""Where a piece may legally lie on a lace, so that its motif comes out right: the symmetry table."""

from __future__ import annotations

from dataclasses import dataclass

from galloon.cutting.outlines import Ring, shifted, turned
from galloon.cutting.strip.model import Lace, LacePiece


@dataclass(frozen=True)
class Way:
    """One way for an outline to lie: mirrored or not, lower or upper edge; the phase it needs there is

    ``sign * phase + shift``. ``other_side``: worn with the lace's other side out.
    """

    flip: bool
    upper: bool
    shift: float = 0.0
    other_side: bool = False

    @property
    def sign(self) -> int:
        """-1 where the lie reverses the direction along the lace."""
        return -1 if self.flip != self.upper else 1

    def lay(self, outline: Ring, width: float) -> Ring:
        """The outline as it lies this way on a lace of that width, its origin at x = 0."""
        laid = turned(outline, flip=self.flip, half_turn=self.upper)
        return shifted(laid, 0.0, width) if self.upper else laid


def legal_ways(lace: Lace, piece: LacePiece, *, twin: bool) -> tuple[Way, ...]:
    """Every legal way for one copy; ``twin`` for a mirrored copy. Empty when the lace allows none.

    Table (phase p of the piece, repeat R, right side up): mirror across: twin, same edge, -p. Second edge mirrored:
    twin, other edge, p; half step: p + R/2. Half turn: same piece, other edge, -p. Mirror across and second edge
    half step: same piece, other edge, -p + R/2. On a reversible lace a copy of either hand may be worn other side out,
    so the places of the other hand are legal too.
    """
    shapes = [(twin, False)] + ([(not twin, True)] if lace.reversible else [])
    found = [
        Way(flip, upper, lace.upper_shift if upper else 0.0, other)
        for flip, other in shapes
        for upper in (False, True)
        if _may_lie(lace, piece, flip=flip, upper=upper)
    ]
    return tuple(_turn_centre(lace, way) for way in found)


def _may_lie(lace: Lace, piece: LacePiece, *, flip: bool, upper: bool) -> bool:
    if upper and lace.motif_up:
        return False
    if not piece.matched:
        return not upper or not piece.on_edge or _upper_edge_known(lace)
    # Two of the three symmetries about one point give the third.
    across = lace.mirror_across or (lace.half_turn and lace.second_edge == "mirror")
    edges = lace.second_edge in ("mirror", "half step") or (lace.mirror_across and lace.half_turn)
    if not upper:
        return across or not flip
    return edges if flip else lace.half_turn or (across and edges)


def _upper_edge_known(lace: Lace) -> bool:
    return lace.second_edge in ("mirror", "half step") or (lace.half_turn and lace.second_edge != "none")


def _turn_centre(lace: Lace, way: Way) -> Way:
    # On a lace whose only symmetry for a turned piece is the half turn itself, phases are counted from its centre.
    plain_turn = way.upper and not way.flip and lace.half_turn and not lace.mirror_across
    return Way(way.flip, way.upper, 0.0, way.other_side) if plain_turn else way
