"""Lapped lace seams: the lace laps over its neighbour and is cut round its motifs; the layer below stays narrow."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from galloon.design import Design
from galloon.findings import Finding, Status
from galloon.materials import Kind
from galloon.said import Said, Term, said
from galloon.styling.model import Part


def lap_seams(design: Design, parts: Iterable[Part]) -> tuple[tuple[Part, ...], tuple[Finding, ...]]:
    """The parts with every seam of ``style.lapped`` lapped; a name no seam has, or one without lace, is a finding."""
    done = {part.name: part for part in parts}
    found: list[Finding] = []
    for name in design.style.lapped:
        joins = [
            (part.name, edge.name, edge.sewn_to)
            for part in done.values()
            for edge in part.panel.edges
            if not part.lining
            and not part.laid_on
            and edge.name in (name, f"upper {name}")
            and edge.sewn_to
            and edge.finish == "seam"
        ]
        if not joins:
            says = said('There is no seam called "{seam}" to lap here; nothing was lapped for it.', seam=Term(name))
            found.append(_says(says, name))
        for piece, edge, partner in joins:
            found += _lap(design, done, (piece, edge), partner)
    return tuple(done.values()), tuple(found)


def _lap(design: Design, parts: dict[str, Part], here: tuple[str, str], partner: str) -> list[Finding]:
    name, _, edge = partner.partition("/")
    there = (name, edge)
    if name not in parts or parts[here[0]].edge(here[1]).finish != "seam":
        return []
    if there == here:
        return _lap_centre(design, parts, here)
    ends = sorted((here, there), key=lambda end: (not _is_lace(design, parts[end[0]]), end[0] != "front", end))
    if not _is_lace(design, parts[ends[0][0]]):
        return [_no_lace(here)]
    upper, under = ends
    parts[upper[0]] = parts[upper[0]].with_edge(upper[1], finish="lapped", allowance=design.allowances.lapped_upper)
    parts[under[0]] = parts[under[0]].with_edge(under[1], allowance=design.allowances.lapped_under)
    return []


def _lap_centre(design: Design, parts: dict[str, Part], here: tuple[str, str]) -> list[Finding]:
    """Both halves are cut alike with the upper allowance; the one that comes to lie below is trimmed."""
    part = parts[here[0]]
    if not _is_lace(design, part):
        return [_no_lace(here)]
    parts[here[0]] = part.with_edge(here[1], finish="lapped", allowance=design.allowances.lapped_upper)
    says = said(
        "Both halves of the {piece} are cut with the lapped allowance at the centre; trim the one that comes below to "
        "{under:g} mm before lapping.",
        piece=Term(here[0]), under=design.allowances.lapped_under,
    )  # fmt: skip
    return [replace(_says(says, f"{here[0]}/{here[1]}"), status=Status.PASS)]


def _is_lace(design: Design, part: Part) -> bool:
    return design.cloths[part.cloth].kind is Kind.LACE


def _no_lace(here: tuple[str, str]) -> Finding:
    about = "/".join(here)
    return _says(said("{edge} joins no lace, so it was not lapped but seamed.", edge=Term(about)), about)


def _says(says: Said, about: str) -> Finding:
    return Finding("lapped seam", Status.WARN, says, about=about)
