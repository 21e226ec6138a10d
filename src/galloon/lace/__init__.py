"""Ways to use a lace: each takes parts and gives parts, placements and findings."""

from collections.abc import Iterable, Mapping
from types import MappingProxyType

from galloon.design import LaceUse, Use
from galloon.lace import applique, edge_trim, insertion, overlay, panel, scalloped_leg, split_edging, v_inset, waistband
from galloon.lace.applique import implied_uses
from galloon.lace.fit import Fit, dipped_side, fit_drops
from galloon.lace.model import DropNeed, Laced, Placement, Scene, Technique
from galloon.lace.pairing import Pairing, miss, pairing
from galloon.lace.pairs import claims, workable
from galloon.lace.side_match import match_sides, reading_at_side
from galloon.lace.v_inset import v_level

#: Every use by its name in the brief; a new one is a module and a line here.
TECHNIQUES: Mapping[Use, Technique] = MappingProxyType(
    {
        Use.SCALLOPED_LEG: Technique(
            scalloped_leg.apply,
            straight_legs=scalloped_leg.straight_legs,
            angles=scalloped_leg.angles,
            drop_needs=scalloped_leg.drop_needs,
        ),
        Use.PANEL: Technique(
            panel.apply, straight_legs=panel.straight_legs, angles=panel.angles, drop_needs=panel.drop_needs
        ),
        Use.V_INSET: Technique(v_inset.apply, straight_legs=v_inset.straight_legs, shares=v_inset.shares),
        Use.EDGE_TRIM: Technique(edge_trim.apply, dress=edge_trim.dress),
        Use.WAISTBAND: Technique(waistband.apply, dress=waistband.dress, drop_needs=waistband.drop_needs),
        Use.SPLIT_EDGING: Technique(split_edging.apply, dress=split_edging.dress),
        Use.OVERLAY: Technique(overlay.apply),
        Use.INSERTION: Technique(insertion.apply),
        Use.APPLIQUE: Technique(applique.apply),
    }
)
#: Uses that are laid on panels, in the order they are: after every use that makes panels or their edges.
_LAID = (Use.OVERLAY, Use.INSERTION, Use.APPLIQUE)


def straight_legs(uses: Iterable[LaceUse]) -> frozenset[str]:
    """Panels whose leg line gives way to the straight valley line of a strip."""
    return frozenset().union(*(TECHNIQUES[use.use].straight_legs(use) for use in uses))


def lay_order(uses: Iterable[LaceUse]) -> list[LaceUse]:
    """The uses in the order they are worked: what is laid on comes after what makes the panels."""
    return sorted(uses, key=lambda use: _LAID.index(use.use) if use.use in _LAID else -1)


__all__ = [
    "TECHNIQUES",
    "DropNeed",
    "Fit",
    "Laced",
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
    "straight_legs",
    "v_level",
    "workable",
]
