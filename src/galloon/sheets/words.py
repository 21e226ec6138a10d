"""What is written on a pattern piece: its name, whose it is, how it is cut, and what happens at each edge."""

from __future__ import annotations

from galloon.design import Design, Finish
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
    zone = "waist" if edge.name == "waist" else f"{piece.part.covers}_leg" if edge.name == "leg" else ""
    return dict(design.finishes).get(zone)


def edge_words(design: Design, piece: Piece, edge: PieceEdge) -> str:
    """What is done at an edge and how much cloth lies beyond its stitch line."""
    if edge.finish == "fold":
        return f"place on fold: {edge.name}"
    if edge.finish == "scallop":
        finish = finish_of(design, piece, edge)
        behind = finish.name.removeprefix("scallop") if finish else ""
        return f"{edge.name}: scallop{behind or ', no elastic'}, no allowance"
    if edge.finish == "lapped":
        return f"{_seam_words(piece, edge)}: scallop on top, no allowance"
    if edge.sewn_to is not None:
        return f"{_seam_words(piece, edge)} · {small_length(edge.allowance, design)}"
    finish = finish_of(design, piece, edge)
    what = finish.name if finish else edge.finish
    return f"{edge.name}: {what} · {_turned(edge, design)}"


def _turned(edge: PieceEdge, design: Design) -> str:
    if edge.allowance == 0.0:
        return "no allowance"
    length = small_length(abs(edge.allowance), design)
    if edge.allowance < 0.0:
        return f"cut {length} inside the edge"
    return f"{length} turned in" if edge.finish in ("elastic", "hem") else length


def _seam_words(piece: Piece, edge: PieceEdge) -> str:
    other, _, there = (edge.sewn_to or "").partition("/")
    if other in ("", piece.name):
        return f"{edge.name} seam"
    plain = there in ("", edge.name, piece.name, piece.part.covers)
    return f"{edge.name} seam, sew to {other if plain else f'{other}, {there}'}"
