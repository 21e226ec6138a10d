"""V inset: a lace too narrow to cover lies along both legs, its far edges meeting in a V below a cloth above."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from galloon import defaults
from galloon.design import Design, LaceUse, Lie, Use
from galloon.drafting import Frame, Panel
from galloon.findings import Finding, Status
from galloon.geometry import flatten, ring_area
from galloon.lace import scalloped_leg
from galloon.lace.cut_panel import cut_panel, resew
from galloon.lace.model import Laced, Placement, Scene
from galloon.said import Said, Term, said
from galloon.styling import Part, Share, Strip, centre_is_seam, usual_angle
from galloon.units import format_length

#: Name of the edge along which lace and upper cloth meet.
EDGE = "inset"


def straight_legs(use: LaceUse) -> frozenset[str]:
    """The lace lies along the leg of every panel it is let into."""
    return frozenset(use.panels)


def upper_cloth(use: LaceUse, design: Design, panel: str) -> str:
    """The cloth above the lace: the use's own, else the upper back, else the panel's; "" where all are the lace."""
    named = [use.upper_cloth, design.panels.upper_back if panel == "back" else "", getattr(design.panels, panel)]
    return next((name for name in named if name and name != use.cloth), "")


def shares(use: LaceUse, design: Design, frame: Frame, leg: float) -> Mapping[str, tuple[Share, ...]]:
    """How lace and upper cloth share the width at the hip: the far line crosses that level, cloth at the centre."""
    found: dict[str, tuple[Share, ...]] = {}
    for panel in use.panels:
        upper = upper_cloth(use, design, panel)
        if upper:
            wide = frame.hip(panel)
            part = min(1.0, max(0.0, _far_at(use, design, frame, panel, leg) / wide))
            cloth = design.cloths[upper]
            found[panel] = (Share(part, upper, usual_angle(cloth)), Share(1.0 - part, use.cloth, None))
    return found


def _far_at(use: LaceUse, design: Design, frame: Frame, panel: str, leg: float) -> float:
    """How far from the centre (mm) the far line crosses hip level: cloth lies nearer the centre than that."""
    corner, side = frame.corner(panel), frame.side_point(panel, leg)
    along = (side - corner) / abs(side - corner)
    start = corner + 1j * along * design.cloths[use.cloth].solid_width
    return start.real + (-frame.side.hip - start.imag) * along.real / along.imag if along.imag > 1e-6 else 0.0


def v_level(use: LaceUse, design: Design, frame: Frame, panel: str, leg: float) -> float:
    """The level (mm) of the V's point, where the far line reaches the centre line, for a leg point at ``leg``."""
    corner, side = frame.corner(panel), frame.side_point(panel, leg)
    along = (side - corner) / abs(side - corner)
    start = corner + 1j * along * design.cloths[use.cloth].solid_width
    return float(start.imag - start.real * along.imag / along.real)


def apply(use: LaceUse, scene: Scene, parts: tuple[Part, ...]) -> Laced:
    """Each panel of the use cut along the far line of its strip: lace below, cloth above."""
    laced = Laced(parts)
    for panel in use.panels:
        one = _let_in(use, scene, laced.parts, panel)
        laced = Laced(one.parts, (*laced.placements, *one.placements), (*laced.findings, *one.findings))
    return laced


