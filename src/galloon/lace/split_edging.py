"""Split edging: a galloon slit lengthwise into two edgings, one for each leg."""

from __future__ import annotations

from dataclasses import replace

from galloon import defaults
from galloon.design import Design, Finish, FinishKind, LaceUse
from galloon.findings import Finding, Status
from galloon.lace.edge_trim import finished, follows, lies_along, trimmed
from galloon.lace.model import Laced, Scene
from galloon.materials import Cloth, Edges
from galloon.said import in_a_row, said
from galloon.styling import Part
from galloon.units import format_length


def edging_width(use: LaceUse, cloth: Cloth) -> float:
    """Width (mm) of each edging: as asked, else half the galloon, but no wider than lies round a leg."""
    half = cloth.width / 2.0
    return min(half, float(defaults.WIDEST_EDGING), half if use.width is None else use.width)


def can_be_slit(use: LaceUse, cloth: Cloth) -> bool:
    """Whether it is a galloon, which has two scalloped edges to part, and its edgings are wider than those are deep."""
    return _galloon(cloth) and edging_width(use, cloth) > _deep(cloth)


def _galloon(cloth: Cloth) -> bool:
    return cloth.lace is not None and cloth.lace.edges is Edges.DOUBLE


def _deep(cloth: Cloth) -> float:
    edges = (cloth.lace.first, cloth.lace.second) if cloth.lace is not None else ()
    return max((edge.depth for edge in edges if edge is not None), default=0.0)


def edging(use: LaceUse, cloth: Cloth) -> Cloth:
    """One half of the slit galloon, as a lace of its own: one scalloped edge, one raw edge."""
    facts = cloth.lace
    assert facts is not None
    one_edge = replace(
        facts, edges=Edges.SINGLE, second=None, half_turn=False, second_edge=type(facts.second_edge).OTHER
    )
    return replace(cloth, name=f"edging of {cloth.name}", width=edging_width(use, cloth), lace=one_edge)


def dress(use: LaceUse, design: Design) -> Design:
    """The design with an edging round its legs; unchanged where the lace cannot be slit."""
    cloth = design.cloths[use.cloth]
    if not can_be_slit(use, cloth):
        return design
    finish = Finish(FinishKind.LACE_TRIM, trim=edging(use, cloth), slit_from=cloth.name)
    return replace(design, finishes=finished(design.finishes, "leg", use.panels, finish))


def apply(use: LaceUse, scene: Scene, parts: tuple[Part, ...]) -> Laced:
    """Where the edgings lie, what is left of the lace, and its new raw edges."""
    cloth = scene.design.cloths[use.cloth]
    if not can_be_slit(use, cloth):
        return Laced(parts, (), (_not_slit(use, cloth, scene.design.units),))
    hosts = trimmed(parts, "leg", use.panels)
    half = edging(use, cloth)
    placements = tuple(lies_along(use, part, part.edge("leg"), half.width) for part in hosts)
    return Laced(parts, placements, (*_left(scene, cloth, half), *follows(scene, half, hosts, "leg")))


def _not_slit(use: LaceUse, cloth: Cloth, unit: str) -> Finding:
    about = f"lace {cloth.name}"
    if not _galloon(cloth):
        says = said(
            "{lace} has no second scalloped edge, so it cannot be slit into two edgings; use it as edge trim.",
            lace=cloth.name,
        )
        return Finding("split edging", Status.FAIL, says, about=about)
    wide, deep = edging_width(use, cloth), _deep(cloth)
    says = said(
        "An edging {wide} wide would be nothing but scallops, which are {deep} deep on {lace}: take one with shallower "
        "scallops, or make the edgings wider (width).",
        wide=format_length(wide, unit), deep=format_length(deep, unit), lace=cloth.name,
    )  # fmt: skip
    return Finding("split edging", Status.FAIL, says, wide, deep, "mm", about)


def _left(scene: Scene, cloth: Cloth, half: Cloth) -> tuple[Finding, ...]:
    unit = scene.design.units
    rest = cloth.width - 2.0 * half.width
    slit = said(
        "{lace} is slit into two edgings {wide} wide, one for each leg, so its length is needed once for both.",
        lace=cloth.name, wide=format_length(half.width, unit),
    )  # fmt: skip
    left = (
        said("A strip {wide} wide is left over.", wide=format_length(rest, unit))
        if rest >= 1.0
        else said("Nothing of its width is left over.")
    )
    raw = said("The slit edges are raw: slit between motifs, and lay the raw edge on the cloth under the zigzag.")
    says = in_a_row(" ", [slit, left, raw])
    return (Finding("split edging", Status.PASS, says, half.width, cloth.width / 2.0, "mm", f"lace {cloth.name}"),)
