"""Insertion: a strip of lace let in over a seam, its middle on the seam; the cloth behind it is cut away or kept."""

from __future__ import annotations

import cmath
import math
from typing import Any, Final

import numpy as np
import shapely

from galloon import defaults
from galloon.design import LaceUse
from galloon.drafting import Edge, Panel
from galloon.findings import Finding, Status
from galloon.geometry import length_of, line, reversed_curve
from galloon.geometry.cubic import polyline
from galloon.lace.laid_on import area_of, free_name, lay_on, outline_of, polygons_of, ring_of_area
from galloon.lace.model import Laced, Placement, Scene
from galloon.lace.pairing import pairing, reads_at_centre
from galloon.lace.seam_line import Flank, ease, flanks_of
from galloon.materials import Cloth
from galloon.said import Said, Term, said
from galloon.styling import Laid, Part, Strip
from galloon.units import format_length

#: A strip that does not stretch still follows a seam whose sides differ by no more than this (fraction): what the net
#: gives by itself; chosen, no source.
STRAIGHT: Final = 0.005
#: Least height (mm) of a strip at its edges between its two ends.
_LEAST: Final = 10.0
_BODY: Final = {"side": "side", "centre front": "front", "centre back": "back"}


def cuts_away(use: LaceUse) -> bool:
    """Whether the cloth behind the strip is cut away: it is let in, so it is unless said."""
    return use.cut_away is not False


def apply(use: LaceUse, scene: Scene, parts: tuple[Part, ...]) -> Laced:
    """The strip over its seam."""
    cloth, seam = scene.design.cloths[use.cloth], use.over_seam or "side"
    flanks = flanks_of(seam, parts)
    half = cloth.solid_width / 2.0
    why = _no_seam(seam, flanks) or _no_strip(cloth) or (_too_wide(scene, flanks, half) if flanks else None)
    if flanks is None or why:
        says = said(
            "The insertion of {lace} over the {seam} was left out: {why}.",
            lace=use.cloth, seam=Term(f"{seam} seam"), why=why,
        )  # fmt: skip
        return Laced(parts, (), (Finding("insertion", Status.FAIL, says, about=seam),))
    follows = _follows(scene, use, cloth, flanks)
    if follows.status is Status.FAIL:
        return Laced(parts, (), (follows,))
    part = _piece(use, scene, flanks, free_name(parts, f"{seam} insertion"))
    parts = _marked(use, cloth, (*parts, part), flanks, part)
    return Laced(parts, (_placement(use, scene, part, flanks),), (_says(use, scene, flanks, part), follows))


def _no_seam(seam: str, flanks: tuple[Flank, Flank] | None) -> Said | None:
    if flanks is not None:
        return None
    if seam == "side":
        return said('there is no side seam; put it where a strip can lie over it, as 8 cm forward (side_seam = "8 cm")')
    key = f"{seam.replace(' ', '_')}_seam"
    return said("the {place} has no seam; give it one ({key} = true under [style])", place=Term(seam), key=key)


def _no_strip(cloth: Cloth) -> Said | None:
    if cloth.lace is not None and cloth.lace.edges.value != "none":
        return None
    return said(
        "{lace} has no edges of its own; a strip needs a galloon, an edging or an insertion lace", lace=cloth.name
    )