def _let_in(use: LaceUse, scene: Scene, parts: tuple[Part, ...], panel: str) -> Laced:
    whole = next(part for part in parts if part.covers == panel and not part.lining and not part.laid_on)
    upper = upper_cloth(use, scene.design, panel)
    plain = scalloped_leg.apply(replace(use, panels=(panel,), lie=Lie.ALONG_LEG), scene, (whole,))  # type: ignore[arg-type]
    lace, placement = plain.parts[0], replace(plain.placements[0], use=Use.V_INSET)
    strip = lace.strip
    assert strip is not None
    if not upper:
        return _refused(parts, panel, said("it needs a cloth above the lace, and none is named (upper_cloth)"))
    cloth_part = _upper_part(scene, replace(lace, strip=None), upper)
    centre, far = _centre_line(lace, panel), strip.point(0.0, strip.solid)
    room = _room(use, scene, panel)
    if far.imag < centre[1] + room:
        wide = strip.solid + (centre[1] + room - far.imag) * strip.along.real
        says = said(
            "{lace} is too narrow: its two upper edges would run into the gusset seam before they meet; it would have "
            "to be {wide} between its valley lines",
            lace=use.cloth, wide=format_length(wide, scene.design.units),
        )  # fmt: skip
        whole_in_cloth = tuple(replace(cloth_part, panel=whole.panel) if part is whole else part for part in parts)
        return _refused(whole_in_cloth, panel, says)
    cut = cut_panel(lace.panel, far, strip.along, name=EDGE, left=f"upper {panel}")
    sliver = _sliver(scene, whole, centre[0] - far.imag)
    if cut is None or sliver is not None or far.imag >= centre[0]:
        covered = tuple(replace(lace, cloth=use.cloth) if part is whole else part for part in parts)
        return Laced(covered, (placement,), (*plain.findings, sliver or _no_cut(use, scene, panel, lace, strip)))
    below = _below(replace(lace, cloth=use.cloth), cut.right, strip)
    above = _above(use, scene, cloth_part, cut.left)
    placed, found = _report(use, scene, placement, (below, above), centre)
    return Laced(resew(parts, whole, below, above), (placed,), (*plain.findings, *found))


def _refused(parts: tuple[Part, ...], panel: str, why: Said) -> Laced:
    says = said("No V can be let into the {panel}: {why}.", panel=Term(panel), why=why)
    return Laced(parts, (), (Finding("V inset", Status.FAIL, says, about=panel),))


def _room(use: LaceUse, scene: Scene, panel: str) -> float:
    """What the V's point must clear the gusset seam by: the seam's own allowance, the lap and a finger's breadth."""
    return scene.design.allowances.seam + lap(use, scene.design) + defaults.V_POINT_CLEAR


def lap(use: LaceUse, design: Design) -> float:
    """How far (mm) the cloth reaches under the lace."""
    return use.lap if use.lap is not None else design.allowances.lapped_under


def _centre_line(part: Part, panel: str) -> tuple[float, float]:
    """Levels of the top and the bottom of the centre line."""
    edge = part.edge(f"centre {panel}")
    return edge.start.imag, edge.end.imag


def _upper_part(scene: Scene, part: Part, cloth: str) -> Part:
    """The whole panel in the upper cloth, as that cloth usually lies."""
    lies = (
        0.0 if scene.design.cloths[cloth].stretches_most == "length" else usual_angle(scene.design.cloths[cloth]) - 90.0
    )
    return replace(part, cloth=cloth, greatest_stretch=lies)


def _below(lace: Part, panel: Panel, strip: Strip) -> Part:
    panel = panel.with_edge(EDGE, finish="lapped", allowance=0.0, sewn_to=f"upper {lace.name}/{EDGE}")
    return replace(lace, panel=panel, strip=replace(strip, far_edge=EDGE if strip.far_scallops else None))


def _above(use: LaceUse, scene: Scene, part: Part, panel: Panel) -> Part:
    under = lap(use, scene.design)
    panel = panel.with_edge(EDGE, finish="seam", allowance=under, sewn_to=f"{part.name}/{EDGE}")
    centre = f"centre {part.name}"
    if centre_is_seam(scene.design, part.name):
        return replace(part, panel=panel)
    panel = panel.with_edge(centre, finish="fold", allowance=0.0, sewn_to=None)
    return replace(part, panel=panel, fold=centre, quantity=1, mirrored=False)


