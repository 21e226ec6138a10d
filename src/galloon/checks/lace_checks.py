"""Lace: coverage, hold of a bare scallop, right side and motif, on its strip, enough on hand."""

from __future__ import annotations

from galloon import defaults
from galloon.checks.model import Evidence
from galloon.checks.openings import leg_ratio
from galloon.design import FinishKind, Lie, Use
from galloon.findings import Finding, Status
from galloon.geometry import flatten, ring_area
from galloon.materials import Cloth
from galloon.pieces import Garment, off_strip
from galloon.said import Said, Term, in_a_row, said
from galloon.tolerance import ON_LACE
from galloon.units import format_length

#: Uses whose lace is stretched on as an elastic, so that its hold is the elastic's.
_TRIMS = frozenset({Use.EDGE_TRIM, Use.SPLIT_EDGING, Use.WAISTBAND})


def lace_checks(evidence: Evidence) -> list[Finding]:
    """Findings on every lace of the design."""
    garment = evidence.garment
    found = [*_on_strip(garment), *_bare_edges(garment), *_on_hand(evidence)]
    if garment.placements:
        found += [*_coverage(garment), *_scallop_holds(evidence), *_motif_up(garment), *_right_side(garment)]
    return found


def seat_covered(garment: Garment) -> float:
    """Share of the block's whole back (waist level to gusset and leg) that the back still covers."""
    frame = garment.frame
    panel = garment.draft.panels["back"]
    points = [point for edge in panel.edges for point in flatten(edge.curve, 0.2)[:-1]]
    import numpy as np

    kept = ring_area(np.array(points))
    side = frame.side.curve(frame.back_hip, garment.draft.leg)
    top = [complex(0.0, 0.0), complex(0.0, panel.edge("waist").end.imag)]
    lost_side = flatten(frame.side.between(frame.back_hip, 0.0, max(1e-6, garment.draft.side_drop)), 0.2)
    waist = flatten(panel.edge("waist").curve, 0.2)
    above = abs(ring_area(np.concatenate([lost_side, waist[1:], top[:1]]))) if side else 0.0
    return kept / (kept + above)


def coverage_word(garment: Garment) -> str:
    """good, low or too little: the worse of the side seam left and the seat covered."""
    return _coverage_word(garment, seat_covered(garment))


def _coverage_word(garment: Garment, seat: float) -> str:
    side = garment.side_seam
    if garment.design.style.side_forward is None:
        side = garment.draft.leg - garment.draft.side_drop
    if side >= defaults.SIDE_SEAM_GOOD and seat >= defaults.SEAT_GOOD:
        return "good"
    return "low" if side >= defaults.SIDE_SEAM_LOW and seat >= defaults.SEAT_LOW else "too little"


def _bare_edges(garment: Garment) -> list[Finding]:
    """An edge left to a scallop where the lace has none, as a front leg cut through an upright lace."""
    found = []
    for piece in garment.pieces:
        strip = piece.part.strip
        made = (strip.edge, strip.far_edge) if strip is not None else ()
        for edge in piece.edges:
            if edge.finish == "scallop" and edge.name not in made and not (piece.part.laid_on or piece.part.lining):
                says = said(
                    "The {edge} edge of the {piece} is to be a bare scallop, but no lace has its scalloped edge there. "
                    "Name an elastic for it (under [finish]).",
                    edge=Term(edge.name), piece=Term(piece.name),
                )  # fmt: skip
                found.append(Finding("edge is finished", Status.FAIL, says, about=f"{piece.name}/{edge.name}"))
    return found


def _coverage(garment: Garment) -> list[Finding]:
    seat = seat_covered(garment)
    word = _coverage_word(garment, seat)
    side, unit = garment.side_seam, garment.design.units
    told = {"side": format_length(side, unit), "seat": seat, "word": Term(word)}
    if garment.design.open_side is None:
        says = said("{side} of side seam is left and {seat:.0%} of the seat covered: {word}.", **told)
    else:
        says = said("{side} of open side is left and {seat:.0%} of the seat covered: {word}.", **told)
    status = {"good": Status.PASS, "low": Status.WARN, "too little": Status.FAIL}[word]
    if word == "too little":
        says = in_a_row(" ", [says, _what_else(garment)])
    return [Finding("coverage", status, says, side, float(defaults.SIDE_SEAM_GOOD), "mm", "back/side")]


def _what_else(garment: Garment) -> Said:
    """What else a lace that covers too little could do."""
    laces = {p.cloth for p in garment.placements if p.use is Use.SCALLOPED_LEG}
    name = sorted(laces)[0] if laces else garment.placements[0].cloth
    return said(
        "{lace} could instead be a V inset under an upper cloth on the back, an upright front panel, an overlay, a "
        "strip let in over the side seams, or trim at waist and legs.",
        lace=name,
    )


