"""Panel: front or back cut whole from lace or any cloth, upright; its scalloped edge may make the waist or the leg."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from galloon import defaults
from galloon.design import Design, LaceUse, Lie, Use
from galloon.drafting import Frame
from galloon.findings import Finding, Status
from galloon.geometry import angle_between, flatten, line, start_direction
from galloon.lace import scalloped_leg
from galloon.lace.model import DropNeed, Laced, Placement, Scene
from galloon.lace.pairing import centre_miss, misses_at_centre, pairing, reads_at_centre
from galloon.materials import Cloth, Edges
from galloon.said import Term, in_a_row, said
from galloon.styling import Part, Strip, centre_is_seam, edge_allowance, usual_angle
from galloon.units import format_length


def straight_legs(use: LaceUse) -> frozenset[str]:
    """A scallop on the leg is the lace's own straight edge."""
    return frozenset(use.panels) if use.edge_on == "leg" else frozenset()


def angles(use: LaceUse, design: Design) -> Mapping[str, float]:
    """Upright: the lace's length runs level; what has no edges of its own lies as any cloth does. One with its scallop
    on the leg takes the leg's tilt.
    """
    if use.edge_on == "leg" or _lies_as_cloth(design.cloths[use.cloth]):
        return {}
    return dict.fromkeys(use.panels, 0.0)


def _lies_as_cloth(cloth: Cloth) -> bool:
    """Whether it is cut as any cloth is, its length up the body: an allover that stretches most across, or rigid."""
    edged = cloth.lace is not None and cloth.lace.edges is not Edges.NONE
    return not edged and usual_angle(cloth) != 0.0


def drop_needs(use: LaceUse, design: Design, frame: Frame, leg: float) -> tuple[DropNeed, ...]:
    """Upright: centre length + gusset allowance + waist allowance (0 at a scalloped waist) - width. Cloth that lies
    with its length up the body sets no limit.
    """
    cloth = design.cloths[use.cloth]
    if _lies_as_cloth(cloth):
        return ()
    if use.edge_on == "leg":
        return scalloped_leg.drop_needs(replace(use, lie=Lie.ALONG_LEG), design, frame, leg)
    waist = 0.0 if on_waist(use, cloth) else max(0.0, edge_allowance(design.finishes.waist))
    ends = design.allowances.seam + waist
    return tuple(DropNeed(panel, use.cloth, frame.depth(panel) + ends - cloth.solid_width) for panel in use.panels)


def on_waist(use: LaceUse, cloth: Cloth) -> bool:
    """Whether the lace's scalloped edge makes the waist."""
    return use.edge_on == "waist" and cloth.lace is not None and cloth.lace.first is not None


def apply(use: LaceUse, scene: Scene, parts: tuple[Part, ...]) -> Laced:
    """Each panel of the use laid on its strip."""
    if use.edge_on == "leg":
        laced = scalloped_leg.apply(replace(use, lie=Lie.ALONG_LEG), scene, parts)
        return replace(laced, placements=tuple(replace(one, use=Use.PANEL) for one in laced.placements))
    done, placements, findings = list(parts), [], []
    for panel in use.panels:
        index = next(i for i, part in enumerate(done) if part.covers == panel and not part.lining and not part.laid_on)
        done[index], placement, found = _upright(use, scene, done[index])
        placements.append(placement)
        findings += found
    return Laced(tuple(done), tuple(placements), tuple(findings))


def _upright(use: LaceUse, scene: Scene, part: Part) -> tuple[Part, Placement, list[Finding]]:
    cloth = scene.design.cloths[use.cloth]
    found: list[Finding] = []
    if use.edge_on == "waist":
        found = _barred(use, cloth, part)
    if _lies_as_cloth(cloth):
        return replace(part, greatest_stretch=0.0), _as_cloth(use, cloth, part), found
    if on_waist(use, cloth) and not found:
        laid, figures, found = _waist_on_scallop(use, scene, part, cloth)
    else:
        laid, figures = _whole(use, scene, part, cloth), {}
    strip = laid.strip
    assert strip is not None
    reach = max(edge.end.real for edge in part.panel.edges)
    ends = (strip.origin, strip.origin + reach)
    far = strip.across * strip.solid
    placement = Placement(
        use.use,
        use.cloth,
        laid.name,
        Lie.UPRIGHT.value,
        0.0,
        ends,
        (ends[0] + far, ends[1] + far),
        strip.phase,
        pairing(cloth).value,
        centre_miss(strip.phase, strip.scallops) if centre_is_seam(scene.design, part.covers) else None,
        figures=figures or None,
    )
    found += misses_at_centre(placement, scene.design.units)
    return laid, placement, [*found, *_hangs(use, cloth, laid), *_twin(cloth, laid)]


def _as_cloth(use: LaceUse, cloth: Cloth, part: Part) -> Placement:
    """Where cloth without edges lies: its length up the body, its width level about the centre line."""
    levels = [end.imag for edge in part.panel.edges for end in (edge.start, edge.end)]
    half = cloth.solid_width / 2.0
    ends = (complex(half, min(levels)), complex(half, max(levels)))
    far = (ends[0] - cloth.solid_width, ends[1] - cloth.solid_width)
    return Placement(use.use, use.cloth, part.name, Lie.UPRIGHT.value, 90.0, ends, far, pairing=pairing(cloth).value)