def _area(panel: Panel) -> float:
    return abs(ring_area(np.concatenate([flatten(edge.curve, 0.1)[:-1] for edge in panel.edges])))


def _report(
    use: LaceUse, scene: Scene, placement: Placement, halves: tuple[Part, Part], centre: tuple[float, float]
) -> tuple[Placement, list[Finding]]:
    below, above = halves
    unit, panel = scene.design.units, below.name
    edge = below.edge(EDGE)
    depth = centre[0] - edge.end.imag
    lace, cloth = _area(below.panel), _area(above.panel)
    share = lace / (lace + cloth)
    figures = {"v_depth": depth, "lace_share": share, "lap": lap(use, scene.design)}
    says = said(
        "The V's point lies {depth} below the waist at the {centre}; {lace} covers {share:.0%} of the {panel}, {cloth} "
        "the rest.",
        depth=format_length(depth, unit), centre=Term(f"centre {panel}"), lace=use.cloth, share=share,
        panel=Term(panel), cloth=above.cloth,
    )  # fmt: skip
    found = [Finding("V inset", Status.PASS, says, depth, None, "mm", f"{panel}/{EDGE}")]
    meets = next((one for one in above.panel.edges if one.name == "side"), None)
    if meets is not None and abs(meets.end - meets.start) < defaults.SHORTEST_SIDE:
        short = format_length(abs(meets.end - meets.start), unit)
        says = said(
            "Only {short} of side seam is left above the lace on the {panel}: hard to sew. Lower the waist at the "
            "side by as much, or raise it by {by}.",
            short=short, panel=Term(panel), by=format_length(float(defaults.SHORTEST_SIDE), unit),
        )  # fmt: skip
        found.append(
            Finding(
                "V inset ends at the side",
                Status.WARN,
                says,
                abs(meets.end - meets.start),
                float(defaults.SHORTEST_SIDE),
                "mm",
                f"upper {panel}/side",
            )
        )
    return replace(placement, figures=figures), found


def _sliver(scene: Scene, whole: Part, deep: float) -> Finding | None:
    """Why the cloth above the lace, ``deep`` at the centre, is too little to sew; None where there is none or enough.

    A lace laid on the waist takes the cloth beneath it away.
    """
    least = max(0.0, -whole.edge("waist").allowance) + defaults.V_POINT_CLEAR
    if not 0.0 < deep < least:
        return None
    unit = scene.design.units
    says = said(
        "Only {deep} of cloth would lie above the lace at the {centre}, too little to sew with this waist, which needs "
        "{least}; the panel was left whole. Raise the waist, take a narrower lace, or lower the waist until the lace "
        "covers all.",
        deep=format_length(deep, unit), centre=Term(f"centre {whole.covers}"), least=format_length(least, unit),
    )  # fmt: skip
    return Finding("V inset", Status.FAIL, says, deep, least, "mm", whole.covers)


def _no_cut(use: LaceUse, scene: Scene, panel: str, lace: Part, strip: Strip) -> Finding:
    """The far line leaves the panel whole, or runs along its waist."""
    top = max(strip.place(edge.end).imag for edge in lace.panel.edges)
    if top <= strip.solid + 1e-6:
        says = said(
            "{lace} covers the whole {panel}: there is no V. Make the panel of it, its scallops on the leg "
            '(use = "scalloped leg"), or lower the waist less.',
            lace=use.cloth, panel=Term(panel),
        )  # fmt: skip
        return Finding("V inset", Status.WARN, says, about=panel)
    over = format_length(top - strip.solid, scene.design.units)
    says = said(
        "The upper edge of {lace} runs along the waist line of the {panel} and leaves it by {over} in places: lower "
        "the waist by that much, or raise it so that cloth lies above the lace all along.",
        lace=use.cloth, panel=Term(panel), over=over,
    )  # fmt: skip
    return Finding("V inset", Status.FAIL, says, top - strip.solid, 0.0, "mm", panel)
