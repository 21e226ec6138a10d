"""When worn: how hard each panel is stretched, where the side seams sit, how firmly it presses."""

from __future__ import annotations

import math

from galloon import defaults
from galloon.checks.girth import hip_bands, measured_level
from galloon.checks.model import Evidence
from galloon.findings import Finding, Status
from galloon.materials.tension import Band, tension_at
from galloon.pieces import gap_at
from galloon.said import Term, listed, said
from galloon.units import format_length


def wear(evidence: Evidence) -> list[Finding]:
    """Findings on the worn garment at hip level."""
    garment = evidence.garment
    bands = hip_bands(garment)
    tension = tension_at(bands, garment.design.wearer.hip)
    if not math.isfinite(tension):
        return [_nothing_gives(evidence, bands)]
    strains = list(dict.fromkeys(_strain(band, max(0.0, tension)) for band in bands if not band.strap))
    return [*strains, *_side_seams(evidence, bands, tension), *_pressure(evidence, tension), *_assumed(evidence)]


def _nothing_gives(evidence: Evidence, bands: list[Band]) -> Finding:
    hip = evidence.garment.design.wearer.hip
    total = sum(band.width for band in bands)
    status = Status.PASS if total >= hip else Status.FAIL
    says = said(
        "Nothing in this garment stretches: it is {round} round at the hip of {hip}.",
        round=format_length(total), hip=format_length(hip),
    )  # fmt: skip
    return Finding("panel strain", status, says, total, hip, "mm", "front")


def _strain(band: Band, tension: float) -> Finding:
    strain = band.cloth.strain(tension)
    usual = min(defaults.WORN_SHARE_LIMIT * band.cloth.stretch, float(defaults.WORN_STRAIN_LIMIT))
    about = band.name
    if band.cloth.rigid:
        says = said("The {panel} does not stretch.", panel=band.name)
        return Finding("panel strain", Status.PASS, says, 0.0, 0.0, "%", about)
    figures = (strain * 100.0, usual * 100.0, "%", about)
    told = {"panel": band.name, "strain": strain, "stretch": band.cloth.stretch}
    if strain <= usual + 1e-9:
        says = said("Worn, the {panel} is stretched by {strain:.0%} of the {stretch:.0%} it can.", **told)
        return Finding("panel strain", Status.PASS, says, *figures)
    status = Status.FAIL if strain > band.cloth.stretch else Status.WARN
    says = said(
        "Worn, the {panel} is stretched by {strain:.0%}; {usual:.0%} is the most for a cloth that stretches "
        "{stretch:.0%}. Make it wider or choose a stretchier cloth.",
        usual=usual, **told,
    )  # fmt: skip
    return Finding("panel strain", status, says, *figures)


def _side_seams(evidence: Evidence, bands: list[Band], tension: float) -> list[Finding]:
    """Where the side seam, or the middle of an open side, sits on the body, from the front's worn width; planned
    shifts taken off.
    """
    design = evidence.garment.design
    front_bands = hip_bands(evidence.garment, "front")
    if design.style.side_forward is None or len(bands) <= len(front_bands):
        return []
    front = sum(band.width * (1.0 + band.cloth.strain(tension)) for band in front_bands)
    widest = max(front_bands, key=lambda band: band.width)
    planned = design.style.side_forward * (1.0 + widest.cloth.strain(tension))
    gap = gap_at(evidence.garment, measured_level(evidence.garment))
    off = (front + gap - design.wearer.hip / 2.0) / 2.0 + planned
    seams = Term("side seams" if design.open_side is None else "open sides")
    limit = float(defaults.SIDE_SEAM_SHIFT)
    if abs(off) <= limit:
        within = format_length(limit, design.units)
        says = said("Worn, the {seams} sit within {within} of where they were drawn.", seams=seams, within=within)
        return [Finding("side seams sit at the side", Status.PASS, says, off, limit, "mm", "front/side")]
    says = said(
        "Worn, the {seams} are pulled {where} by {by}, because front and back stretch differently for their widths.",
        seams=seams,
        where=said("forward") if off < 0.0 else said("back"),
        by=format_length(abs(off), design.units),
    )
    return [Finding("side seams sit at the side", Status.WARN, says, off, limit, "mm", "front/side")]


def pressure(tension: float, girth: float) -> float:
    """Mean pressure (Pa) of a cloth under ``tension`` N/m round a girth (mm): p = T'/r = 2πT'/C (Laplace)."""
    return 2.0 * math.pi * tension / (girth / 1000.0)


def band_pressure(force: float, girth: float, width: float) -> float:
    """Mean pressure (Pa) of a band pulling with ``force`` N, ``width`` mm wide, round a girth (mm)."""
    return pressure(force / (width / 1000.0), girth)


def band_word(pascal: float) -> str:
    """Light, medium, firm or very firm; bands after the table named in the defaults."""
    if pascal <= defaults.PRESSURE_LIGHT:
        return "light"
    if pascal <= defaults.PRESSURE_FIRM:
        return "medium"
    return "firm" if pascal <= defaults.PRESSURE_HIGH else "very firm"


def _pressure(evidence: Evidence, tension: float) -> list[Finding]:
    design = evidence.garment.design
    if not any(design.cloths[name].pull_tests for _, name in design.panels.items()[:2]):
        return []
    pascal = pressure(max(0.0, tension), design.wearer.hip)
    word = band_word(pascal)
    status = {"light": Status.PASS, "medium": Status.PASS, "firm": Status.WARN}.get(word, Status.FAIL)
    says = said(
        "The hold of the panels at the hip is {word}, as a mean over the body; where it curves tightly it is more.",
        word=Term(word),
    )
    return [Finding("hold of the panels", status, says, pascal, float(defaults.PRESSURE_FIRM), "Pa", "front")]


def _assumed(evidence: Evidence) -> list[Finding]:
    """Say what was assumed where stretch percentages stand in for a pull test."""
    design = evidence.garment.design
    names = {design.panels.front, design.panels.back}
    without = sorted(name for name in names if not design.cloths[name].pull_tests and not design.cloths[name].rigid)
    if len(names) < 2 or not without:
        return []
    says = (
        said(
            "Front and back are shared out as if {cloths} was pulled as hard when its stretch was measured as a weight "
            "of 3 N on every cm of width. A pull test of each cloth makes this exact.",
            cloths=listed(without),
        )
        if len(without) == 1
        else said(
            "Front and back are shared out as if {cloths} were pulled as hard when their stretch was measured as a "
            "weight of 3 N on every cm of width. A pull test of each cloth makes this exact.",
            cloths=listed(without),
        )
    )
    return [Finding("equal pull assumed", Status.PASS, says, about="front/side")]
