"""Will it go on: how far the waist and the legs open, and what stops them."""

from __future__ import annotations

from galloon import defaults
from galloon.body import leg_line_on_body, thigh_of
from galloon.checks.model import Evidence
from galloon.checks.rigid import rigid_finding, rigid_room
from galloon.design import Shape
from galloon.findings import Finding, Status
from galloon.materials.tension import Band, reach, relaxed
from galloon.said import Said, in_a_row, said
from galloon.units import format_length

#: Relaxed leg opening over the leg line on the body, least and most, by shape; common practice, no source.
LEG_LIMITS: dict[Shape, tuple[float, float]] = {
    Shape.BRIEF: (0.82, 1.02),
    Shape.HIPSTER: (0.80, 1.02),
    Shape.BIKINI: (0.76, 1.02),
    Shape.HIGH_LEG: (0.74, 1.02),
    Shape.TANGA: (0.70, 1.02),
    Shape.THONG: (0.62, 1.02),
}


def openings(evidence: Evidence) -> list[Finding]:
    """Findings on the waist and the leg openings."""
    return [*_waist(evidence), *_leg(evidence), *_leg_on_body(evidence)]


def opening_reach(evidence: Evidence, name: str) -> tuple[float, str]:
    """How far (mm) the opening ``name`` stretches, and what ends it: a panel, its elastic, or its stitching."""
    bands = evidence.bands[name]
    cloth, first = reach(bands)
    ends = said("the {panel}", panel=first) if first else said("the cloth, which does not stretch")
    found: list[tuple[float, str]] = [(cloth, ends)]
    if name in evidence.elastics:
        found.append((evidence.elastics[name].reach, evidence.elastics[name].kind))
        found.append((_stitched(bands), said("the stitching")))
    return min(found)


def _stitched(bands: list[Band]) -> float:
    """How far (mm) an opening goes before its stitching cracks; straps carry none between their ends."""
    straps = [band for band in bands if band.strap]
    stitched = (relaxed(bands) - relaxed(straps)) * (1.0 + defaults.SEAM_EXTENSION)
    return stitched + sum(band.width * (1.0 + band.cloth.stretch) for band in straps)


def _waist(evidence: Evidence) -> list[Finding]:
    garment = evidence.garment
    wearer, unit = garment.design.wearer, garment.design.units
    opened, by = opening_reach(evidence, "waist")
    need = defaults.HIP_MARGIN * max(wearer.hip, wearer.top_hip or 0.0)
    bands = evidence.bands["waist"]
    moved = garment.design.style.side_forward or 0.0
    rigid = rigid_finding(bands, need, unit, moved=moved)
    figures = {"opens": format_length(opened, unit), "needs": format_length(need, unit)}
    if opened >= need:
        says = said("The waist opens to {opens}, enough to go over the hips ({needs}).", **figures)
        opens = Finding("waist opens over the hips", Status.PASS, says, opened, need, "mm", "waist")
        return [opens, *rigid]
    says = said(
        "The waist opens to {opens} and stops at {by}, but must reach {needs} to go over the hips.", by=by, **figures
    )
    mend = said("Lower the waist, cut its elastic longer, or use a stretchier cloth.")
    says = in_a_row(" ", [says, *_rigid_words(bands, need, unit), mend])
    opens = Finding("waist opens over the hips", Status.FAIL, says, opened, need, "mm", "waist")
    return [opens, *rigid]


def _rigid_words(bands: list[Band], need: float, unit: str) -> list[Said]:
    """How wide a rigid panel may be at the most, as a sentence; none where that is not what stops it."""
    room = rigid_room(bands, need)
    if room is None or room.forward <= 0.0:
        return []
    if room.widest is None:
        return [said("The {panel} does not stretch, and no width of it would do beside this cloth.", panel=room.name)]
    says = said(
        "The {panel} does not stretch: it may be {widest} wide at the most, so each side seam would have to come "
        "forward by {by}.",
        panel=room.name, widest=format_length(room.widest, unit), by=format_length(room.forward, unit),
    )  # fmt: skip
    return [says]


def _leg(evidence: Evidence) -> list[Finding]:
    garment = evidence.garment
    unit = garment.design.units
    opened, by = opening_reach(evidence, "leg")
    need = defaults.THIGH_MARGIN * thigh_of(garment.design.wearer)
    figures = {"opens": format_length(opened, unit), "needs": format_length(need, unit)}
    if opened >= need:
        says = said("Each leg opens to {opens}, enough for the thigh ({needs}).", **figures)
        return [Finding("leg opens over the thigh", Status.PASS, says, opened, need, "mm", "leg")]
    says = said(
        "Each leg opens to {opens} and stops at {by}, but must reach {needs}. Raise the leg, cut its elastic longer, "
        "or use a stretchier cloth.",
        by=by, **figures,
    )  # fmt: skip
    return [Finding("leg opens over the thigh", Status.FAIL, says, opened, need, "mm", "leg")]


def leg_ratio(evidence: Evidence) -> tuple[float, float, float]:
    """Relaxed leg opening (mm), the leg line on the body at that height (mm), and their ratio."""
    garment = evidence.garment
    frame = garment.frame
    above = (frame.side.hip - garment.draft.leg) / (1.0 - garment.reductions.length)
    body = leg_line_on_body(garment.design.wearer, above)
    relaxed_leg = relaxed(evidence.bands["leg"])
    return relaxed_leg, body, relaxed_leg / body


def _leg_on_body(evidence: Evidence) -> list[Finding]:
    garment = evidence.garment
    unit = garment.design.units
    opening, body, ratio = leg_ratio(evidence)
    least, most = LEG_LIMITS[garment.design.style.shape]
    name, about = "leg opening on the body", "leg"
    figures = {"opening": format_length(opening, unit), "body": format_length(body, unit)}
    if least <= ratio <= most:
        says = said("Relaxed, each leg opening measures {opening} against {body} on the body.", **figures)
        return [Finding(name, Status.PASS, says, ratio, most, "ratio", about)]
    if ratio > most:
        says = said(
            "Each leg opening measures {opening}, but only {body} on the body: it would gape. Shorten the leg elastic, "
            "put soft elastic behind a scallop, or raise the leg.",
            **figures,
        )
        return [Finding(name, Status.WARN, says, ratio, most, "ratio", about)]
    says = said(
        "Each leg opening measures {opening} against {body} on the body: it may dig in. Raise the leg, choose a "
        "smaller reduction, or cut the elastic at full length.",
        **figures,
    )
    return [Finding(name, Status.WARN, says, ratio, least, "ratio", about)]
