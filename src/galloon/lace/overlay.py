"""Overlay: a piece of lace bounded by corners, an outline or style lines, laid on a panel; the cloth behind it is kept
or cut away.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator
from dataclasses import replace
from typing import Any, Literal

import numpy as np
import shapely

from galloon.design import LaceUse, Lie
from galloon.drafting import Edge, Panel
from galloon.findings import Finding, Status
from galloon.geometry import unit
from galloon.lace.laid_on import (
    Seat,
    area_of,
    bare_allowance,
    dressed_ring,
    free_name,
    lay_on,
    mirrored_area,
    mirrored_part,
    outline_of,
    polygons_of,
    ring_of_area,
    seat_of,
    without_short,
)
from galloon.lace.model import Laced, Placement, Scene
from galloon.lace.pairing import pairing, reads_at_centre
from galloon.materials import Cloth
from galloon.said import Said, Term, in_a_row, listed, said
from galloon.styling import Laid, Part, Strip, usual_angle

#: Name of the edges that lie on the face of the panel.
EDGE = "edge"
#: A scalloped edge across a fold must be level within this (slope), or its two halves make a point there.
_LEVEL = 1e-3


def apply(use: LaceUse, scene: Scene, parts: tuple[Part, ...]) -> Laced:
    """Each panel of the use with its overlay."""
    laced = Laced(parts)
    for panel in use.panels:
        one = _lay(use, scene, laced.parts, panel)
        laced = Laced(one.parts, (*laced.placements, *one.placements), (*laced.findings, *one.findings))
    return laced


def _lay(use: LaceUse, scene: Scene, parts: tuple[Part, ...], panel: str) -> Laced:
    seat = seat_of(parts, panel, scene.frame)
    both = use.mirrored is not False
    asked = _asked(use, seat, both=both)
    if asked is None:
        lines = listed(list(use.between))
        return _refused(
            parts, panel, said("no piece of the {panel} lies between {lines}", panel=Term(panel), lines=lines)
        )
    areas = list(polygons_of(shapely.intersection(asked, seat.drawn))) if both else list(_one_sided(asked, seat))
    if not areas:
        away = shapely.distance(asked, _whole(seat))
        why = said("its outline lies beside the {panel}, {away:.0f} mm from it", panel=Term(panel), away=away)
        return _refused(parts, panel, why)
    placements: list[Placement] = []
    found: list[Finding] = []
    for area in areas:
        part, notes = _piece(use, scene, seat, area, free_name(parts, f"{panel} overlay"))
        parts = _marked(use, scene, (*parts, part), seat, area, part)
        placements.append(_placement(use, scene, part, area))
        found += notes
    return Laced(parts, tuple(placements), (*found, _says(use, seat, asked, areas, both=both)))


def _refused(parts: tuple[Part, ...], panel: str, why: Said) -> Laced:
    says = said(
        "The overlay on the {panel} was left out: {why}. Give corners in the panel's own measures.",
        panel=Term(panel), why=why,
    )  # fmt: skip
    return Laced(parts, (), (Finding("overlay", Status.FAIL, says, about=panel),))


def _asked(use: LaceUse, seat: Seat, *, both: bool) -> Any | None:
    """The area asked for, in the measures of the parts; None where no piece lies between the lines named."""
    ring = use.outline or use.corners
    if ring:
        wanted = area_of(np.array([complex(x, y) for x, y in ring]))
        return seat.to_parts(shapely.union(wanted, mirrored_area(wanted)) if both else wanted)
    between = set(use.between)
    inside = [part for part in seat.on if between and between <= {edge.name for edge in part.panel.edges}]
    return shapely.union_all([area_of(outline_of(part)) for part in inside], grid_size=1e-6) if inside else None


def _whole(seat: Seat) -> Any:
    """Both halves of the parts."""
    return shapely.union(seat.drawn, mirrored_area(seat.drawn), grid_size=1e-6)


def _one_sided(asked: Any, seat: Seat) -> Iterator[Any]:
    """The pieces of an overlay on one side only; over a fold it runs on, at a centre seam it ends."""
    if any(part.fold for part in seat.on):
        yield from polygons_of(shapely.intersection(asked, _whole(seat)))
        return
    for half in (seat.drawn, mirrored_area(seat.drawn)):
        yield from polygons_of(shapely.intersection(asked, half))


def _piece(use: LaceUse, scene: Scene, seat: Seat, area: Any, name: str) -> tuple[Part, list[Finding]]:
    ring = without_short(ring_of_area(area))
    cloth = scene.design.cloths[use.cloth]
    both = use.mirrored is not False
    sides = seat.on if both else (*seat.on, *(mirrored_part(part) for part in seat.on))
    edges = dressed_ring(ring, sides, free=EDGE, bare=bare_allowance(cloth, scene.design), fold=both)
    fold = next((edge.name for edge in edges if edge.finish == "fold"), None)
    part = Part(
        Panel(name, edges),
        use.cloth,
        "front" if seat.panel == "front" else "back",
        greatest_stretch=0.0,
        quantity=2 if both and fold is None else 1,
        mirrored=both and fold is None,
        fold=fold,
        laid_on=tuple(one.name for one in seat.on if _touches(one, area)),
    )
    edge = _scalloped(use, cloth, part)
    if isinstance(edge, Finding):
        return part, [edge]
    if edge is None:
        return part, []
    strip = _strip(use, cloth, edge)
    tilt = math.degrees(cmath.phase(strip.along))
    lies = tilt if cloth.stretches_most == "length" else tilt - 90.0
    return replace(part.with_edge(edge.name, allowance=0.0), strip=strip, greatest_stretch=lies), []


def _touches(host: Part, area: Any) -> bool:
    """Whether something lies on either half of a part."""
    own = area_of(outline_of(host))
    both = shapely.union(area, mirrored_area(area))
    return bool(shapely.area(shapely.intersection(own, both)) > 1.0)


def _scalloped(use: LaceUse, cloth: Cloth, part: Part) -> Edge | Finding | None:
    """The free edge that the lace's scallops make: the longest straight one; None where none is asked or there is none.

    Across a fold it must be level: a slanting one would come to a point there, which no single strip has.
    """
    if cloth.lace is None or cloth.lace.first is None or use.lie is Lie.UPRIGHT:
        return None
    straight = [edge for edge in part.panel.edges if edge.finish == "lapped" and _is_straight(edge)]
    if not straight:
        return None
    edge = max(straight, key=lambda one: abs(one.end - one.start))
    slope = unit(edge.end - edge.start).imag
    if part.fold is None or abs(slope) < _LEVEL:
        return edge
    says = said(
        "The longest edge of the {piece} slants across the fold, so the scallop of {lace} cannot make it: it is cut "
        "from inside the lace. Make that edge level, give the panel a centre seam, or be content with it.",
        piece=Term(part.name), lace=cloth.name,
    )  # fmt: skip
    return Finding("overlay scallop", Status.WARN, says, about=f"{part.name}/{edge.name}")


def _is_straight(edge: Edge) -> bool:
    chord = edge.end - edge.start
    points = np.array([piece.end for piece in edge.curve])
    return abs(chord) > 1.0 and float(np.abs(((points - edge.start) / unit(chord)).imag).max()) < 0.05


def _strip(use: LaceUse, cloth: Cloth, edge: Edge) -> Strip:
    """The strip whose first scallops make ``edge``; a valley (or a peak) on the centre line, else in its middle."""
    assert cloth.lace is not None
    assert cloth.lace.first is not None
    along = unit(edge.end - edge.start)
    ends = [end for end in (edge.start, edge.end) if abs(end.real) < 0.05]
    origin = ends[0] if ends else (edge.start + edge.end) / 2.0
    first, phase = cloth.lace.first, reads_at_centre(use, cloth.lace.first)
    return Strip(use.cloth, origin, along, cloth.solid_width, edge.name, first, cloth.lace.second, phase)


def _lies(scene: Scene, part: Part) -> float:
    """Degrees from the x axis to the length of its cloth."""
    if part.strip is not None:
        return math.degrees(cmath.phase(part.strip.along))
    return usual_angle(scene.design.cloths[part.cloth])


def _marked(use: LaceUse, scene: Scene, parts: tuple[Part, ...], seat: Seat, area: Any, part: Part) -> tuple[Part, ...]:
    """The parts with the overlay's place on every panel it lies on."""
    lies = _lies(scene, part)
    both = use.mirrored is not False
    halves: tuple[tuple[Literal["both", "right", "left"], Any], ...] = (
        (("both", area),) if both else (("right", area), ("left", mirrored_area(area)))
    )
    for host in seat.on:
        own = area_of(outline_of(host))
        for half, there in halves:
            for covered in polygons_of(shapely.intersection(own, there)):
                laid = Laid(
                    part.name,
                    use.cloth,
                    ring_of_area(covered),
                    -lies if half == "left" else lies,
                    bool(use.cut_away),
                    half=half,
                    straight=use.stitch == "straight",
                )
                parts = lay_on(parts, host, laid)
    return parts


