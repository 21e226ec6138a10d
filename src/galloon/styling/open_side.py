"""Open sides: front and back are cut back from the side seam's line, and the ends of straps find their place there."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

import numpy as np

from galloon import defaults
from galloon.design import NARROWEST_GAP, Design, OpenSide
from galloon.drafting import Draft, Edge, Frame, Panel, Reductions
from galloon.findings import Finding, Status
from galloon.geometry import Curve, cut_curve, flatten, map_curve, reversed_curve
from galloon.said import Said, Term, said
from galloon.styling.model import Part, StrapEnd
from galloon.units import format_length

_STEPS: Final = 60
#: Places looked at along a cubic for where it comes near enough to the side, before that is narrowed down.
_LOOKS: Final = 24


@dataclass(frozen=True)
class _Place:
    """Where a line of a panel is cut: the piece of its run, the parameter there, and the level (mm below the waist)."""

    index: int
    t: float
    down: float


def open_sides(design: Design, draft: Draft, cut: Reductions) -> tuple[Design, Draft, tuple[Finding, ...]]:
    """The draft with both panels cut back at the sides by half the gap each, in relaxed cloth; and the design with as
    much of a gap, and as many straps, as find room. Unchanged where the sides are not open.
    """
    side = design.open_side
    if side is None:
        return design, draft, ()
    held, found = _held(design, side, draft, cut)
    panels = dict(draft.panels)
    for name in ("front", "back"):
        share = (1.0 - getattr(cut, name)) / 2.0
        panels[name] = _cut(draft, panels[name], held.waist * share, held.leg * share)
    draft = replace(draft, panels=MappingProxyType(panels))
    held, more = _fitting(design, held, panels)
    return replace(design, open_side=held), draft, (*found, *more)


def _held(design: Design, side: OpenSide, draft: Draft, cut: Reductions) -> tuple[OpenSide, tuple[Finding, ...]]:
    """No wider than leaves cloth at the waist, and beside the gusset at the leg, on both panels."""
    found: list[Finding] = []
    for end in ("waist", "leg"):
        rooms = {name: _room(draft, name, end) * 2.0 / (1.0 - getattr(cut, name)) for name in ("front", "back")}
        name = min(rooms, key=lambda panel: rooms[panel])
        most, asked = max(NARROWEST_GAP, rooms[name]), getattr(side, end)
        if asked <= most:
            continue
        side = replace(side, **{end: most})
        says = _too_wide(end, name, format_length(asked, design.units), format_length(most, design.units))
        found.append(Finding("open side leaves a panel", Status.FAIL, says, asked, most, "mm", f"{name}/side"))
    return side, tuple(found)


def _too_wide(end: str, panel: str, asked: str, most: str) -> Said:
    words = {"asked": asked, "panel": Term(panel), "most": most}
    if end == "waist":
        return said(
            "A gap of {asked} at the waist of each side leaves the {panel} hardly any cloth there; it was drawn {most} "
            "wide, which is the most.",
            **words,
        )
    return said(
        "A gap of {asked} at each side leaves the {panel} no cloth beside the gusset; it was drawn {most} wide, which "
        "is the most.",
        **words,
    )


def _room(draft: Draft, name: str, end: str) -> float:
    """How far (mm) a panel can be cut back at one end of its side."""
    panel = draft.panels[name]
    inner = panel.edge("waist").end.real if end == "waist" else draft.frame.gusset_half(name)
    outer = panel.edge("side").end if end == "waist" else panel.edge("side").start
    return outer.real - inner - float(defaults.FRONT_CLEAR)


def _fitting(design: Design, side: OpenSide, panels: Mapping[str, Panel]) -> tuple[OpenSide, tuple[Finding, ...]]:
    """No more straps than lie beside one another on the shorter of both edges."""
    tall = {name: (panels[name].edge("side").end - panels[name].edge("side").start).imag for name in ("front", "back")}
    name = min(tall, key=lambda panel: tall[panel])
    wide = side.elastic.width
    most = max(1, int(tall[name] / wide))
    if side.straps <= most:
        return side, ()
    unit = design.units
    planned = said("only 1 was planned") if most == 1 else said("only {count} were planned", count=most)
    says = said(
        "{count} straps of {strap} do not fit one above the other on the open side of the {panel}, which is {high} "
        "high; {planned}. Take a narrower strap, raise the waist or lower the leg.",
        count=side.straps, strap=Term(side.elastic.name), panel=Term(name), high=format_length(tall[name], unit),
        planned=planned,
    )  # fmt: skip
    finding = Finding(
        "straps fit the open side", Status.FAIL, says, side.straps * wide, tall[name], "mm", f"{name}/side"
    )
    return replace(side, straps=most), (finding,)


def _cut(draft: Draft, panel: Panel, at_waist: float, at_leg: float) -> Panel:
    """A panel whose side edge lies ``at_waist`` and ``at_leg`` mm nearer the centre at its two ends."""
    frame, name = draft.laid, panel.name
    waist, leg = panel.edge("waist").curve, panel.edge("leg").curve
    top = _crossing(frame, name, waist, at_waist)
    foot = _crossing(frame, name, leg, at_leg, from_end=True)
    slope = (at_leg - at_waist) / (foot.down - top.down)

    def nearer(point: complex) -> complex:
        return point - (at_waist + slope * (-point.imag - top.down))

    side = reversed_curve(map_curve(frame.side.between(frame.hip(name), top.down, foot.down), nearer))
    leg = cut_curve(leg, foot.index, foot.t)[0]
    waist = cut_curve(waist, top.index, top.t)[1]
    leg = (*leg[:-1], leg[-1]._replace(end=side[0].start))
    waist = (waist[0]._replace(start=side[-1].end), *waist[1:])
    panel = panel.with_edge("leg", curve=leg).with_edge("waist", curve=waist)
    return panel.with_edge("side", curve=side, sewn_to=None)


def _crossing(frame: Frame, panel: str, curve: Curve, back: float, *, from_end: bool = False) -> _Place:
    """Where a line that meets the side is first ``back`` mm away from it, measured level."""

    def off(index: int, t: float) -> float:
        point = curve[index].at(t)
        return frame.side_x(panel, -point.imag) - back - point.real

    walk = [(index, step / _LOOKS) for index in range(len(curve)) for step in range(_LOOKS + 1)]
    walk = walk[::-1] if from_end else walk
    before = walk[0]
    for place in walk:
        if off(*place) >= 0.0:
            break
        before = place
    index = place[0]
    low, high = (before[1] if before[0] == index else float(from_end)), place[1]
    for _ in range(_STEPS):
        middle = (low + high) / 2.0
        low, high = (low, middle) if off(index, middle) >= 0.0 else (middle, high)
    return _Place(index, high, -curve[index].at(high).imag)


def place_straps(design: Design, parts: Iterable[Part]) -> tuple[Part, ...]:
    """The parts with the places where straps are caught on their open side edges, the uppermost first.

    The outermost straps lie as near to waist and leg as they can with their whole end on the panel, one alone half way
    between.
    """
    done = tuple(parts)
    if design.open_side is None:
        return done
    for panel in ("front", "back"):
        edges = [(part, edge) for part in done for edge in open_edges(part) if panel in part.bodies]
        if edges:
            done = tuple(_marked(part, _ends(design.open_side, edges, part)) for part in done)
    return done


def open_edges(part: Part) -> tuple[Edge, ...]:
    """The edges of an outer panel at its open side; none where it has a seam there, or lies on others."""
    if part.lining or part.laid_on:
        return ()
    return tuple(edge for edge in part.panel.edges if edge.name.split()[-1] == "side" and edge.sewn_to is None)


def _marked(part: Part, ends: tuple[StrapEnd, ...]) -> Part:
    return replace(part, strap_ends=(*part.strap_ends, *ends)) if ends else part


def _reach(edges: list[tuple[Part, Edge]], wide: float) -> tuple[float, float]:
    """Highest and lowest level at which the end of a strap lies whole on its panel: where waist and leg come nearest to
    it, as deep as it is caught.
    """
    highest, lowest = max(edges, key=lambda one: one[1].end.imag), min(edges, key=lambda one: one[1].start.imag)
    top = min(_beside(*highest, "waist", wide), default=highest[1].end.imag)
    foot = max(_beside(*lowest, "leg", wide), default=lowest[1].start.imag)
    return (top, foot) if top > foot else (highest[1].end.imag, lowest[1].start.imag)


def _beside(part: Part, side: Edge, word: str, wide: float) -> list[float]:
    """Levels of the open edge called ``word`` that ends at a side, as far in as a strap there is caught."""
    corner, up = (side.end, -1.0) if word == "waist" else (side.start, 1.0)
    points = flatten(side.curve, 0.2)
    at = float(np.interp(corner.imag + up * wide, points.imag, points.real))
    near = min(corner.real, at) - float(defaults.STRAP_END) - 1.0
    edges = [edge for edge in part.panel.edges if edge.name.split()[-1] == word and edge.sewn_to is None]
    beside = [point for edge in edges if corner in (edge.start, edge.end) for point in flatten(edge.curve)]
    return [float(point.imag) for point in beside if point.real >= near]


def _ends(side: OpenSide, edges: list[tuple[Part, Edge]], of: Part) -> tuple[StrapEnd, ...]:
    """The ends that are caught on ``of``, one of the parts that the edges belong to."""
    top, foot = _reach(edges, side.elastic.width)
    half = min(side.elastic.width, top - foot) / 2.0
    levels = np.linspace(top - half, foot + half, side.straps) if side.straps > 1 else [(top + foot) / 2.0]
    found = []
    for number, level in enumerate(levels, 1):
        for part, edge in edges:
            if part is of and edge.start.imag <= level < edge.end.imag:
                points = flatten(edge.curve)
                x = float(np.interp(level, points.imag, points.real))
                found.append(StrapEnd(number, edge.name, complex(x, float(level)), side.elastic.width))
    return tuple(found)
