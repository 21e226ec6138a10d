"""Lace uses that cannot stand together: two that both make a panel's cloth, or both make the same edge."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Final

from galloon.design import LaceUse, Lie, Use
from galloon.findings import Finding, Status
from galloon.said import Said, Term, said

#: What each use makes of a panel: its cloth, its waist edge, its leg edge. Uses not listed lie on what is there.
_CLOTH: Final = frozenset({Use.SCALLOPED_LEG, Use.PANEL, Use.V_INSET})
_SAYS: Final[Mapping[str, Callable[[str], Said]]] = {
    "cloth": lambda panel: said("both decide what the {panel} is cut from", panel=Term(panel)),
    "waist": lambda panel: said("both make the waist edge of the {panel}", panel=Term(panel)),
    "leg": lambda panel: said("both make the leg edge of the {panel}", panel=Term(panel)),
    "strip": lambda panel: said("both lie over the {seam}", seam=Term(f"{panel} seam")),
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


def workable(uses: tuple[LaceUse, ...], *, open_side: bool = False) -> tuple[tuple[LaceUse, ...], tuple[Finding, ...]]:
    """The uses that can stand together, the first of a clash winning, and a finding for each that was left out.

    ``open_side``: front and back do not meet at the side, which some uses need.
    """
    kept: list[LaceUse] = []
    found: list[Finding] = []
    for use in uses:
        if open_side and (against := _against_open_side(use)) is not None:
            found.append(against)
            if against.status is Status.FAIL:
                continue
        clash = next((other for other in kept if claims(use) & claims(other)), None)
        if clash is None:
            kept.append(use)
        else:
            found.append(_impossible(use, clash))
    return tuple(kept), tuple(found)


def _against_open_side(use: LaceUse) -> Finding | None:
    """What an open side does to a use that would run across it; None where it runs across none."""
    name, about, told = "lace uses go together", f"lace {use.cloth}", _named(use)
    if use.use is Use.WAISTBAND:
        says = said(
            "The {use} and the open side cannot stand together: the band is one ring, and nothing holds it across the "
            "gap. The band was left out; take it as an edge trim, or leave the sides closed ([open_side]).",
            use=told,
        )
        return Finding(name, Status.FAIL, says, about=about)
    if use.use is Use.INSERTION and use.over_seam in ("", "side"):
        says = said(
            "The {use} over the side seam and the open side cannot stand together: there is no seam to let it in over. "
            "The strip was left out; lay it over a centre seam, or leave the sides closed ([open_side]).",
            use=told,
        )
        return Finding(name, Status.FAIL, says, about=about)
    if use.use in (Use.EDGE_TRIM, Use.SPLIT_EDGING):
        says = said(
            "The {use} stops at the open side: it does not run across the gap, so it is cut in pieces, and its ends "
            "are caught in the side edges.",
            use=told,
        )
        return Finding(name, Status.WARN, says, about=about)
    return None


def _named(use: LaceUse) -> Said:
    return said("{use} of {lace}", use=Term(use.use.value), lace=use.cloth)


def _impossible(use: LaceUse, clash: LaceUse) -> Finding:
    panel, what = min(claims(use) & claims(clash))
    first, second = _named(clash), _named(use)
    says = said(
        "The {first} and the {second} cannot stand together: {why}. The {second} was left out; take one of the two "
        "away, or give it the other panel.",
        first=first, second=second, why=_SAYS[what](panel),
    )  # fmt: skip
    return Finding("lace uses go together", Status.FAIL, says, about=f"lace {use.cloth}")
