"""Splits panels along style lines, straight or curved: two parts from one, sewn to each other along the line."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Final

from galloon import defaults
from galloon.design import Design, Split
from galloon.drafting import Edge, Panel
from galloon.findings import Finding, Status
from galloon.geometry import (
    Crossing,
    Curve,
    crossings,
    curve_through,
    cut_curve,
    distance_between,
    end_direction,
    flatten,
    line,
    mirrored,
    reversed_curve,
    start_direction,
)
from galloon.lace.cut_panel import resew
from galloon.said import Term, said
from galloon.styling import Part
from galloon.tolerance import SQUARE

#: A style line that ends this near the edge (mm) is carried on to it.
_REACH: Final = 15.0


def split_panels(
    design: Design, splits: Sequence[Split], parts: tuple[Part, ...]
) -> tuple[tuple[Part, ...], tuple[Finding, ...]]:
    """The parts with every style line cut; a line that cuts no panel in just two is a finding and leaves it whole."""
    found: list[Finding] = []
    for split in splits:
        here = [part for part in parts if part.covers == split.panel and not part.lining and not part.laid_on]
        curve = style_curve(split, on_fold=any(part.fold for part in here))
        for part in here:
            halves = _halves(design, split, part, curve, {each.name for each in parts})
            if halves is not None and not all(_enough_left(half) for half in halves):
                found.append(_under_trim(split))
                break
            if halves is not None:
                parts = resew(parts, part, *halves)
                found += _across_fold(part, curve)
                break
        else:
            says = said(
                "The style line across the {panel} does not run from one edge to another (the gusset seam left out), "
                "so it was not cut. Let its first and last point lie on the panel's outline.",
                panel=Term(split.panel),
            )
            found.append(Finding("style line", Status.FAIL, says, about=split.panel))
    return parts, tuple(found)


def _enough_left(part: Part) -> bool:
    """Whether an edge that is cut short beneath a lace laid on it stays clear of all edges it does not meet."""
    edges = part.panel.edges
    lines = [flatten(edge.curve, 0.5) for edge in edges]
    last = len(edges) - 1
    return all(
        distance_between(lines[i], lines[j]) >= -edge.allowance + defaults.TRIM_CLEAR / 2.0
        for i, edge in enumerate(edges)
        if edge.allowance < 0.0
        for j in range(len(edges))
        if abs(i - j) not in (0, 1, last)
    )


def _under_trim(split: Split) -> Finding:
    says = said(
        "The style line across the {panel} leaves nothing but what a lace laid on the edge covers, so it was not cut. "
        "Move the line, or finish that edge with a narrower lace.",
        panel=Term(split.panel),
    )
    return Finding("style line", Status.FAIL, says, about=split.panel)


def style_curve(split: Split, *, on_fold: bool) -> Curve:
    """The line through the points of ``split``, carried on straight at both ends; level where it meets a fold."""
    points = [complex(x, y) for x, y in split.points]
    if not split.curved or len(points) < 2:
        curve = tuple(line(p, q) for p, q in pairwise(points))
    else:
        first = on_fold and abs(points[0].real) < 1.0
        last = on_fold and abs(points[-1].real) < 1.0
        whole = [*([mirrored(points[1])] if first else []), *points, *([mirrored(points[-2])] if last else [])]
        curve = curve_through(whole)[int(first) : len(whole) - 1 - int(last)]
    head, tail = start_direction(curve), end_direction(curve)
    return (line(points[0] - _REACH * head, points[0]), *curve, line(points[-1], points[-1] + _REACH * tail))


def _halves(design: Design, split: Split, part: Part, curve: Curve, names: set[str]) -> tuple[Part, Part] | None:
    places = [(cut, index) for index, edge in enumerate(part.panel.edges) for cut in crossings(curve, edge.curve)]
    places.sort()
    if len(places) != 2 or places[0][1] == places[1][1]:
        return None
    if any(part.panel.edges[index].name == "gusset" for _, index in places):
        return None
    between = _between(curve, places[0][0], places[1][0])
    (first, at), (second, until) = places
    tail = _chain(part.panel.edges, (at, first), (until, second))
    rest = _chain(part.panel.edges, (until, second), (at, first))
    chains = ((*tail, Edge("style line", reversed_curve(between))), (*rest, Edge("style line", between)))
    upper, lower = sorted(chains, key=_is_lower)
    return _dressed(design, split, part, lower, upper=upper, names=names)


def _between(curve: Curve, first: Crossing, last: Crossing) -> Curve:
    _, tail = cut_curve(curve, first.first, first.t)
    index = last.first - first.first
    t = last.t if index else (last.t - first.t) / (1.0 - first.t)
    return cut_curve(tail, index, t)[0]


def _chain(edges: tuple[Edge, ...], start: tuple[int, Crossing], stop: tuple[int, Crossing]) -> tuple[Edge, ...]:
    """The ring's edges from one crossing to the next, walked on."""
    (i, first), (j, last) = start, stop
    head = replace(edges[i], curve=cut_curve(edges[i].curve, first.second, first.u)[1])
    end = replace(edges[j], curve=cut_curve(edges[j].curve, last.second, last.u)[0])
    count = (j - i) % len(edges)
    return (head, *(edges[(i + step) % len(edges)] for step in range(1, count)), end)


def _is_lower(chain: tuple[Edge, ...]) -> tuple[bool, bool]:
    """False first for the part with the waist, or, where both have some of it, for the one at the side."""
    names = [edge.name for edge in chain]
    beside = any(names[i - 1] == "side" and name == "waist" for i, name in enumerate(names))
    return "waist" not in names, not beside


def _dressed(
    design: Design, split: Split, part: Part, lower: tuple[Edge, ...], *, upper: tuple[Edge, ...], names: set[str]
) -> tuple[Part, Part]:
    beside = any(edge.name == "waist" for edge in lower)
    wanted = f"{'side' if beside else 'upper'} {part.covers}"
    name = next(each for each in (wanted, *(f"{wanted} {n}" for n in range(2, 9))) if each not in names)
    cloth = split.cloth or (design.panels.upper_back if split.panel == "back" else "") or part.cloth
    seam = {"allowance": design.allowances.seam}
    below = _part(part, Panel(part.name, lower)).with_edge("style line", sewn_to=f"{name}/style line", **seam)
    above = _part(part, Panel(name, upper)).with_edge("style line", sewn_to=f"{part.name}/style line", **seam)
    if cloth != part.cloth:
        above = replace(above, cloth=cloth, greatest_stretch=0.0)
    return below, above


def _part(part: Part, panel: Panel) -> Part:
    """A piece of ``part``; one that no longer reaches the fold is cut twice, mirrored."""
    if part.fold is None or any(edge.name == part.fold for edge in panel.edges):
        return replace(part, panel=panel)
    return replace(part, panel=panel, fold=None, quantity=2, mirrored=True)


def _across_fold(part: Part, curve: Curve) -> list[Finding]:
    """A style line that meets a fold at a slant makes a point there."""
    if part.fold is None:
        return []
    slants = [
        abs(direction.imag)
        for point, direction in ((curve[1].start, start_direction(curve)), (curve[-1].start, end_direction(curve)))
        if abs(point.real) < _REACH and abs(direction.imag) > SQUARE / 57.3
    ]
    if not slants:
        return []
    says = said(
        "The style line meets the fold of the {piece} at a slant, so it comes to a point there: clip into the point "
        "when you sew it, curve the line (curved = true), or use a centre seam.",
        piece=Term(part.name),
    )
    return [Finding("style line", Status.WARN, says, about=f"{part.name}/style line")]
