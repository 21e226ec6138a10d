"""Open sides: how wide the gap comes out on the body, how hard and how near one another the straps lie there."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator
from typing import Final

from galloon import defaults
from galloon.checks.girth import hip_bands, measured_level
from galloon.checks.model import Evidence
from galloon.checks.wear import band_pressure, band_word
from galloon.design import OpenSide
from galloon.findings import Finding, Status
from galloon.materials.tension import tension_at
from galloon.pieces import (
    USUAL_STRAIN,
    Garment,
    gap_at,
    side_height,
    strap_pull,
    strap_stretch,
    straps_of,
    worn_strain,
)
from galloon.said import Term, said
from galloon.units import format_length

#: How far the gap may come out from what was asked (share of it, and mm) before it is told; chosen, no source.
_GAP_OFF: Final = (0.15, 8.0)
#: Straps worn stretched by less than this (fraction) hang loose; chosen, no source.
_LOOSE: Final = 0.04


def open_side(evidence: Evidence) -> list[Finding]:
    """Findings on the gap and the straps; none where the sides are not open."""
    garment, side = evidence.garment, evidence.garment.design.open_side
    if side is None or not straps_of(garment):
        return []
    worn = _worn(garment, side)
    return [*_gap(garment, side, worn), *_strain(side, worn), *_apart(garment, side), *_press(garment, side, worn)]


def _worn(garment: Garment, side: OpenSide) -> float:
    """How far the straps are stretched where panels and straps come to rest round the hip."""
    tension = tension_at(hip_bands(garment), garment.design.wearer.hip)
    return max(0.0, strap_stretch(garment, side).strain(tension)) if math.isfinite(tension) else 0.0


def _gap(garment: Garment, side: OpenSide, strain: float) -> Iterator[Finding]:
    asked = gap_at(garment, measured_level(garment))
    worn = asked / (1.0 + worn_strain(garment, side)) * (1.0 + strain)
    unit, name = garment.design.units, "gap of the open side"
    off = abs(worn - asked)
    if off <= max(_GAP_OFF[0] * asked, _GAP_OFF[1]):
        says = said(
            "Worn, each open side shows a gap of about {worn} at the hip, with {count} of {strap} across it.",
            worn=format_length(round(worn), unit), count=_count(side), strap=Term(side.elastic.name),
        )  # fmt: skip
        yield Finding(name, Status.PASS, says, worn, asked, "mm", "front/side")
        return
    says = said(
        "Worn, panels and straps come to rest with a gap of {worn} at each side of the hip, where {asked} was asked: "
        "{strap} gives {more} than the panels. {mend}",
        worn=format_length(round(worn), unit), asked=format_length(round(asked), unit), strap=Term(side.elastic.name),
        more=said("more") if worn > asked else said("less"),
        mend=said("Take a firmer strap, or more of them.") if worn > asked else said("Take a softer strap, or fewer."),
    )  # fmt: skip
    yield Finding(name, Status.WARN, says, worn, asked, "mm", "front/side")


def _count(side: OpenSide) -> str:
    return said("1 strap") if side.straps == 1 else said("{count} straps", count=side.straps)


def _strain(side: OpenSide, worn: float) -> Iterator[Finding]:
    name, strap = "strap strain", Term(side.elastic.name)
    figures = (worn * 100.0, USUAL_STRAIN[1] * 100.0, "%", "front/side")
    if worn > side.elastic.stretch + 1e-9:
        says = said(
            "Worn, the straps would be stretched by {worn:.0%}, but {strap} stretches {most:.0%}: they would give out. "
            "Take more of them, or a stretchier one.",
            worn=worn, strap=strap, most=side.elastic.stretch,
        )  # fmt: skip
        yield Finding(name, Status.FAIL, says, *figures)
    elif worn > USUAL_STRAIN[1] + 0.02:
        says = said(
            "Worn, the straps are stretched by {worn:.0%}; 10 to 20% is usual. That tight they bear on the hip bone "
            "and the crease of the groin: take more of them, a softer one, or lower worn_stretch.",
            worn=worn,
        )  # fmt: skip
        yield Finding(name, Status.WARN, says, *figures)
    elif worn < _LOOSE:
        says = said(
            "Worn, the straps are stretched by {worn:.0%} only and hang loose: take fewer, or a softer one.", worn=worn
        )
        yield Finding(name, Status.WARN, says, *figures)
    else:
        says = said("Worn, the straps are stretched by {worn:.0%}; 10 to 20% is usual.", worn=worn)
        yield Finding(name, Status.PASS, says, *figures)


def _apart(garment: Garment, side: OpenSide) -> Iterator[Finding]:
    """How much of a side edge hangs free between two straps, or beyond one alone."""
    levels = [straps.front.at.imag for straps in straps_of(garment)]
    between = [one - other - side.elastic.width for one, other in itertools.pairwise(levels)]
    free = max(between) if between else (side_height(garment) - side.elastic.width) / 2.0
    most, unit = float(defaults.STRAPS_APART), garment.design.units
    name, figures = "straps hold the side edge", (free, most, "mm", "front/side")
    if free <= most:
        says = said("At most {free} of the side edge hangs free between straps.", free=format_length(free, unit))
        yield Finding(name, Status.PASS, says, *figures)
        return
    need = side.straps + math.ceil((free - most) * max(1, side.straps - 1) / (most + side.elastic.width))
    says = said(
        "{free} of the side edge hangs free {where}; over {most} it curls and stands off. Take {need} straps, wider "
        "ones, or a side that is less high: raise the leg or lower the waist.",
        free=format_length(free, unit), most=format_length(most, unit), need=max(need, side.straps + 1),
        where=said("between two straps") if between else said("above and below the strap"),
    )  # fmt: skip
    yield Finding(name, Status.WARN, says, *figures)


def _press(garment: Garment, side: OpenSide, worn: float) -> Iterator[Finding]:
    """How firmly one strap presses, as a mean round the hip, where a pull test tells what it takes."""
    pull = strap_pull(side.elastic)
    if pull is None:
        return
    force = pull * worn
    pascal = band_pressure(force, garment.design.wearer.hip, side.elastic.width)
    word = band_word(pascal)
    status = {"light": Status.PASS, "medium": Status.PASS, "firm": Status.WARN}.get(word, Status.FAIL)
    says = said(
        "Each strap pulls with {force:.1f} N; its hold is {word}, as a mean over the hip, and more over the hip bone.",
        force=force, word=Term(word),
    )  # fmt: skip
    yield Finding("hold of the straps", status, says, pascal, float(defaults.PRESSURE_FIRM), "Pa", "front/side")
