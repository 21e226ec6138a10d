"""Overlay and insertion: strain and reach where lace lies on a panel, alone where the cloth behind is cut away, else
both layers together; and laid pieces that cannot lie on one another.
"""

from __future__ import annotations

import itertools
from collections.abc import Iterator

import shapely

from galloon.checks.courses import Course, judged, worst_course
from galloon.checks.model import Evidence
from galloon.design import Use
from galloon.findings import Finding, Status
from galloon.geometry import coordinates
from galloon.lace import Placement
from galloon.pieces import Garment, Piece
from galloon.said import Said, Term, in_a_row, said
from galloon.styling import Laid
from galloon.units import format_length

_STRAIN = {Use.OVERLAY: "overlay strain", Use.INSERTION: "insertion strain"}
#: Laid pieces that share less than this (mm²) do not count as lying on one another.
_SHARED = 25.0


def overlay(evidence: Evidence) -> list[Finding]:
    """Findings on every overlay and insertion, and on laid pieces that meet."""
    garment = evidence.garment
    found = [
        finding
        for one in garment.placements
        if one.use in _STRAIN
        for finding in (*_strain(garment, one), *_straight(garment, one))
    ]
    return [*found, *_on_one_another(garment)]


def _strain(garment: Garment, placement: Placement) -> list[Finding]:
    piece = garment.piece(placement.piece)
    bodies = ("front", "back") if piece.part.covers == "side" else (piece.part.covers,)
    found = [
        course
        for body in bodies
        if (rings := [one.ring for host in garment.covering(body) for one in _laid_of(host, placement.piece)])
        and (course := worst_course(garment, rings, body)) is not None
    ]
    if not found:
        return []
    course = max(found, key=lambda one: one.load)
    name = _STRAIN[placement.use]
    figures = (min(course.strain, 9.99) * 100.0, course.usual * 100.0, "%", placement.piece)
    status = judged(course)
    says = _reckoned(garment, placement, _says(garment, course))
    if status is not Status.PASS:
        mend = said("Make it narrower, keep or cut away the cloth behind, or choose a stretchier lace.")
        says = in_a_row(" ", [says, mend])
    return [Finding(name, status, says, *figures)]


def _laid_of(host: Piece, name: str) -> Iterator[Laid]:
    return (one for one in host.part.laid if one.name == name)


def _reckoned(garment: Garment, placement: Placement, how: Said) -> Said:
    laid, piece = next(one for host in garment.outer for one in _laid_of(host, placement.piece)), Term(placement.piece)
    if laid.cut_away:
        return said("The {piece} carries alone, the cloth behind it cut away: {how}.", piece=piece, how=how)
    return said("The {piece} carries together with the cloth behind it: {how}.", piece=piece, how=how)


def _says(garment: Garment, course: Course) -> Said:
    unit = garment.design.units
    if course.needs is not None and course.opens < course.needs:
        return said(
            "the course past it opens to {opens} and must pass {needs}",
            opens=format_length(course.opens, unit), needs=format_length(course.needs, unit),
        )  # fmt: skip
    if course.usual <= 0.0:
        return said("nothing on the course past it stretches, the {band} included", band=course.band)
    return said(
        "on the tightest course past it the {band} is stretched by {strain:.0%} of {stretch:.0%}",
        band=course.band, strain=course.strain, stretch=course.stretch,
    )  # fmt: skip


def _straight(garment: Garment, placement: Placement) -> list[Finding]:
    """A straight stitch across stretching layers holds them, and cracks."""
    laid = next((one for host in garment.outer for one in _laid_of(host, placement.piece)), None)
    if laid is None or not laid.straight:
        return []
    cloth = garment.design.cloths[laid.cloth]
    if cloth.rigid:
        return []
    says = said(
        "The {piece} is sewn with a straight stitch, which does not stretch as the lace does and will crack when it is "
        'pulled on: take a zigzag (stitch = "zigzag").',
        piece=Term(placement.piece),
    )
    return [Finding("stitch stretches with the lace", Status.WARN, says, about=placement.piece)]


def _on_one_another(garment: Garment) -> list[Finding]:
    """Where two laid pieces meet with nothing left behind both, they cannot stand together."""
    found: dict[tuple[str, str], Finding] = {}
    for host in garment.outer:
        for one, other in itertools.combinations(host.part.laid, 2):
            apart = {one.half, other.half} == {"right", "left"}
            if one.name == other.name or apart or _shared(one, other) < _SHARED:
                continue
            found.setdefault((one.name, other.name), _meeting(host, one, other))
    return list(found.values())


def _shared(one: Laid, other: Laid) -> float:
    areas = [shapely.make_valid(shapely.polygons(coordinates(laid.ring))) for laid in (one, other)]
    return float(shapely.area(shapely.intersection(*areas)))


def _meeting(host: Piece, one: Laid, other: Laid) -> Finding:
    name, about = "laid pieces go together", f"{one.name} and {other.name}"
    if one.cut_away and other.cut_away:
        says = said(
            "The {one} and the {other} cannot stand together on the {panel}: where they meet the cloth would be cut "
            "away behind both. Move one, or keep the cloth behind one of them (cut_away = false).",
            one=Term(one.name), other=Term(other.name), panel=Term(host.name),
        )  # fmt: skip
        return Finding(name, Status.FAIL, says, about=about)
    says = said(
        "The {upper} lies partly on the {under}: sew the {under} on first.",
        upper=Term(other.name), under=Term(one.name),
    )  # fmt: skip
    return Finding(name, Status.PASS, says, about=about)
