"""Sewn edges are equal, and every partner exists; edges of parts laid on others have the panel itself for a partner."""

from __future__ import annotations

from galloon.checks.model import Evidence
from galloon.findings import Finding, Status
from galloon.pieces import Piece, PieceEdge
from galloon.said import Term, said
from galloon.tolerance import SEWN_EDGES
from galloon.units import format_length


def sewn_edges(evidence: Evidence) -> list[Finding]:
    """One finding for all seams that fit, one for each that does not."""
    pieces = {piece.name: piece for piece in evidence.garment.pieces}
    worst, wrong = 0.0, []
    for piece in evidence.garment.outer:
        if piece.part.laid_on:
            continue
        for edge in piece.edges:
            partner = _partner(pieces, edge)
            if edge.sewn_to is None:
                continue
            off = abs(edge.length - partner.length) if partner is not None else edge.length
            worst = max(worst, off)
            if off > SEWN_EDGES:
                about = f"{piece.name}/{edge.name}"
                says = said(
                    "{one} and {other} differ by {apart}; they must be equal.",
                    one=Term(about), other=Term(edge.sewn_to), apart=format_length(off, "mm"),
                )  # fmt: skip
                wrong.append(Finding("sewn edges are equal", Status.FAIL, says, off, SEWN_EDGES, "mm", about))
    if wrong:
        return wrong
    says = said("All edges that are sewn together are equal within {within} mm.", within=SEWN_EDGES)
    return [Finding("sewn edges are equal", Status.PASS, says, worst, SEWN_EDGES, "mm")]


def _partner(pieces: dict[str, Piece], edge: PieceEdge) -> PieceEdge | None:
    name, _, other = (edge.sewn_to or "").partition("/")
    piece = pieces.get(name)
    return next((found for found in piece.edges if found.name == other), None) if piece else None
