"""Scalloped leg: the lace's own edge is the leg line, or stands level at the gusset seam, and its width sets the
waist.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

import numpy as np
import shapely

from galloon.design import Design, LaceUse, Lie, Use
from galloon.drafting import Frame, leg_line
from galloon.findings import Finding, Status
from galloon.geometry import Points, angle_between, coordinates, end_direction, flatten, start_direction
from galloon.lace.model import DropNeed, Laced, Placement, Scene
from galloon.lace.pairing import Pairing, centre_miss, misses_at_centre, pairing, reads_at_centre
from galloon.materials import Cloth
from galloon.said import said
from galloon.styling import Part, Strip, centre_is_seam, edge_allowance


def straight_legs(use: LaceUse) -> frozenset[str]:
    """Panels whose leg line gives way to the valley line."""
    return frozenset(panel for panel in use.panels if use.lie_on(panel) is Lie.ALONG_LEG)


def angles(use: LaceUse, design: Design) -> Mapping[str, float]:
    """An upright strip lies level; one along the leg takes the leg's tilt, which the draft finds."""
    return {panel: 0.0 for panel in use.panels if use.lie_on(panel) is Lie.UPRIGHT}


def drop_needs(use: LaceUse, design: Design, frame: Frame, leg: float) -> tuple[DropNeed, ...]:
    """Closed forms. Along the leg, from side point S and gusset corner G with slope m: the cut corner at the
    centre top is the
    farthest point, so drop = -(yG - m·xG + w·√(1+m²)) + waist allowance + m·centre allowance. Upright: centre
    length - w
    + waist allowance.
    """
    width = design.cloths[use.cloth].solid_width
    waist = edge_allowance(design.finishes.waist)
    needs = []
    for panel in use.panels:
        if use.lie_on(panel) is Lie.UPRIGHT:
            needs.append(DropNeed(panel, use.cloth, frame.depth(panel) - width + waist))
            continue
        corner, side = frame.corner(panel), frame.side_point(panel, leg)
        m = (side.imag - corner.imag) / (side.real - corner.real)
        top = corner.imag - m * corner.real + width * math.hypot(1.0, m)
        needs.append(DropNeed(panel, use.cloth, -top + waist + m * design.allowances.seam, m))
    return tuple(needs)


def apply(use: LaceUse, scene: Scene, parts: tuple[Part, ...]) -> Laced:
    """Lay the strip on each panel of the use."""
    done, placements, findings = list(parts), [], []
    for panel in use.panels:
        index = next(i for i, part in enumerate(done) if part.covers == panel and not part.lining)
        lay = _along_leg if use.lie_on(panel) is Lie.ALONG_LEG else _upright
        done[index], placement = lay(use, scene, done[index])
        placements.append(placement)
        findings.extend(_judge(scene, placement))
    return Laced(tuple(done), tuple(placements), tuple(findings))


def _strip(use: LaceUse, cloth: Cloth, origin: complex, along: complex, edge: str) -> Strip:
    lace = cloth.lace
    first = lace.first if lace else None
    return Strip(
        use.cloth,
        origin,
        along,
        cloth.solid_width,
        edge if first else None,
        first,
        lace.second if lace else None,
        reads_at_centre(use, first),
    )


def _along_leg(use: LaceUse, scene: Scene, part: Part) -> tuple[Part, Placement]:
    leg = part.edge("leg")
    corner, side = leg.start, leg.end
    along = (side - corner) / abs(side - corner)
    origin = corner - along * (corner.real / along.real)
    cloth = scene.design.cloths[use.cloth]
    strip = _strip(use, cloth, origin, along, "leg")
    tilt = math.degrees(math.atan2(along.imag, along.real))
    laced = replace(
        part.with_edge("leg", finish="scallop", allowance=0.0), strip=strip, greatest_stretch=_stretch(cloth, tilt)
    )
    change, deviation = _against_curve(scene, part.covers, corner, side)
    placement = Placement(
        use.use,
        use.cloth,
        part.name,
        Lie.ALONG_LEG.value,
        tilt,
        (corner, side),
        (corner + strip.across * strip.solid, side + strip.across * strip.solid),
        strip.phase,
        pairing(cloth).value,
        centre_miss(strip.phase, strip.scallops),
        side_kink=_side_kink(scene),
        gusset_kink=_gusset_kink(scene, part.covers),
        area_change=change,
        deviation=deviation,
    )
    return laced, placement


