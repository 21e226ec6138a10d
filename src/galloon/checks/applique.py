"""Applique: what motifs sewn down take from the stretch of the courses they lie on, and how large they may be."""

from __future__ import annotations

import numpy as np

from galloon.checks.courses import Course, judged, rings_of, scaled, worst_course
from galloon.checks.model import Evidence
from galloon.design import Use
from galloon.findings import Finding, Status
from galloon.lace import Placement
from galloon.pieces import Garment
from galloon.units import format_length

#: Steps of the bisection for the largest cluster: to a thousandth of its size.
_STEPS = 10
_SMALLEST = 0.02


def applique(evidence: Evidence) -> list[Finding]:
    """One finding for every motif or cluster."""
    garment = evidence.garment
    return [_finding(garment, one) for one in garment.placements if one.use is Use.APPLIQUE]


def _finding(garment: Garment, placement: Placement) -> Finding:
    name, body = "applique leaves stretch", garment.piece(placement.piece).part.covers
    course = worst_course(garment, rings_of(garment, placement.piece), body)
    if course is None:
        return Finding(name, Status.WARN, f"The {placement.piece} lies on no panel.", about=placement.piece)
    status = judged(course)
    figures = (min(course.strain, 9.99) * 100.0, course.usual * 100.0, "%", placement.piece)
    if status is Status.PASS:
        says = f"On the course past the {placement.piece}, {_how(garment, placement, course)}."
        return Finding(name, status, says, *figures)
    says = (
        f"The {placement.piece} takes too much of the stretch: {_how(garment, placement, course)}. "
        f"{_largest(garment, placement, body)}"
    )
    return Finding(name, status, says, *figures)


def _how(garment: Garment, placement: Placement, course: Course) -> str:
    laid = next(one for piece in garment.outer for one in piece.part.laid if one.name == placement.piece)
    carries = "which does not stretch" if laid.rigid else "which stretches with the cloth"
    if course.needs is not None and course.opens < course.needs:
        return (
            f"with the motif, {carries}, the course opens to {format_length(course.opens, garment.design.units)} "
            f"and must pass {format_length(course.needs, garment.design.units)}"
        )
    if course.strain == float("inf"):
        return f"the motif, {carries}, covers the whole course"
    return f"with the motif, {carries}, the {course.band} is stretched by {course.strain:.0%} of {course.stretch:.0%}"


def largest_scale(garment: Garment, name: str, body: str) -> float:
    """The largest scale (of its present size, at most 1) at which the laid part still passes; 0 where none does."""

    def passes(scale: float) -> bool:
        smaller = scaled(garment, name, scale)
        course = worst_course(smaller, rings_of(smaller, name), body)
        return course is not None and judged(course) is Status.PASS

    if not passes(_SMALLEST):
        return 0.0
    low, high = _SMALLEST, 1.0
    for _ in range(_STEPS):
        middle = (low + high) / 2.0
        low, high = (middle, high) if passes(middle) else (low, middle)
    return low


def _largest(garment: Garment, placement: Placement, body: str) -> str:
    scale = largest_scale(garment, placement.piece, body)
    if scale <= 0.0:
        return "The panel itself is at its limit there, so no motif would pass: choose a stretchier cloth."
    points = garment.piece(placement.piece).stitch
    wide, high = (scale * float(np.ptp(each)) for each in (points.real, points.imag))
    unit = garment.design.units
    return (
        f"The largest that still passes there is {scale:.0%} of its size, {format_length(wide, unit)} wide and "
        f"{format_length(high, unit)} high; or sew it on with a zigzag and stretches = true if its lace stretches."
    )
