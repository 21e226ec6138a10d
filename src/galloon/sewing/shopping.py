"""What to buy: cloths from their cutting plans, elastics from their cut lengths, and notions in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from galloon.design import FinishKind
from galloon.pieces import Garment
from galloon.sewing.elastics import elastic_rows
from galloon.sewing.loops import loops_of
from galloon.sewing.model import ElasticRow, ShoppingRow
from galloon.sewing.words import say
from galloon.styling import FINISH_TABLE, finish_row
from galloon.units import format_length

#: Thread per length of stitching: 1:5.5 for a zigzag (ISO 4915 304), a trade site on stitch classes.
_THREAD_RATIO = 5.5


def shopping(
    garment: Garment, lengths: Mapping[str, float], elastics: Sequence[ElasticRow] | None = None
) -> tuple[ShoppingRow, ...]:
    """One row per cloth that pieces are cut from (``lengths``: mm of it by the cutting plan), then one per trim and
    elastic.

    The need is reckoned before the first wash: length / (1 - shrink). Elastics of one name are added up.
    """
    rows = elastic_rows(garment) if elastics is None else elastics
    trims = _trims(garment, rows)
    names = [name for name in garment.design.cloths if name in lengths or name in trims]
    found = [_cloth_row(garment, name, lengths.get(name, 0.0) + trims.get(name, 0.0)) for name in names]
    for kind in dict.fromkeys(row.kind for row in rows if not row.kind.startswith("lace trim ")):
        need = sum(row.cut_length * row.count for row in rows if row.kind == kind)
        found.append(ShoppingRow(kind, need, 0.0, need, None))
    return tuple(found)


def _trims(garment: Garment, rows: Sequence[ElasticRow]) -> dict[str, float]:
    """Length (mm) of each lace laid on as a trim; a galloon slit in two gives the trims of both legs at once."""
    found: dict[str, float] = {}
    for finish in {finish.name: finish for _, finish in garment.design.finishes}.values():
        if finish.trim is not None:
            length = sum(row.cut_length * row.count for row in rows if row.kind == finish.name)
            name = finish.slit_from or finish.trim.name
            found[name] = found.get(name, 0.0) + (length / 2.0 if finish.slit_from else length)
    return {name: length for name, length in found.items() if length > 0.0}


def _cloth_row(garment: Garment, name: str, length: float) -> ShoppingRow:
    cloth = garment.design.cloths[name]
    need = length / (1.0 - cloth.shrink_length)
    on_hand = cloth.on_hand or 0.0
    buy = max(0.0, need - on_hand)
    return ShoppingRow(name, need, on_hand, buy, None if cloth.price is None else cloth.price * buy / 1000.0)


def notions(garment: Garment) -> tuple[str, ...]:
    """Thread, needle and small things, in words; the thread is reckoned from the seams and edges of this design."""
    metres = max(1.0, _thread(garment) / 1000.0)
    words = [
        say("notion.thread", metres=f"{10.0 * -(-metres // 10.0):.0f}"),
        say("notion.needle"),
        say("notion.test"),
    ]
    if elastic_rows(garment):
        words.append(say("notion.pins"))
    if any(finish.kind is FinishKind.BINDING for _, finish in garment.design.finishes):
        words.append(say("notion.binding", strip=format_length(_binding(garment), garment.design.units)))
    return tuple(words)


def _thread(garment: Garment) -> float:
    """Thread (mm): every seam twice, every edge once per row of its stitching and what is laid on once round, at the
    zigzag's ratio.
    """
    edges = sum(
        span.length * len(finish_row(span.finish).passes) * (1.0 if loop.name == "waist" else 2.0)
        for loop in loops_of(garment)
        for span in loop.spans
    )
    seams = sum(edge.length for piece in garment.pieces for edge in piece.edges if edge.sewn_to is not None)
    laid = sum(
        edge.length * (2.0 if piece.part.fold else piece.part.quantity)
        for piece in garment.pieces
        for edge in piece.edges
        if piece.part.laid_on and edge.finish == "lapped"
    )
    return _THREAD_RATIO * (edges + 2.0 * seams + laid)


def _binding(garment: Garment) -> float:
    spans = [(loop, span) for loop in loops_of(garment) for span in loop.spans]
    bound = sum(
        span.length * (1.0 if loop.name == "waist" else 2.0)
        for loop, span in spans
        if span.finish.kind is FinishKind.BINDING
    )
    return bound + 2.0 * FINISH_TABLE["binding"].overlap