def _stretch(cloth: Cloth, tilt: float) -> float:
    return tilt if cloth.stretches_most == "length" else tilt - 90.0


def _upright(use: LaceUse, scene: Scene, part: Part) -> tuple[Part, Placement]:
    gusset = part.edge("gusset")
    cloth = scene.design.cloths[use.cloth]
    strip = _strip(use, cloth, gusset.start, 1.0 + 0.0j, "gusset")
    laced = replace(
        part.with_edge("gusset", finish="lapped", allowance=0.0), strip=strip, greatest_stretch=_stretch(cloth, 0.0)
    )
    far = complex(0.0, strip.solid)
    end = complex(part.edge("side").end.real, gusset.start.imag)
    seam = centre_is_seam(scene.design, part.covers)
    placement = Placement(
        use.use,
        use.cloth,
        part.name,
        Lie.UPRIGHT.value,
        0.0,
        (gusset.start, end),
        (gusset.start + far, end + far),
        strip.phase,
        pairing(cloth).value,
        centre_miss(strip.phase, strip.scallops) if seam else None,
    )
    return laced, placement


def _against_curve(scene: Scene, panel: str, corner: complex, side: complex) -> tuple[float, float]:
    """Area gained (mm², both halves) and greatest deviation (mm) of a straight leg against the block's curved one."""
    lines = replace(scene.lines, straight=scene.lines.straight - {panel})
    curve = flatten(leg_line(scene.frame, lines, panel, scene.draft.tau), 0.1)
    ring = np.append(curve, [side, corner])
    signed = float(np.imag(np.conj(ring) * np.roll(ring, -1)).sum()) / 2.0
    off = np.abs(((curve - corner) / (side - corner)).imag) * abs(side - corner)
    return -2.0 * signed, float(off.max())


def _side_kink(scene: Scene) -> float:
    """Degrees by which the two leg lines miss running straight on across the side seam; 0 where they do not meet."""
    if scene.design.open_side is not None:
        return 0.0
    panels = scene.draft.panels
    corners = [
        angle_between(end_direction(panels[name].edge("leg").curve), start_direction(panels[name].edge("side").curve))
        for name in ("front", "back")
    ]
    return 180.0 - sum(180.0 - corner for corner in corners)


def _gusset_kink(scene: Scene, panel: str) -> float:
    """Degrees by which the leg line misses running straight on across the gusset seam."""
    panels = scene.draft.panels
    gusset, leg = panels["gusset"].edge("leg").curve, start_direction(panels[panel].edge("leg").curve)
    if panel == "front":
        return angle_between(end_direction(gusset), leg)
    return angle_between(-start_direction(gusset), leg.conjugate())


def _judge(scene: Scene, placement: Placement) -> list[Finding]:
    about = f"{placement.piece}/leg"
    found = []
    if placement.pairing == Pairing.NONE.value:
        says = said(
            "{lace} has no mirror in its motif and one right side, so left and right cannot be a mirrored pair; the "
            "scallops meet, the flowers do not. Choose a lace with a mirror, or accept it.",
            lace=placement.cloth,
        )
        found.append(Finding("lace pair matches", Status.WARN, says, about=about))
    found += misses_at_centre(placement, scene.design.units)
    if placement.lie == Lie.ALONG_LEG.value and placement.piece == "front" and placement.area_change > 0.0:
        area = shapely.area(shapely.polygons(coordinates(_outline(scene, "front")))) * 2.0
        share = placement.area_change / area
        says = said(
            "A straight lace leg adds {share:.0%} cloth in the groin, where the block is scooped; it may wrinkle when "
            "sitting. Upright lace on the front, with the leg cut through it, avoids that.",
            share=share,
        )
        found.append(Finding("straight front leg", Status.WARN, says, share * 100.0, 0.0, "%", about))
    if abs(placement.side_kink) > 12.0:
        says = said(
            "Front and back leg lines meet at the side with a kink of {kink:.0f} degrees; round it off over 2 cm when "
            "you cut, or lower the leg line (leg_raise).",
            kink=abs(placement.side_kink),
        )
        found.append(
            Finding("leg runs on at the side", Status.WARN, says, abs(placement.side_kink), 12.0, "degrees", about)
        )
    return found


def _outline(scene: Scene, panel: str) -> Points:
    return np.concatenate([flatten(edge.curve, 0.1)[:-1] for edge in scene.draft.panels[panel].edges])


USE = Use.SCALLOPED_LEG
