"""Grows the gusset on to the front or the back: one piece less, one seam less; the lining stays a piece of its own."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from galloon.design import GussetPlan
from galloon.drafting import Edge
from galloon.geometry import Curve, line, map_curve, moved, reversed_curve
from galloon.styling.model import Part


def grow_gusset(parts: Iterable[Part], plan: GussetPlan) -> tuple[Part, ...]:
    """The parts with the gusset grown on to one panel; its lining is caught in the seam left, its other end turned."""
    if plan is GussetPlan.SET_IN:
        return tuple(parts)
    panel = "front" if plan is GussetPlan.ON_FRONT else "back"
    other = "back" if panel == "front" else "front"
    gusset = next(part for part in parts if part.name == "gusset")
    done = []
    for part in parts:
        if part is gusset:
            continue
        if part.covers == panel and not part.lining:
            part = _grown(part, gusset, panel)
        elif part.covers == panel:
            part = part.with_edge("gusset", sewn_to=None, finish="hem")
        elif part.covers == other:
            part = part.with_edge("gusset", sewn_to=f"{panel}/gusset")
        elif part.covers == "gusset":
            part = part.with_edge(panel, sewn_to=None, finish="hem").with_edge(other, sewn_to=f"{other}/gusset")
        done.append(part)
    return tuple(done)


def _grown(part: Part, gusset: Part, panel: str) -> Part:
    other = "back" if panel == "front" else "front"
    seam_level = part.edge("gusset").start.imag
    long = gusset.edge("centre gusset").start.imag - gusset.edge("centre gusset").end.imag
    leg = gusset.edge("leg")
    curve = _below(leg.curve, seam_level, long, panel)
    bottom = complex(0.0, seam_level - long)
    seam = replace(part.edge("gusset"), curve=(line(bottom, curve[0].start),), sewn_to=f"{other}/gusset")
    edges: list[Edge] = [seam, replace(leg, name="gusset leg", curve=curve)]
    for edge in part.panel.edges:
        if edge.name == "gusset":
            continue
        if edge.name == f"centre {panel}":
            edge = replace(edge, curve=_carried_on(edge.curve, bottom))
        edges.append(edge)
    return replace(part, panel=replace(part.panel, edges=tuple(edges)), spans=(panel, "gusset"))


def _below(leg: Curve, seam_level: float, long: float, panel: str) -> Curve:
    """The gusset's leg edge hung below the panel, walked upwards."""
    if panel == "front":
        return moved(leg, 1j * seam_level)
    return reversed_curve(map_curve(leg, lambda point: complex(point.real, seam_level - long - point.imag)))


def _carried_on(curve: Curve, bottom: complex) -> Curve:
    last = curve[-1]
    return (*curve[:-1], line(last.start, bottom)) if last.straight else (*curve, line(last.end, bottom))
