"""The open side from its table: the gap, the straps across it, and what they are cut from."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from galloon.brief.build_finish import Stock
from galloon.brief.faults import Faults, nearest
from galloon.design import OpenSide
from galloon.materials import Elastic, usual_kinds
from galloon.said import said

if TYPE_CHECKING:
    from galloon.brief.schema import OpenSideTable

#: What bridges an open side where the brief does not say.
USUAL_STRAP: Final = "strap elastic 12 mm"


def build_open_side(table: OpenSideTable, stock: Stock, faults: Faults) -> OpenSide | None:
    """The open side; None, with a fault, where something in it cannot be."""
    elastic = _strap(table.strap or USUAL_STRAP, stock, faults)
    if elastic is None:
        return None
    values = {
        "waist": table.gap.waist,
        "leg": table.gap.leg,
        "elastic": elastic,
        "straps": table.straps,
        "strain": table.worn_stretch,
    }
    return faults.make(("open_side",), OpenSide, values, {"waist": 80.0, "leg": 80.0, "straps": 2})


def _strap(name: str, stock: Stock, faults: Faults) -> Elastic | None:
    """The elastic of that name; the word strap before it does no harm."""
    bare = name.removeprefix("strap ")
    for one in (name, bare):
        if stock.knows(one):
            return stock.elastic(one)
    known = [*stock.elastics, *usual_kinds()]
    rule = said("must name an elastic to cut the straps from, as in strap elastic 12 mm")
    faults.refuse(
        ("open_side", "strap"), rule, hint=nearest(name, known) or said("Known: {names}.", names=", ".join(known))
    )
    return None
