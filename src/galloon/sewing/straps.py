"""The straps across open sides as elastics to cut, and how far they let an opening go."""

from __future__ import annotations

from galloon import defaults
from galloon.pieces import Garment, Strap, straps_of
from galloon.said import Said, Term
from galloon.sewing.model import ElasticRow
from galloon.sewing.words import say


def strap_length(span: float, strain: float = defaults.STRAP_STRAIN) -> float:
    """A strap over an open side of ``span`` mm on the body: span / (1 + worn strain), plus what is caught at both
    ends.
    """
    return span / (1.0 + strain) + 2.0 * float(defaults.STRAP_END)


def strap_rows(garment: Garment) -> tuple[ElasticRow, ...]:
    """Every strap to cut, two of each; its edge length is the span on the body that it bridges."""
    side = garment.design.open_side
    if side is None:
        return ()
    return tuple(
        ElasticRow(
            _words(strap, side.straps),
            Term(side.elastic.name),
            strap.span,
            strap_length(strap.span, strap.strain),
            "open side",
            (),
            2.0 * float(defaults.STRAP_END),
            False,
            2,
            side.elastic.stretch,
            strap.strain,
            (),
            "",
        )
        for strap in straps_of(garment)
    )


def _words(strap: Strap, count: int) -> Said:
    return say("strap.row.one") if count == 1 else say("strap.row", number=strap.number, count=count)


def strap_reach(garment: Garment, opening: str) -> float:
    """How far (mm) the straps of an opening stretch: at the waist the uppermost of both sides, at the leg the lowest
    of one; 0 where the sides are not open.
    """
    straps, side = straps_of(garment), garment.design.open_side
    if side is None or not straps:
        return 0.0
    found = 2.0 * straps[0].relaxed if opening == "waist" else straps[-1].relaxed
    return found * (1.0 + side.elastic.stretch)
