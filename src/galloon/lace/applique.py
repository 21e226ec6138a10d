"""Applique: motifs cut out and sewn on a panel, singly or overlapping in a cluster that makes one solid piece."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Literal

import shapely

from galloon import defaults
from galloon.design import Design, LaceUse, Motif, Use
from galloon.drafting import Edge, Panel
from galloon.findings import Finding, Status
from galloon.geometry.cubic import polyline
from galloon.lace.laid_on import (
    area_of,
    free_name,
    lay_on,
    mirrored_area,
    outline_of,
    polygons_of,
    ring_of_area,
    seat_of,
    without_short,
)
from galloon.lace.model import Laced, Placement, Scene
from galloon.lace.motifs import Bed, Cluster, Placed, arrange, bed_of, clusters_of
from galloon.said import Said, Term, in_a_row, said
from galloon.styling import Laid, Part
from galloon.units import format_length

#: Name of the one edge of a motif.
EDGE = "outline"
_Half = Literal["both", "right", "left"]


def cloth_of(motif: Motif, design: Design) -> str:
    """What a motif is cut from: its own cloth, that of an applique (on its panel first), of any lace use, of any lace,
    of the panel itself.
    """
    uses = sorted(design.lace, key=lambda use: (use.use is not Use.APPLIQUE, motif.panel not in use.panels))
    laces = [name for name, cloth in design.cloths.items() if cloth.lace is not None]
    return next(name for name in (motif.cloth, *(use.cloth for use in uses), *laces, design.panels.front) if name)


def implied_uses(design: Design) -> tuple[LaceUse, ...]:
    """A use for motifs that no applique of their cloth on their panel sews on."""
    asked = {(panel, use.cloth) for use in design.lace if use.use is Use.APPLIQUE for panel in use.panels}
    wanted = {(motif.panel, cloth_of(motif, design)) for motif in design.motifs}
    return tuple(LaceUse(Use.APPLIQUE, cloth, (panel,)) for panel, cloth in sorted(wanted - asked))


def motifs_on(use: LaceUse, design: Design, panel: str) -> tuple[Motif, ...]:
    """The motifs of ``panel`` that this use sews on: those of its cloth, where no use before it does."""
    alike = (one for one in design.lace if one.use is Use.APPLIQUE and one.cloth == use.cloth and panel in one.panels)
    if next(alike, use) != use:
        return ()
    return tuple(one for one in design.motifs if one.panel == panel and cloth_of(one, design) == use.cloth)


def apply(use: LaceUse, scene: Scene, parts: tuple[Part, ...]) -> Laced:
    """The motifs of each panel of the use on their places."""
    laced = Laced(parts)
    for panel in use.panels:
        one = _sew_on(use, scene, laced.parts, panel)
        laced = Laced(one.parts, (*laced.placements, *one.placements), (*laced.findings, *one.findings))
    return laced


def _sew_on(use: LaceUse, scene: Scene, parts: tuple[Part, ...], panel: str) -> Laced:
    motifs = motifs_on(use, scene.design, panel)
    if not motifs and any(motifs_on(use, scene.design, other) for other in use.panels):
        return Laced(parts)
    if not motifs:
        says = said(
            "There is no motif for the {panel}: add one with an outline ([[motif]]), or take the applique away.",
            panel=Term(panel),
        )
        return Laced(parts, (), (Finding("applique", Status.FAIL, says, about=panel),))
    seat = seat_of(parts, panel, scene.frame)
    bed = bed_of(seat, scene.frame.hip(panel))
    placed, homeless = arrange(motifs, bed)
    outside = {one.at: note for one in placed if (note := _outside(scene, one, bed, panel))}
    kept = [one for one in placed if one.at not in outside]
    near = [note for one in kept if (note := _too_near(scene, one, bed, panel))]
    found = [*(_no_room(motif, panel) for motif in homeless), *outside.values(), *near]
    placements = []
    for cluster in clusters_of(kept):
        cluster = replace(cluster, area=seat.to_parts(cluster.area))
        part = _piece(use, scene, panel, cluster, free_name(parts, f"{panel} motif"))
        parts, names = _marked(use, (*parts, part), seat.on, cluster, part)
        parts = tuple(replace(one, laid_on=names) if one is part else one for one in parts)
        placements.append(_placement(use, part, cluster))
    return Laced(parts, tuple(placements), (*found, *_summary(scene, panel, kept, placements)))


def _no_room(motif: Motif, panel: str) -> Finding:
    xs, ys = zip(*motif.outline, strict=True)
    says = said(
        "A motif of {wide:.0f} by {high:.0f} mm finds no room on the {panel} clear of seams and of the other motifs: "
        "make it smaller, turn it, or place it yourself (at).",
        wide=max(xs) - min(xs), high=max(ys) - min(ys), panel=Term(panel),
    )  # fmt: skip
    return Finding("applique", Status.FAIL, says, about=panel)


def _place(one: Placed) -> Said:
    return said("[{x:g}, {y:g}] cm", x=one.at.real / 10, y=one.at.imag / 10)


def _outside(scene: Scene, one: Placed, bed: Bed, panel: str) -> Finding | None:
    """A motif that leaves the panel, or lies across its centre seam, cannot be sewn on."""
    at = _place(one)
    over = shapely.difference(one.area, bed.whole)
    if shapely.area(over) > 1.0:
        inside = shapely.buffer(bed.whole, 0.0)
        most = float(shapely.hausdorff_distance(shapely.union(one.area, inside), inside))
        says = said(
            "The motif at {at} leaves the {panel} by {by} and was left out: move it, make it smaller, or have it "
            "placed for you (without at).",
            at=at, panel=Term(panel), by=format_length(most, scene.design.units),
        )  # fmt: skip
        return Finding("applique", Status.FAIL, says, most, 0.0, "mm", panel)
    left, _, right, _ = shapely.bounds(one.area)
    if not bed.folded and left < 0.0 < right:
        says = said(
            "The motif at {at} lies across the centre seam of the {panel} and was left out: move it to one side, or "
            "cut the panel on the fold.",
            at=at, panel=Term(panel),
        )  # fmt: skip
        return Finding("applique", Status.FAIL, says, about=f"{panel}/centre {panel}")
    return None


def _too_near(scene: Scene, one: Placed, bed: Bed, panel: str) -> Finding | None:
    over = shapely.difference(one.area, shapely.buffer(bed.whole_room, 0.05))
    if shapely.area(over) < 1.0:
        return None
    clear = format_length(float(defaults.MOTIF_CLEAR), "mm")
    says = said(
        "The motif at {at} comes nearer than {clear} to a seam or an edge of the {panel}, allowance apart: it will be "
        "caught there. Move it inwards.",
        at=_place(one), clear=clear, panel=Term(panel),
    )  # fmt: skip
    return Finding("applique", Status.WARN, says, about=panel)


def _piece(use: LaceUse, scene: Scene, panel: str, cluster: Cluster, name: str) -> Part:
    ring = without_short(ring_of_area(cluster.area))
    cloth = scene.design.cloths[use.cloth]
    turn = cluster.motifs[0].turn
    lies = turn if cloth.stretches_most == "length" else turn - 90.0
    closed = polyline([*ring.tolist(), complex(ring[0])])
    return Part(
        Panel(name, (Edge(EDGE, closed, "lapped"),)),
        cloth.name,
        "front" if panel == "front" else "back",
        greatest_stretch=lies,
        quantity=2 if cluster.pair else 1,
        mirrored=cluster.pair,
    )


def _marked(
    use: LaceUse, parts: tuple[Part, ...], on: tuple[Part, ...], cluster: Cluster, part: Part
) -> tuple[tuple[Part, ...], tuple[str, ...]]:
    """The parts with the cluster's place on every panel it lies on, and the names of those."""
    names: list[str] = []
    for host in on:
        own = area_of(outline_of(host))
        for half, area in _halves(cluster):
            for covered in polygons_of(shapely.intersection(own, area)):
                parts = lay_on(parts, host, _laid(use, cluster, part, ring_area=covered, half=half))
                names.append(host.name)
    return parts, tuple(dict.fromkeys(names))