def _strip(use: LaceUse, cloth: Cloth, origin: complex, along: complex, edge: str | None) -> Strip:
    lace = cloth.lace
    first, second = (lace.first, lace.second) if lace else (None, None)
    phase = reads_at_centre(use, first)
    return Strip(use.cloth, origin, along, cloth.solid_width, edge if first else None, first, second, phase)


def _whole(use: LaceUse, scene: Scene, part: Part, cloth: Cloth) -> Part:
    """Level on the strip, its lowest point on the valley line, or a little above it where there is lace to spare."""
    gusset, waist = part.edge("gusset"), part.edge("waist")
    low = gusset.start.imag - gusset.allowance
    tall = max(waist.start.imag, waist.end.imag) + max(0.0, waist.allowance) - low
    spare = min(defaults.STRIP_EDGE_CLEAR, max(0.0, cloth.solid_width - tall))
    strip = _strip(use, cloth, complex(0.0, low - spare), 1.0 + 0.0j, None)
    return replace(part, strip=strip, greatest_stretch=0.0 if cloth.stretches_most == "length" else -90.0)


def _barred(use: LaceUse, cloth: Cloth, part: Part) -> list[Finding]:
    """Why the waist cannot be the lace's edge: no scallop, or a waist line that is not level."""
    waist = part.edge("waist")
    about = f"{part.name}/waist"
    if not on_waist(use, cloth):
        says = said(
            "{lace} has no scalloped edge to put at the waist; the {piece} was cut without one.",
            lace=use.cloth, piece=Term(part.name),
        )  # fmt: skip
        return [Finding("scallop at the waist", Status.FAIL, says, about=about)]
    tilt = abs(waist.start.imag - waist.end.imag)
    if tilt > 0.5:
        says = said(
            "The scalloped waist of the {piece} must be level, but its side lies {off} off: lower the waist evenly all "
            "round (waist_drop with one figure). The waist was left to its other finish.",
            piece=Term(part.name), off=format_length(tilt),
        )  # fmt: skip
        return [Finding("scallop at the waist", Status.FAIL, says, tilt, 0.5, "mm", about)]
    return []


def _waist_on_scallop(
    use: LaceUse, scene: Scene, part: Part, cloth: Cloth
) -> tuple[Part, dict[str, float], list[Finding]]:
    """The waist straight and level on the valley line, and what that costs against the drafted line."""
    drafted = part.edge("waist")
    level = complex(0.0, drafted.end.imag)
    straight = (line(drafted.start, drafted.end),)
    laid = part.with_edge("waist", curve=straight, finish="scallop", allowance=0.0)
    strip = _strip(use, cloth, level, -1.0 + 0.0j, "waist")
    laid = replace(laid, strip=strip, greatest_stretch=0.0 if cloth.stretches_most == "length" else -90.0)
    path = flatten(drafted.curve, 0.1)
    off = float(np.abs(path.imag - level.imag).max())
    gained = abs(float(np.trapezoid(path.imag - level.imag, path.real)))
    kink = abs(angle_between(start_direction(drafted.curve), start_direction(straight)))
    figures = {"waist_deviation": off, "waist_area": 2.0 * gained, "waist_kink": kink}
    return laid, figures, _costs(scene, laid, cloth, (off, kink, gained))


def _costs(scene: Scene, part: Part, cloth: Cloth, cost: tuple[float, float, float]) -> list[Finding]:
    off, kink, gained = cost
    depth = cloth.lace.first.depth if cloth.lace and cloth.lace.first else 0.0
    unit = scene.design.units
    says = said(
        "The waist of the {piece} is the lace's own straight edge: up to {off} above the drafted line, {gained:.0f} "
        "cm² more, and it meets each side seam {kink:.0f} degrees off square.",
        piece=Term(part.name), off=format_length(off, unit), gained=2.0 * gained / 100.0, kink=kink,
    )  # fmt: skip
    if off <= depth:
        return [Finding("scallop at the waist", Status.PASS, says, off, depth, "mm", f"{part.name}/waist")]
    more = said(
        "That is more than its scallops are deep ({depth}): it will stand off at the sides.",
        depth=format_length(depth, unit),
    )
    says = in_a_row(" ", [says, more])
    return [Finding("scallop at the waist", Status.WARN, says, off, depth, "mm", f"{part.name}/waist")]


def _hangs(use: LaceUse, cloth: Cloth, part: Part) -> list[Finding]:
    if not (cloth.motif_up and part.strip is not None and part.strip.edge == "waist"):
        return []
    says = said(
        "With its scallops at the waist {lace} stands on its head and its flowers hang. Use the scallop at the leg, "
        "or be content with it (motif_up = false).",
        lace=cloth.name,
    )
    return [Finding("motif stands up", Status.WARN, says, about=part.name)]


def _twin(cloth: Cloth, part: Part) -> list[Finding]:
    """Left and right of one piece mirror each other only where the lace has a mirror across."""
    lace = cloth.lace
    if lace is None or lace.motif is None or lace.mirror_across:
        return []
    says = said(
        "{lace} has no mirror in its motif, so left and right of the {piece} cannot look alike. Choose a lace with a "
        "mirror, or accept it.",
        lace=cloth.name, piece=Term(part.name),
    )  # fmt: skip
    return [Finding("lace pair matches", Status.WARN, says, about=part.name)]