def _too_wide(scene: Scene, flanks: tuple[Flank, Flank], half: float) -> Said | None:
    """Why a strip so wide finds no room on its panels; None where it does."""
    wide = format_length(2.0 * half, scene.design.units)
    for flank in flanks:
        beside = flank.parallel(half)
        middle = beside[len(beside) // 4 : -(len(beside) // 4) or None]
        inside = shapely.buffer(flank.area, 0.05)
        if not bool(np.all(shapely.contains_xy(inside, middle.real, middle.imag))):
            return said(
                "at {wide} it is wider than the {panel} has room for beside the seam", wide=wide, panel=Term(flank.name)
            )
        foot, head = flank.end("foot", half)[-1][1], flank.end("head", half)[-1][1]
        if head - foot < _LEAST:
            return said("at {wide} it is wider than the seam is long", wide=wide)
    return None


def _follows(scene: Scene, use: LaceUse, cloth: Cloth, flanks: tuple[Flank, Flank]) -> Finding:
    """Whether the strip can be eased to the seam: its edges against its middle, and what it could take at the most."""
    half, unit = cloth.solid_width / 2.0, scene.design.units
    seam, name = use.over_seam or "side", "insertion follows the seam"
    most = max(STRAIGHT, float(defaults.EASE_SHARE) * cloth.stretch_length)
    worst = max(ease(flank, half) for flank in flanks)
    length = flanks[0].length
    figures = (worst * 100.0, most * 100.0, "%", seam)
    radius = format_length(half / most, unit)
    bow = format_length(min(length / 2.0, length**2 * most / (8.0 * half)), unit)
    takes = said(
        "it can take {most:.1%}, a curve of {radius} radius, which over this seam bows {bow} from straight",
        most=most, radius=radius, bow=bow,
    )  # fmt: skip
    told = {"seam": Term(f"{seam} seam"), "lace": use.cloth, "worst": worst, "takes": takes}
    if worst <= most:
        says = said("Over the {seam} one edge of {lace} differs from its middle by {worst:.1%}; {takes}.", **told)
        return Finding(name, Status.PASS, says, *figures)
    says = said(
        "The {seam} is too curved for {lace}: its edges differ from its middle by {worst:.1%}, and {takes}. The strip "
        "was left out; choose a narrower or stretchier lace, a straighter seam, or lower the waist to where the seam "
        "runs straighter.",
        **told,
    )
    return Finding(name, Status.FAIL, says, *figures)


def cut_length(flanks: tuple[Flank, Flank], half: float) -> float:
    """Length (mm) of the strip, ends apart: the shortest of its middle and its edges; where the body asks for more it
    is stretched to it.
    """
    return min(flanks[0].length, *(length_of(flank.parallel(half)) for flank in flanks))


def _piece(use: LaceUse, scene: Scene, flanks: tuple[Flank, Flank], name: str) -> Part:
    cloth, seam = scene.design.cloths[use.cloth], use.over_seam or "side"
    half, foot = cloth.solid_width / 2.0, flanks[0].line[0].imag
    scale = cut_length(flanks, half) / flanks[0].length
    sides = ("front", "back") if seam == "side" else ("left", "right")
    allowance = scene.design.allowances.seam

    def end(which: str, side: int) -> list[complex]:
        signed = -1.0 if side == 0 else 1.0
        return [complex(signed * x, foot + scale * s) for x, s in flanks[side].end(which, half)]

    lower = [_end_edge(end("foot", side), flanks[side].foot, sides[side], allowance) for side in (0, 1)]
    upper = [_end_edge(end("head", side), flanks[side].head, sides[side], allowance) for side in (0, 1)]
    first, second = lower[0].curve[-1].end, lower[1].curve[-1].end
    top, last = upper[1].curve[-1].end, upper[0].curve[-1].end
    edges = (
        _walked_back(lower[0]),
        lower[1],
        Edge(sides[1], (line(second, top),), "lapped"),
        _walked_back(upper[1]),
        upper[0],
        Edge(sides[0], (line(last, first),), "lapped"),
    )
    lies = 90.0 if cloth.stretches_most == "length" else 0.0
    return Part(
        Panel(name, edges),
        use.cloth,
        _BODY[seam],  # type: ignore[arg-type]
        greatest_stretch=lies,
        quantity=2 if seam == "side" else 1,
        mirrored=seam == "side",
        strip=_strip(use, cloth, sides, complex(-half, foot + flanks[0].length * scale / 2.0)),
        laid_on=tuple(dict.fromkeys(part.name for flank in flanks for part in flank.on)),
    )


def _end_edge(points: list[complex], at: tuple[Part, Edge], side: str, allowance: float) -> Edge:
    """One half of an end, from the seam outwards, finished as the edge it lies along; a bare scallop has none, so
    there it is turned under.
    """
    part, edge = at
    bare = edge.finish in ("scallop", "lapped")
    name = f"{side} {edge.name.split()[-1]}"
    finish = "seam" if bare else edge.finish
    return Edge(name, polyline(points), finish, allowance if bare else edge.allowance, f"{part.name}/{edge.name}")


def _walked_back(edge: Edge) -> Edge:
    return Edge(edge.name, reversed_curve(edge.curve), edge.finish, edge.allowance, edge.sewn_to)


def _strip(use: LaceUse, cloth: Cloth, sides: tuple[str, str], origin: complex) -> Strip:
    """The whole strip: its first edge along the first side, its other along the second; alike about its middle."""
    lace = cloth.lace
    first, second = (lace.first, lace.second) if lace else (None, None)
    phase = reads_at_centre(use, first)
    return Strip(
        use.cloth,
        origin,
        -1j,
        cloth.solid_width,
        sides[0] if first else None,
        first,
        second,
        phase,
        sides[1] if second else None,
    )


def _marked(
    use: LaceUse, cloth: Cloth, parts: tuple[Part, ...], flanks: tuple[Flank, Flank], part: Part
) -> tuple[Part, ...]:
    half = cloth.solid_width / 2.0
    for flank in flanks[:1] if flanks[0] is flanks[1] else flanks:
        seen = _seen(flank, part, half)
        for host in flank.on:
            own = area_of(outline_of(host))
            for covered in polygons_of(shapely.intersection(own, flank.band(half))):
                shown = polygons_of(shapely.union(covered, shapely.intersection(own, seen)))
                laid = Laid(
                    part.name,
                    use.cloth,
                    ring_of_area(covered),
                    math.degrees(cmath.phase(flank.chord)),
                    cuts_away(use),
                    straight=use.stitch == "straight",
                    outline=ring_of_area(shown[0]),
                )
                parts = lay_on(parts, host, laid)
    return parts


def _seen(flank: Flank, part: Part, half: float) -> Any:
    """What one sees of the strip on one flank: its half, the scallops standing out beyond it."""
    strip = part.strip
    second = flank.name == "back" and part.covers == "side"
    scallops = None if strip is None else strip.far_scallops if second else strip.scallops
    along = np.arange(-half, flank.length + half, 1.0)
    deep = np.zeros(len(along))
    if scallops is not None and strip is not None:
        deep = scallops.depth * np.abs(np.cos(math.pi * (along - flank.length / 2.0 - strip.phase) / scallops.pitch))
    ring = np.concatenate([flank.at(along, 0.0), flank.at(along, half + deep)[::-1]])
    return shapely.make_valid(area_of(ring))


def _placement(use: LaceUse, scene: Scene, part: Part, flanks: tuple[Flank, Flank]) -> Placement:
    cloth = scene.design.cloths[use.cloth]
    half = cloth.solid_width / 2.0
    sides = [edge for edge in part.panel.edges if edge.finish == "lapped"]
    return Placement(
        use.use,
        use.cloth,
        part.name,
        "over the seam",
        90.0,
        (sides[1].start, sides[1].end),
        (sides[0].end, sides[0].start),
        part.strip.phase if part.strip else 0.0,
        pairing(cloth).value,
        figures={
            "strip_width": 2.0 * half,
            "strip_length": cut_length(flanks, half),
            "seam_length": flanks[0].length,
            "cut_away": float(cuts_away(use)),
        },
    )


def _says(use: LaceUse, scene: Scene, flanks: tuple[Flank, Flank], part: Part) -> Finding:
    unit, seam = scene.design.units, use.over_seam or "side"
    half = scene.design.cloths[use.cloth].solid_width / 2.0
    told = {
        "lace": use.cloth,
        "wide": format_length(2.0 * half, unit),
        "long": format_length(cut_length(flanks, half), unit),
        "behind": said("the cloth behind is cut away") if cuts_away(use) else said("the cloth behind stays"),
    }
    says = (
        said(
            "A strip of {lace} {wide} wide is let in over each side seam, {long} long between its ends; {behind}.",
            **told,
        )
        if seam == "side"
        else said(
            "A strip of {lace} {wide} wide is let in over the {seam}, {long} long between its ends; {behind}.",
            seam=Term(f"{seam} seam"),
            **told,
        )
    )
    return Finding("insertion", Status.PASS, says, 2.0 * half, None, "mm", part.name)
