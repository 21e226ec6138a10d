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
from galloon.styling import Laid
from galloon.units import format_length

_USES = {Use.OVERLAY: "overlay", Use.INSERTION: "insertion"}
#: Laid pieces that share less than this (mm²) do not count as lying on one another.
_SHARED = 25.0


def overlay(evidence: Evidence) -> list[Finding]:
    """Findings on every overlay and insertion, and on laid pieces that meet."""
    garment = evidence.garment
    found = [
        finding
        for one in garment.placements
        if one.use in _USES
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
    name = f"{_USES[placement.use]} strain"
    figures = (min(course.strain, 9.99) * 100.0, course.usual * 100.0, "%", placement.piece)
    status = judged(course)
    says = f"{_reckoned(garment, placement)}{_says(garment, course)}."
    if status is not Status.PASS:
        says += " Make it narrower, keep or cut away the cloth behind, or choose a stretchier lace."
    return [Finding(name, status, says, *figures)]


def _laid_of(host: Piece, name: str) -> Iterator[Laid]:
    return (one for one in host.part.laid if one.name == name)


def _reckoned(garment: Garment, placement: Placement) -> str:
    laid = next(one for host in garment.outer for one in _laid_of(host, placement.piece))
    how = "alone, the cloth behind it cut away" if laid.cut_away else "together with the cloth behind it"
    return f"The {placement.piece} carries {how}: "


def _says(garment: Garment, course: Course) -> str:
    unit = garment.design.units
    if course.needs is not None and course.opens < course.needs:
        return (
            f"the course past it opens to {format_length(course.opens, unit)} and must pass "
            f"{format_length(course.needs, unit)}"
        )
    if course.usual <= 0.0:
        return f"nothing on the course past it stretches, the {course.band} included"
    return (
        f"on the tightest course past it the {course.band} is stretched by {course.strain:.0%} of {course.stretch:.0%}"
    )


def _straight(garment: Garment, placement: Placement) -> list[Finding]:
    """A straight stitch across stretching layers holds them, and cracks."""
    laid = next((one for host in garment.outer for one in _laid_of(host, placement.piece)), None)
    if laid is None or not laid.straight:
        return []
    cloth = garment.design.cloths[laid.cloth]
    if cloth.rigid:
        return []
    says = (
        f"The {placement.piece} is sewn with a straight stitch, which does not stretch as the lace does and will "
        'crack when it is pulled on: write stitch = "zigzag".'
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
        says = (
            f"The {one.name} and the {other.name} cannot stand together on the {host.name}: where they meet the cloth "
            "would be cut away behind both. Move one, or write cut_away = false for one of them."
        )
        return Finding(name, Status.FAIL, says, about=about)
    says = f"The {other.name} lies partly on the {one.name}: sew the {one.name} on first."
    return Finding(name, Status.PASS, says, about=about)