def _placement(use: LaceUse, scene: Scene, part: Part, area: Any) -> Placement:
    strip = part.strip
    left, low, right, high = shapely.bounds(area)
    valley, far = (complex(left, low), complex(right, low)), (complex(left, high), complex(right, high))
    if strip is not None:
        edge = part.edge(strip.edge or EDGE)
        valley = (edge.start, edge.end)
        far = (edge.start + strip.across * strip.solid, edge.end + strip.across * strip.solid)
    return Placement(
        use.use,
        use.cloth,
        part.name,
        "laid on",
        _lies(scene, part),
        valley,
        far,
        strip.phase if strip else 0.0,
        pairing(scene.design.cloths[use.cloth]).value if strip else "",
        figures={"area": area.area, "cut_away": float(bool(use.cut_away))},
    )


def _says(use: LaceUse, seat: Seat, asked: Any, areas: list[Any], *, both: bool) -> Finding:
    covered = sum(area.area for area in areas) * (2.0 if both else 1.0)
    share = covered / (2.0 * seat.drawn.area)
    behind = said("the cloth behind is cut away") if use.cut_away else said("the cloth behind stays")
    trimmed = shapely.difference(asked, shapely.buffer(_whole(seat), 0.5)).area
    says = said(
        "The overlay of {lace} covers {share:.0%} of the {panel}; {behind}.",
        lace=use.cloth, share=share, panel=Term(seat.panel), behind=behind,
    )  # fmt: skip
    if trimmed > 1.0:
        says = in_a_row(" ", [says, said("What lies beyond the panel's outline was trimmed off it.")])
    return Finding("overlay", Status.PASS, says, share * 100.0, None, "%", seat.panel)
