"""Which edges are sewn to which: the seams of a garment, by kind, with the linings that are caught in them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from galloon.pieces import Garment, Piece, PieceEdge
from galloon.said import Term


class SeamKind(StrEnum):
    """What a seam joins; an open side joins nothing, but ends an edge as a seam does."""

    JOIN = "join"
    CENTRE_FRONT = "centre front seam"
    CENTRE_BACK = "centre back seam"
    CENTRE_GUSSET = "centre gusset seam"
    FRONT_GUSSET = "front gusset seam"
    BACK_GUSSET = "back gusset seam"
    SIDE = "side seams"
    OPEN_SIDE = "open sides"
    LAID = "laid on"

    @property
    def one(self) -> Term:
        """One seam of the kind in words: "side seam"."""
        return Term({SeamKind.SIDE: "side seam", SeamKind.OPEN_SIDE: "open side"}.get(self, self.value))

    @property
    def words(self) -> Term:
        """All seams of the kind in words: "side seams"."""
        return Term(self.value)


_CENTRES: Final = {
    "centre front": SeamKind.CENTRE_FRONT,
    "centre back": SeamKind.CENTRE_BACK,
    "centre gusset": SeamKind.CENTRE_GUSSET,
}


@dataclass(frozen=True)
class Seam:
    """``edges`` are the outer pieces' edges that it joins (one name for a centre seam, sewn to its own mirror image);
    ``linings`` the lining edges caught in it; ``upper`` the edge that laps over, "" where none does.
    """

    kind: SeamKind
    edges: tuple[str, ...]
    linings: tuple[str, ...] = ()
    upper: str = ""

    @property
    def all_edges(self) -> tuple[str, ...]:
        """Outer and lining edges."""
        return (*self.edges, *self.linings)


def key_of(piece: Piece, edge: PieceEdge) -> str:
    """ "piece/edge"."""
    return f"{piece.name}/{edge.name}"


def sewable(garment: Garment) -> tuple[str, ...]:
    """Every edge of every piece that is no fold."""
    return tuple(key_of(piece, edge) for piece in garment.pieces for edge in piece.edges if edge.finish != "fold")


def lining_edges(garment: Garment, keys: tuple[str, ...]) -> tuple[str, ...]:
    """The edges of linings that lie under the outer edges ``keys``."""
    there = set(sewable(garment))
    grown = next((piece.part.covers for piece in garment.outer if _carries_gusset(piece)), "")
    found = (_under(key, grown) for key in keys)
    return tuple(dict.fromkeys(lining for lining in found if lining in there))


def _carries_gusset(piece: Piece) -> bool:
    """Whether the gusset is grown on to the piece."""
    return piece.part.covers != "gusset" and "gusset" in piece.part.bodies and not piece.part.laid_on


def _under(key: str, grown: str) -> str:
    """The lining edge under an outer one. Where the gusset is grown on to ``grown``, its lining is still its own: it
    lies under that panel's gusset leg and ends in the one gusset seam that is left.
    """
    name, _, edge = key.partition("/")
    if grown and name == grown and edge == "gusset leg":
        return "gusset lining/leg"
    if grown and edge == "gusset":
        return f"gusset lining/{'back' if grown == 'front' else 'front'}" if name == grown else f"{name} lining/gusset"
    return f"{name} lining/{edge}"


def seams_of(garment: Garment) -> tuple[Seam, ...]:
    """Every seam once, in the order its first edge is met. An edge that names one which does not name it back is laid
    on it.
    """
    outer = {key_of(piece, edge): (piece, edge) for piece in garment.outer for edge in piece.edges}
    seen: set[str] = set()
    found = []
    for key, (piece, edge) in outer.items():
        if edge.finish == "fold" or key in seen or (edge.sewn_to is None and not piece.part.laid_on):
            continue
        other = outer.get(edge.sewn_to or "")
        mutual = other is not None and other[1].sewn_to == key and (other[0] is piece or not piece.part.laid_on)
        keys = tuple(dict.fromkeys((key, edge.sewn_to or key))) if mutual else (key,)
        seen.update(keys)
        kind = _kind((piece, edge), other) if mutual and other is not None else SeamKind.LAID
        upper = next((one for one in keys if outer[one][1].finish == "lapped"), "")
        linings = lining_edges(garment, keys) if kind is not SeamKind.LAID else ()
        found.append(Seam(kind, keys, linings, upper))
    return tuple(found)


def _kind(one: tuple[Piece, PieceEdge], other: tuple[Piece, PieceEdge]) -> SeamKind:
    names = {one[1].name, other[1].name}
    covers = {one[0].part.covers, other[0].part.covers}
    if one[0] is other[0]:
        return _CENTRES.get(one[1].name.removeprefix("upper "), SeamKind.JOIN)
    if any("side" in name for name in names):
        return SeamKind.SIDE
    if len(covers) == 1:
        return SeamKind.JOIN
    if "gusset" in covers:
        own = next(edge.name for piece, edge in (one, other) if piece.part.covers == "gusset")
        return SeamKind.FRONT_GUSSET if own == "front" else SeamKind.BACK_GUSSET
    if not any("gusset" in name for name in names):
        return SeamKind.JOIN
    grown = any("gusset" in piece.part.bodies and piece.part.covers == "back" for piece, _ in (one, other))
    return SeamKind.FRONT_GUSSET if grown else SeamKind.BACK_GUSSET