def _scallop_holds(evidence: Evidence) -> list[Finding]:
    garment = evidence.garment
    bare = [p for p in garment.placements if p.lie == Lie.ALONG_LEG.value and p.use not in _TRIMS]
    found = []
    for placement in bare:
        finishes = garment.design.finishes
        finish = finishes.back_leg if placement.piece == "back" else finishes.front_leg
        if finish.kind is FinishKind.SCALLOP and finish.elastic is not None:
            continue
        found.append(_holds(evidence, garment.design.cloths[placement.cloth], placement.piece))
    return found


def _holds(evidence: Evidence, cloth: Cloth, piece: str) -> Finding:
    opening, body, ratio = leg_ratio(evidence)
    recovery, about = cloth.recovery, f"{piece}/leg"
    least = float(defaults.LEAST_RECOVERY)
    name, unit = "scallop holds without elastic", evidence.garment.design.units
    if ratio > 1.0:
        says = said(
            "The lace edge is longer ({edge}) than the leg ({leg}): it will flap. Put soft elastic behind it "
            '(back_leg = "scallop with soft elastic 6 mm").',
            edge=format_length(opening, unit), leg=format_length(body, unit),
        )  # fmt: skip
        return Finding(name, Status.WARN, says, ratio, 1.0, "ratio", about)
    if recovery is not None and recovery < least:
        says = said(
            "{lace} recovers only {recovery:.0%} of its stretch, so its edge will grow in wear. Put soft elastic "
            'behind it (back_leg = "scallop with soft elastic 6 mm").',
            lace=cloth.name, recovery=recovery,
        )  # fmt: skip
        return Finding(name, Status.WARN, says, recovery * 100.0, least * 100.0, "%", about)
    says = said(
        "Worn, the leg with its lace edge is stretched by {strain:.0%} and should lie close without elastic.",
        strain=1.0 / ratio - 1.0,
    )
    return Finding(name, Status.PASS, says, ratio, 1.0, "ratio", about)


def _motif_up(garment: Garment) -> list[Finding]:
    """Flowers must not hang: a strip along the leg slants, and a twin from the other edge stands on its head."""
    found = []
    for placement in garment.placements:
        cloth = garment.design.cloths[placement.cloth]
        if not cloth.motif_up or placement.lie != Lie.ALONG_LEG.value:
            continue
        if "other edge" in placement.pairing:
            says = said(
                "The twin of the {piece} comes from the other edge of {lace}, where its flowers hang upside down. Use "
                "a lace that is its own mirror across, or be content with it (motif_up = false).",
                piece=Term(placement.piece), lace=cloth.name,
            )  # fmt: skip
            found.append(Finding("motif stands up", Status.WARN, says, about=placement.piece))
        elif abs(placement.tilt) > 45.0:
            says = said(
                "The flowers of {lace} lean by {tilt:.0f} degrees on the {piece}.",
                lace=cloth.name, tilt=placement.tilt, piece=Term(placement.piece),
            )  # fmt: skip
            found.append(
                Finding("motif stands up", Status.WARN, says, placement.tilt, 45.0, "degrees", placement.piece)
            )
    return found


def _right_side(garment: Garment) -> list[Finding]:
    found = []
    for placement in garment.placements:
        cloth = garment.design.cloths[placement.cloth]
        if not cloth.reversible and placement.pairing.startswith("no mirrored"):
            says = said(
                "{lace} has a right side that must face out; its twin cannot be the same piece turned over.",
                lace=cloth.name,
            )
            found.append(Finding("right side out", Status.WARN, says, about=placement.piece))
    return found


def _on_strip(garment: Garment) -> list[Finding]:
    found = []
    for piece in garment.outer:
        if piece.strip is None:
            continue
        over = off_strip(piece)
        says = said("The whole {piece} lies on solid lace, allowances included.", piece=Term(piece.name))
        status = Status.PASS
        if over > ON_LACE:
            status = Status.FAIL
            says = said(
                "The cut line of the {piece} leaves the solid lace by {by}: use a wider lace, a lower waist or smaller "
                "allowances.",
                piece=Term(piece.name), by=format_length(over, "mm"),
            )  # fmt: skip
        found.append(Finding("piece lies on its lace", status, says, over, ON_LACE, "mm", piece.name))
    return found


def _on_hand(evidence: Evidence) -> list[Finding]:
    found = []
    design = evidence.garment.design
    for name, need in sorted(evidence.lengths.items()):
        cloth = design.cloths[name]
        if cloth.on_hand is None:
            continue
        unit = design.units
        asked = format_length(need, unit)
        told = {
            "need": said("At least {length}", length=asked) if evidence.at_least else asked,
            "cloth": name,
            "has": format_length(cloth.on_hand, unit),
        }
        if need <= cloth.on_hand + 0.05:
            says = said("{need} of {cloth} is needed, {has} is on hand.", **told)
            found.append(Finding("enough on hand", Status.PASS, says, need, cloth.on_hand, "mm", f"cloth {name}"))
            continue
        says = said(
            "{need} of {cloth} is needed, but only {has} is on hand: {short} is missing.",
            short=format_length(need - cloth.on_hand, unit), **told,
        )  # fmt: skip
        found.append(Finding("enough on hand", Status.FAIL, says, need, cloth.on_hand, "mm", f"cloth {name}"))
    return found
