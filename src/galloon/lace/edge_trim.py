"""Edge trim: a narrow stretch lace laid on a waist or leg edge as its elastic; the cloth is cut short beneath it."""

from __future__ import annotations

import cmath
import math
from dataclasses import replace

from galloon import defaults
from galloon.design import Design, Finish, Finishes, FinishKind, LaceUse, Lie
from galloon.drafting import Edge
from galloon.findings import Finding, Status
from galloon.geometry import angle_between, arc, end_direction, start_direction
from galloon.lace.model import Laced, Placement, Scene
from galloon.materials import Cloth
from galloon.said import Term, said
from galloon.styling import Part, widest_trim
from galloon.units import format_length


def edge_of(use: LaceUse) -> str:
    """Which edge of its panels it trims: waist or leg (the legs unless said)."""
    return use.edge_on or "leg"


def dress(use: LaceUse, design: Design) -> Design:
    """The design with the trim for the finish of its edges; the waist is one ring, so there it goes all round.

    Unchanged where the lace is too wide to be a trim.
    """
    if design.cloths[use.cloth].width > widest_trim(edge_of(use)):
        return design
    trim = Finish(FinishKind.LACE_TRIM, trim=design.cloths[use.cloth])
    return replace(design, finishes=finished(design.finishes, edge_of(use), use.panels, trim))


def finished(finishes: Finishes, edge: str, panels: tuple[str, ...], finish: Finish) -> Finishes:
    """``finishes`` with ``finish`` on an edge of the panels; the gusset's leg edge goes on with the front's, as long
    as it was finished like it.
    """
    if edge == "waist":
        return replace(finishes, waist=finish)
    changed = {f"{panel}_leg": finish for panel in panels}
    if "front" in panels and finishes.gusset_leg == finishes.front_leg:
        changed["gusset_leg"] = finish
    return replace(finishes, **changed)


def apply(use: LaceUse, scene: Scene, parts: tuple[Part, ...]) -> Laced:
    """Nothing is cut anew: where the trim lies, and whether it can be laid round the edge."""
    name = edge_of(use)
    trim = scene.design.cloths[use.cloth]
    if trim.width > widest_trim(name):
        return Laced(parts, (), (_too_wide(scene, trim, name),))
    hosts = trimmed(parts, name, use.panels)
    placements = tuple(lies_along(use, part, part.edge(name), trim.width) for part in hosts)
    found = (*_cut_short(scene, use, hosts, name), *follows(scene, trim, hosts, name))
    return Laced(parts, placements, found)


def _too_wide(scene: Scene, trim: Cloth, edge: str) -> Finding:
    unit, most = scene.design.units, widest_trim(edge)
    says = said(
        "{lace} is {wide} wide; a trim at the {edge} is {most} at the most. Use it as a waistband or a panel, or slit "
        "it: split edging.",
        lace=Term(trim.name), wide=format_length(trim.width, unit), edge=Term(edge), most=format_length(most, unit),
    )  # fmt: skip
    return Finding("edge trim", Status.FAIL, says, trim.width, most, "mm", f"lace {trim.name}")


def trimmed(parts: tuple[Part, ...], edge: str, panels: tuple[str, ...]) -> list[Part]:
    """The outer parts of ``panels`` that have the open edge ``edge``."""
    return [
        part
        for part in parts
        if set(part.bodies) & set(panels) and not part.lining and not part.laid_on
        if any(one.name == edge and one.sewn_to is None for one in part.panel.edges)
    ]  # fmt: skip


def lies_along(use: LaceUse, part: Part, edge: Edge, width: float) -> Placement:
    """The trim from the finished edge inward: ``valley`` is the finished edge's chord, ``far`` its inner edge."""
    chord = edge.end - edge.start
    inward = 1j * chord / abs(chord) * width
    tilt = math.degrees(cmath.phase(chord))
    tilt = (tilt + 90.0) % 180.0 - 90.0
    lie = Lie.UPRIGHT if edge.name == "waist" else Lie.ALONG_LEG
    ends = (edge.start, edge.end)
    return Placement(
        use.use, use.cloth, part.name, lie.value, tilt, ends, (ends[0] + inward, ends[1] + inward),
        figures={"trim_width": width},
    )  # fmt: skip


def _cut_short(scene: Scene, use: LaceUse, hosts: list[Part], edge: str) -> list[Finding]:
    """How much shorter than the finished edge the cloth is cut, and whether another finish won."""
    if not hosts:
        says = said("There is no open {edge} for the {lace} to trim.", edge=Term(edge), lace=use.cloth)
        return [Finding("edge trim", Status.FAIL, says, about=f"lace {use.cloth}")]
    unit = scene.design.units
    found = []
    for part in hosts:
        allowance = part.edge(edge).allowance
        about = f"{part.name}/{edge}"
        if part.edge(edge).finish != "trim":
            other = part.edge(edge).finish
            says = said(
                "The {edge} of the {piece} is finished as {other}, so {lace} is not laid on it.",
                edge=Term(edge), piece=Term(part.name), other=Term(other), lace=use.cloth,
            )  # fmt: skip
            found.append(Finding("edge trim", Status.FAIL, says, about=about))
            continue
        lap = scene.design.cloths[use.cloth].width + allowance
        says = said(
            "The {piece} is cut {short} short of the finished {edge}; {lace} laps over it by {lap}.",
            piece=Term(part.name), short=format_length(-allowance, unit), edge=Term(edge), lace=use.cloth,
            lap=format_length(lap, unit),
        )  # fmt: skip
        found.append(Finding("edge trim", Status.PASS, says, -allowance, None, "mm", about))
    return found


def follows(scene: Scene, trim: Cloth, hosts: list[Part], edge: str) -> list[Finding]:
    """Whether a straight trim can be laid round the bend of an edge.

    Its outer and its inner edge differ by width times the turn of the edge, which one of them has to give: at most the
    share of its stretch that a lace is worn at.
    """
    found = []
    for part in hosts:
        line = part.edge(edge)
        length = sum(arc(piece) for piece in line.curve)
        turn = abs(angle_between(start_direction(line.curve), end_direction(line.curve)))
        asked = trim.width * math.radians(turn) / length
        most = defaults.WORN_SHARE_LIMIT * trim.stretch_length
        about = f"{part.name}/{edge}"
        if asked <= most:
            continue
        narrow = format_length(trim.width * most / asked, scene.design.units)
        says = said(
            "{lace} is straight and would have to be stretched by {asked:.0%} on one side to lie round the {edge} of "
            "the {piece}; {most:.0%} is the most. Take one no wider than {narrow}, or snip it between motifs.",
            lace=Term(trim.name), asked=asked, edge=Term(edge), piece=Term(part.name), most=most, narrow=narrow,
        )  # fmt: skip
        found.append(Finding("trim lies flat", Status.WARN, says, asked, most, "share", about))
    return found
