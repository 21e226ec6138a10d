"""What is written on a pattern piece: its name, whose it is, how it is cut, and what happens at each edge."""

from __future__ import annotations

from galloon.design import Design, Finish, FinishKind
from galloon.pieces import Garment, Piece, PieceEdge
from galloon.units import format_length


def small_length(mm: float, design: Design) -> str:
    """An allowance as the maker reads it: inches where the brief is in inches, else millimetres."""
    return format_length(mm, "in" if design.units == "in" else "mm")


def cut_words(piece: Piece) -> str:
    """How many to cut: ``"cut 2, mirrored"``, ``"cut 1 on fold"``, ``"cut 1"``."""
    part = piece.part
    how = ", mirrored" if part.mirrored else " on fold" if part.fold else ""
    return f"cut {part.quantity}{how}"


def whose(garment: Garment) -> str:
    """Wearer and title."""
    return " · ".join(filter(None, (garment.design.wearer.name, garment.design.title)))


def piece_words(garment: Garment, piece: Piece) -> tuple[str, ...]:
    """The lines of a piece's label, its name first."""
    lining = " (lining)" if piece.part.lining and "lining" not in piece.name else ""
    return (
        f"{piece.name}{lining}",
        whose(garment),
        f"cloth: {piece.part.cloth}",
        cut_words(piece),
        "allowances are included",
    )


def finish_of(design: Design, piece: Piece, edge: PieceEdge) -> Finish | None:
    """The finish the brief gives the zone that an open edge belongs to; None for a seam or a fold."""
    if edge.sewn_to is not None or edge.finish in ("seam", "fold"):
        return None
    zone = piece.part.zone_of(edge.name)
    return design.finishes.of(zone)


def edge_words(design: Design, piece: Piece, edge: PieceEdge) -> tuple[str, str]:
    """What is done at an edge and how much cloth lies beyond its stitch line: in full, and short for short edges."""
    if edge.finish == "fold":
        return f"place on fold: {edge.name}", f"fold: {edge.name}"
    name, what, beyond = f"{edge.name}:", _treatment(design, piece, edge), _beyond(edge, design)
    if edge.sewn_to is not None:
        name = f"{edge.name} seam," if what else f"{edge.name} seam"
    full = " ".join(filter(None, (name, what)))
    brief = what or full
    return f"{full} · {beyond}", brief if edge.allowance == 0.0 else f"{brief} · {beyond}"


def _treatment(design: Design, piece: Piece, edge: PieceEdge) -> str:
    """How an edge is finished or what it is sewn to; empty for a seam between the two halves of a piece."""
    if edge.sewn_to is not None:
        other = _partner(piece, edge)
        return f"scallop on top of {other}" if edge.finish == "lapped" else f"sew to {other}" if other else ""
    finish = finish_of(design, piece, edge)
    if edge.finish == "scallop":
        if finish and finish.elastic and finish.kind is FinishKind.SCALLOP:
            return finish.name
        return "sewn down behind the scallop" if piece.part.lining else "scallop, no elastic"
    if finish is not None and finish.trim is not None:
        return finish.trim.name if finish.slit_from else f"{finish.trim.name} lace"
    return finish.name if finish else edge.finish


def _beyond(edge: PieceEdge, design: Design) -> str:
    if edge.allowance == 0.0:
        return "no allowance"
    length = small_length(abs(edge.allowance), design)
    if edge.allowance < 0.0:
        return f"cut {length} inside the edge"
    return f"{length} turned in" if edge.finish in ("elastic", "hem") else length


def _partner(piece: Piece, edge: PieceEdge) -> str:
    """The piece an edge is sewn to, with the edge's name there where it does not go without saying."""
    other, _, there = (edge.sewn_to or "").partition("/")
    if other in ("", piece.name):
        return ""
    if other == piece.part.covers and there == edge.name and edge.name.startswith("centre"):
        return ""
    plain = there in ("", edge.name, *edge.name.split(), piece.name, piece.part.covers)
    return other if plain else f"{other}, {there}"