def _laid(use: LaceUse, cluster: Cluster, part: Part, *, ring_area: Any, half: _Half) -> Laid:
    straight = use.stitch == "straight"
    turn = cluster.motifs[0].turn
    return Laid(
        part.name,
        part.cloth,
        ring_of_area(ring_area),
        -turn if half == "left" else turn,
        bool(use.cut_away),
        rigid=straight or not cluster.stretches,
        half=half,
        straight=straight,
    )


def _halves(cluster: Cluster) -> tuple[tuple[_Half, Any], ...]:
    """Which halves of the body the cluster lies on, and where, as the half that is drawn shows it."""
    if cluster.even or (cluster.pair and shapely.bounds(cluster.area)[0] >= 0.0):
        return (("both", cluster.area),)
    if cluster.pair and shapely.bounds(cluster.area)[2] <= 0.0:
        return (("both", mirrored_area(cluster.area)),)
    return (("right", cluster.area), ("left", mirrored_area(cluster.area)))


def _placement(use: LaceUse, part: Part, cluster: Cluster) -> Placement:
    left, low, right, high = (float(each) for each in shapely.bounds(cluster.area))
    return Placement(
        use.use,
        part.cloth,
        part.name,
        "laid on",
        cluster.motifs[0].turn,
        (complex(left, low), complex(right, low)),
        (complex(left, high), complex(right, high)),
        figures={"motifs": float(len(cluster.motifs)), "area": float(cluster.area.area)},
    )


def _summary(scene: Scene, panel: str, kept: list[Placed], placements: list[Placement]) -> list[Finding]:
    if not placements:
        return []
    arranged = sum(one.motif.at is None for one in kept)
    parts = [
        said("1 motif on the {panel}", panel=Term(panel))
        if len(kept) == 1
        else said("{count} motifs on the {panel}", count=len(kept), panel=Term(panel))
    ]
    if 0 < arranged < len(kept):
        parts.append(said("{count} of them arranged clear of the seams", count=arranged))
    elif arranged:
        parts.append(said("arranged clear of the seams"))
    says = in_a_row(", ", parts)
    grown = max(int((one.figures or {}).get("motifs", 1.0)) for one in placements)
    if grown > 1:
        largest = said("the largest cluster grows {count} of them into one solid piece", count=grown)
        says = in_a_row("; ", [says, largest])
    says = said("{summary}.", summary=says)
    return [Finding("applique", Status.PASS, says, float(len(kept)), None, "", panel)]
