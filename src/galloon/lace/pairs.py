"""Lace uses that cannot stand together: two that both make a panel's cloth, or both make the same edge."""

from __future__ import annotations

from typing import Final

from galloon.design import LaceUse, Lie, Use
from galloon.findings import Finding, Status

#: What each use makes of a panel: its cloth, its waist edge, its leg edge. Uses not listed lie on what is there.
_CLOTH: Final = frozenset({Use.SCALLOPED_LEG, Use.PANEL, Use.V_INSET})
_SAYS: Final = {
    "cloth": "both decide what the {panel} is cut from",
    "waist": "both make the waist edge of the {panel}",
    "leg": "both make the leg edge of the {panel}",
    "strip": "both lie over the {panel} seam",
}


def claims(use: LaceUse) -> frozenset[tuple[str, str]]:
    """Pairs of panel and what the use alone decides there: "cloth", "waist" or "leg"."""
    found: set[tuple[str, str]] = {(use.over_seam or "side", "strip")} if use.use is Use.INSERTION else set()
    for panel in use.panels:
        if use.use in _CLOTH:
            found.add((panel, "cloth"))
        if use.use is Use.WAISTBAND or (use.use in (Use.PANEL, Use.EDGE_TRIM) and use.edge_on == "waist"):
            found.add((panel, "waist"))
        if _on_leg(use, panel):
            found.add((panel, "leg"))
    return frozenset(found)


def _on_leg(use: LaceUse, panel: str) -> bool:
    if use.use in (Use.V_INSET, Use.SPLIT_EDGING):
        return True
    if use.use is Use.SCALLOPED_LEG:
        return use.lie_on(panel) is Lie.ALONG_LEG
    if use.use is Use.EDGE_TRIM:
        return use.edge_on != "waist"
    return use.use is Use.PANEL and use.edge_on == "leg"


def workable(uses: tuple[LaceUse, ...]) -> tuple[tuple[LaceUse, ...], tuple[Finding, ...]]:
    """The uses that can stand together, the first of a clash winning, and a finding for each that was left out."""
    kept: list[LaceUse] = []
    found: list[Finding] = []
    for use in uses:
        clash = next((other for other in kept if claims(use) & claims(other)), None)
        if clash is None:
            kept.append(use)
        else:
            found.append(_impossible(use, clash))
    return tuple(kept), tuple(found)


def _impossible(use: LaceUse, clash: LaceUse) -> Finding:
    panel, what = min(claims(use) & claims(clash))
    first, second = f"{clash.use} of {clash.cloth}", f"{use.use} of {use.cloth}"
    says = (
        f"The {first} and the {second} cannot stand together: {_SAYS[what].format(panel=panel)}. "
        f"The {second} was left out; take one of the two away, or give it the other panel."
    )
    return Finding("lace uses go together", Status.FAIL, says, about=f"lace {use.cloth}")
