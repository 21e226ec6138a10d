"""Waistband: a deep lace band at the waist; the panels below it are lowered by as much as it stands above them."""

from __future__ import annotations

from dataclasses import replace

from galloon import defaults
from galloon.design import Design, Drops, Finish, FinishKind, LaceUse
from galloon.drafting import Frame
from galloon.findings import Finding, Status
from galloon.lace.edge_trim import lies_along, trimmed
from galloon.lace.model import DropNeed, Laced, Scene
from galloon.materials import Cloth
from galloon.said import said
from galloon.styling import Part
from galloon.units import format_length


def rise_of(cloth: Cloth) -> float:
    """How far (mm) a band stands above the panels: from the valley line at its lower edge to its upper peaks."""
    first = cloth.lace.first if cloth.lace is not None else None
    return cloth.width - (first.depth if first is not None else 0.0)


def drop_needs(use: LaceUse, design: Design, frame: Frame, leg: float) -> tuple[DropNeed, ...]:
    """The panels begin below the band: with nothing else asked, its upper edge lies at the block's waist."""
    rise = rise_of(design.cloths[use.cloth])
    return tuple(DropNeed(panel, use.cloth, rise, band=True) for panel in ("front", "back"))


def dress(use: LaceUse, design: Design) -> Design:
    """The band for the finish of the waist, and a set drop meant for its upper edge."""
    cloth = design.cloths[use.cloth]
    lap = use.lap if use.lap is not None else float(defaults.TRIM_LAP)
    finish = Finish(FinishKind.LACE_TRIM, trim=cloth, band_lap=lap)
    style, asked = design.style, design.style.waist_drop
    if asked is not None:
        lowered = (min(one + rise_of(cloth), Drops.MOST) for one in (asked.front, asked.side, asked.back))
        style = replace(style, waist_drop=Drops(*lowered))
    return replace(design, style=style, finishes=replace(design.finishes, waist=finish))


def apply(use: LaceUse, scene: Scene, parts: tuple[Part, ...]) -> Laced:
    """Where the band lies and what it makes of the waist."""
    cloth = scene.design.cloths[use.cloth]
    hosts = trimmed(parts, "waist", ("front", "back"))
    rise = rise_of(cloth)
    placements = tuple(lies_along(use, part, part.edge("waist"), -rise) for part in hosts)
    return Laced(parts, placements, _says(scene, cloth, rise))


def _says(scene: Scene, cloth: Cloth, rise: float) -> tuple[Finding, ...]:
    """Where the band ends on the body, and how much narrower the body is there than where it is sewn on."""
    draft, side, unit = scene.draft, scene.frame.side, scene.design.units
    scale = 1.0 - scene.reductions.length
    top = draft.side_drop - rise
    girths = [
        scene.design.wearer.hip - 4.0 * side.inset_at(max(0.0, level)) / (1.0 - scene.reductions.girth)
        for level in (draft.side_drop, top)
    ]
    narrower = 1.0 - girths[1] / girths[0]
    off_waist = format_length(abs(top) / scale, unit)
    high = said("{by} below the waist", by=off_waist) if top > 0.0 else said("{by} above the waist", by=off_waist)
    if abs(top) < 1.0:
        high = said("at the waist")
    says = said(
        "The band of {lace} stands {rise} above the cloth; its upper edge lies {where}.",
        lace=cloth.name, rise=format_length(rise, unit), where=high,
    )  # fmt: skip
    found = [Finding("waistband", Status.PASS, says, rise, None, "mm", "waist")]
    most = defaults.BAND_TAPER * cloth.stretch_length
    if narrower > most:
        off = format_length(girths[0] - girths[1], unit)
        says = said(
            "The band is straight, but the body is {off} narrower at its upper edge than where it is sewn on: it will "
            "stand off there. Take a narrower lace, or lower the waist to where the hips run straighter.",
            off=off,
        )
        found.append(Finding("waistband lies close", Status.WARN, says, narrower, most, "share", "waist"))
    return tuple(found)
