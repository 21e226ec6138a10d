"""Applique: what motifs sewn down take from the stretch of the courses they lie on, and how large they may be."""

from __future__ import annotations

import numpy as np

from galloon.checks.courses import Course, judged, rings_of, scaled, worst_course
from galloon.checks.model import Evidence
from galloon.design import Use
from galloon.findings import Finding, Status
from galloon.lace import Placement
from galloon.pieces import Garment
from galloon.said import Said, Term, said
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
        says = said("The {piece} lies on no panel.", piece=Term(placement.piece))
        return Finding(name, Status.WARN, says, about=placement.piece)
    status = judged(course)
    figures = (min(course.strain, 9.99) * 100.0, course.usual * 100.0, "%", placement.piece)
    piece, how = Term(placement.piece), _how(garment, placement, course)
    if status is Status.PASS:
        return Finding(name, status, said("On the course past the {piece}, {how}.", piece=piece, how=how), *figures)
    says = said(
        "The {piece} takes too much of the stretch: {how}. {largest}",
        piece=piece, how=how, largest=_largest(garment, placement, body),
    )  # fmt: skip
    return Finding(name, status, says, *figures)


def _how(garment: Garment, placement: Placement, course: Course) -> Said:
    laid = next(one for piece in garment.outer for one in piece.part.laid if one.name == placement.piece)
    carries = said("which does not stretch") if laid.rigid else said("which stretches with the cloth")
    if course.needs is not None and course.opens < course.needs:
        return said(
            "with the motif, {carries}, the course opens to {opens} and must pass {needs}",
            carries=carries,
            opens=format_length(course.opens, garment.design.units),
            needs=format_length(course.needs, garment.design.units),
        )
    if course.strain == float("inf"):
        return said("the motif, {carries}, covers the whole course", carries=carries)
    return said(
        "with the motif, {carries}, the {band} is stretched by {strain:.0%} of {stretch:.0%}",
        carries=carries,
        band=course.band,
        strain=course.strain,
        stretch=course.stretch,
    )


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


def _largest(garment: Garment, placement: Placement, body: str) -> Said:
    scale = largest_scale(garment, placement.piece, body)
    if scale <= 0.0:
        return said("The panel itself is at its limit there, so no motif would pass: choose a stretchier cloth.")
    points = garment.piece(placement.piece).stitch
    wide, high = (scale * float(np.ptp(each)) for each in (points.real, points.imag))
    unit = garment.design.units
    return said(
        "The largest that still passes there is {scale:.0%} of its size, {wide} wide and {high} high; or, if its lace "
        "stretches, sew it on with a zigzag so that it stretches with the cloth (stretches = true).",
        scale=scale, wide=format_length(wide, unit), high=format_length(high, unit),
    )  # fmt: skip
