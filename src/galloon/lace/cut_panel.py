"""Cuts a dressed part in two along a straight line, and sews its neighbours to the two parts it has become."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from galloon.drafting import Edge, Panel
from galloon.geometry import arc, cut_at_length, cut_at_line, line
from galloon.styling import Part

#: Sections of an edge shorter than this (mm) are left to their neighbour's side of the cut.
_SHORTEST = 0.01


@dataclass(frozen=True)
class Cut:
    """Two panels from one, both with an edge called ``name`` along the cut."""

    right: Panel
    left: Panel
    name: str


def cut_panel(panel: Panel, origin: complex, along: complex, *, name: str, left: str) -> Cut | None:
    """``panel`` cut along the line through ``origin``; what lies left of ``along`` becomes the panel called ``left``.

    Edges keep their names on both sides. None where the line does not cut the ring in just two.
    """
    sections = [
        (replace(edge, curve=curve), side)
        for edge in panel.edges
        for curve, side in cut_at_line(edge.curve, origin, along)
        if sum(arc(piece) for piece in curve) > _SHORTEST
    ]
    turns = [i for i in range(len(sections)) if sections[i - 1][1] != sections[i][1]]
    if len(turns) != 2:
        return None
    first, second = turns
    chains = [sections[first:second], sections[second:] + sections[:first]]
    rings = {chain[0][1]: _closed([edge for edge, _ in chain], name) for chain in chains}
    return Cut(Panel(panel.name, rings[-1.0]), Panel(left, rings[1.0]), name)


def _closed(chain: list[Edge], name: str) -> tuple[Edge, ...]:
    return (*chain, Edge(name, (line(chain[-1].end, chain[0].start),)))


def length_of_edge(edge: Edge) -> float:
    """Length (mm) of an edge."""
    return sum(arc(piece) for piece in edge.curve)


def resew(parts: Iterable[Part], was: Part, lower: Part, upper: Part) -> tuple[Part, ...]:
    """All parts with ``was`` replaced by ``lower`` and ``upper``; every edge of theirs is sewn to a partner again.

    An edge that the cut divides divides its partner at the same length, and the linings under both; the partner's far
    part is called "upper" and the edge's own name.
    """
    done = [part for part in parts if part is not was]
    place = next((i for i, part in enumerate(parts) if part is was), len(done))
    for edge in was.panel.edges:
        if edge.sewn_to is None or edge.finish == "fold":
            continue
        ends = [part for part in (lower, upper) if _has(part, edge.name)]
        partner, _, other = edge.sewn_to.partition("/")
        if partner == was.name:
            lower, upper = (_sewn_to_itself(part, edge.name) for part in (lower, upper))
        elif len(ends) == 2:
            far = _unused(done, partner, other)
            at = length_of_edge(lower.edge(edge.name))
            lower = lower.with_edge(edge.name, sewn_to=f"{partner}/{other}")
            upper = upper.with_edge(edge.name, sewn_to=f"{partner}/{far}")
            to = (f"{lower.name}/{edge.name}", f"{upper.name}/{edge.name}")
            done = [_divided(part, partner, (other, far), at, to) for part in done]
            back = (f"{partner}/{other}", f"{partner}/{far}")
            done = [_divided(part, was.name, (edge.name, far), at, back) for part in done]
        elif ends == [upper]:
            done = [_renamed(part, partner, other, f"{upper.name}/{edge.name}") for part in done]
    return (*done[:place], lower, upper, *done[place:])


def _has(part: Part, name: str) -> bool:
    return any(edge.name == name for edge in part.panel.edges)


def _sewn_to_itself(part: Part, name: str) -> Part:
    if not _has(part, name) or part.edge(name).finish == "fold":
        return part
    return part.with_edge(name, sewn_to=f"{part.name}/{name}")


def _unused(parts: list[Part], partner: str, name: str) -> str:
    taken = {edge.name for part in parts if part.name == partner for edge in part.panel.edges}
    names = [f"upper {name}", *(f"upper {name} {count}" for count in range(2, 9))]
    return next(each for each in names if each not in taken)


def _is_or_lines(part: Part, name: str) -> bool:
    return part.name in (name, f"{name} lining")


def _divided(part: Part, name: str, names: tuple[str, str], at: float, sewn_to: tuple[str, str]) -> Part:
    """A part, if it is the one called ``name`` or its lining, with an edge divided ``at`` mm from its start."""
    if not _is_or_lines(part, name) or not _has(part, names[0]):
        return part
    edges: list[Edge] = []
    for edge in part.panel.edges:
        if edge.name != names[0]:
            edges.append(edge)
            continue
        curves = cut_at_length(edge.curve, at)
        far = _unused([part], part.name, names[0]) if _has(part, names[1]) else names[1]
        edges += [
            replace(edge, name=each, curve=curve, sewn_to=to)
            for each, curve, to in zip((names[0], far), curves, sewn_to, strict=True)
            if curve
        ]
    return replace(part, panel=replace(part.panel, edges=tuple(edges)))


def _renamed(part: Part, name: str, edge: str, sewn_to: str) -> Part:
    return part.with_edge(edge, sewn_to=sewn_to) if _is_or_lines(part, name) and _has(part, edge) else part
