"""Ways to use a lace: each takes parts and gives parts, placements and findings."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from galloon.design import LaceUse, Use
from galloon.lace import applique, edge_trim, insertion, overlay, panel, scalloped_leg, split_edging, v_inset, waistband
from galloon.lace.applique import implied_uses
from galloon.lace.fit import Fit, dipped_side, fit_drops
from galloon.lace.model import Dress, DropNeed, Laced, Mix, Placement, Scene, Technique
from galloon.lace.pairing import Pairing, miss, pairing
from galloon.lace.pairs import claims, workable
from galloon.lace.side_match import match_sides, reading_at_side

#: Every use by its name in the brief; a new one is a module and a line here.
TECHNIQUES: Mapping[Use, Technique] = MappingProxyType(
    {
        Use.SCALLOPED_LEG: scalloped_leg,
        Use.PANEL: panel,
        Use.V_INSET: v_inset,
        Use.EDGE_TRIM: edge_trim,
        Use.WAISTBAND: waistband,
        Use.SPLIT_EDGING: split_edging,
        Use.OVERLAY: overlay,
        Use.INSERTION: insertion,
        Use.APPLIQUE: applique,
    }
)
#: Uses that make a panel of several cloths side by side, and how those share its width at the hip.
MIXES: Mapping[Use, Mix] = MappingProxyType({Use.V_INSET: v_inset.shares})
#: Uses that finish edges, and how they dress a design before it is drafted.
DRESSES: Mapping[Use, Dress] = MappingProxyType(
    {Use.EDGE_TRIM: edge_trim.dress, Use.WAISTBAND: waistband.dress, Use.SPLIT_EDGING: split_edging.dress}
)
#: Uses that are laid on panels, in the order they are: after every use that makes panels or their edges.
_LAID = (Use.OVERLAY, Use.INSERTION, Use.APPLIQUE)


def lay_order(uses: Iterable[LaceUse]) -> list[LaceUse]:
    """The uses in the order they are worked: what is laid on comes after what makes the panels."""
    return sorted(uses, key=lambda use: _LAID.index(use.use) if use.use in _LAID else -1)


__all__ = [
    "DRESSES",
    "MIXES",
    "TECHNIQUES",
    "Dress",
    "DropNeed",
    "Fit",
    "Laced",
    "Mix",
    "Pairing",
    "Placement",
    "Scene",
    "Technique",
    "claims",
    "dipped_side",
    "fit_drops",
    "implied_uses",
    "lay_order",
    "match_sides",
    "miss",
    "pairing",
    "reading_at_side",
    "workable",
]
