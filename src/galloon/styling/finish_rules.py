"""What each finish does to an edge: the word in the report and the allowance beyond the finished edge."""

from __future__ import annotations

from dataclasses import replace

from galloon import defaults
from galloon.design import Design, Finish, FinishKind
from galloon.drafting import Draft
from galloon.findings import Finding, Status
from galloon.geometry import distance_between, flatten
from galloon.said import Said, Term, said
from galloon.units import format_length

#: Finishes whose allowance is turned to the wrong side along the stitch line.
TURNED = frozenset({"elastic", "hem"})


def report_word(finish: Finish) -> str:
    """The finish as the report names it."""
    return {
        FinishKind.ELASTIC: "elastic",
        FinishKind.FOLD_OVER: "elastic",
        FinishKind.STRAP: "elastic",
        FinishKind.LACE_TRIM: "trim",
        FinishKind.SCALLOP: "scallop",
        FinishKind.HEM: "hem",
        FinishKind.BINDING: "binding",
    }[finish.kind]


def edge_allowance(finish: Finish) -> float:
    """Cloth beyond the finished edge (mm): positive when turned, none at a fold-over, negative under a laid-on lace."""
    if finish.kind is FinishKind.ELASTIC and finish.elastic is not None:
        picot = float(defaults.PICOT) if finish.elastic.form == "picot" else 0.0
        return max(3.0, finish.elastic.width - picot)
    if finish.band_lap is not None:
        return finish.band_lap
    if finish.short is not None:
        return -finish.short
    if finish.kind is FinishKind.LACE_TRIM and finish.trim is not None:
        return -max(0.0, finish.trim.width - trim_lap(finish))
    if finish.kind is FinishKind.HEM:
        return finish.wide
    return 0.0


def trim_lap(finish: Finish) -> float:
    """How far a laid-on lace laps over the cloth (mm)."""
    width = finish.trim.width if finish.trim is not None else 0.0
    return min(float(defaults.TRIM_LAP), width / 2.0) if finish.short is None else width - finish.short


def widest_trim(zone: str) -> float:
    """How wide (mm) a lace laid on an edge may be; at the leg the gusset must keep cloth between two trims."""
    return float(defaults.WIDEST_TRIM if zone == "waist" else defaults.WIDEST_EDGING)


def hold_trims(design: Design) -> tuple[Design, tuple[Finding, ...]]:
    """The design with no lace trim wider than its edge can take; each that was is a finding. A band is no trim."""
    held: dict[str, Finish] = {}
    found: list[Finding] = []
    for zone, finish in design.finishes:
        trim, most = finish.trim, widest_trim(zone)
        if trim is None or finish.band_lap is not None or trim.width <= most:
            continue
        held[zone] = replace(finish, short=most - defaults.TRIM_LAP)
        edge = zone.replace("_", " ")
        says = said(
            "{lace} is {wide} wide; a lace laid on the {edge} lies flat up to {most}, and the cloth was cut for that. "
            "Take a narrower lace, or use this one as a waistband or a panel.",
            lace=Term(trim.name), wide=format_length(trim.width, design.units), edge=Term(edge),
            most=format_length(most, design.units),
        )  # fmt: skip
        found.append(Finding("lace trim too wide", Status.FAIL, says, trim.width, most, "mm", edge))
    return replace(design, finishes=replace(design.finishes, **held)), tuple(found)


def room_for_trims(design: Design, draft: Draft) -> tuple[Design, tuple[Finding, ...]]:
    """The design with its trims so narrow that cloth is left between waist and leg of both panels, and between the
    legs; else a finding.
    """
    found: list[Finding] = []
    if not any(edge_allowance(finish) < 0.0 for _, finish in design.finishes):
        return design, ()
    for panel in ("front", "back", "gusset"):
        leg = flatten(draft.panels[panel].edge("leg").curve, 0.2)
        rooms: list[tuple[tuple[str, ...], float, Said]] = [
            ((f"{panel}_leg",), 2.0 * float(leg.real.min()), said("between the legs"))
        ]
        if panel != "gusset":
            waist = flatten(draft.panels[panel].edge("waist").curve, 0.2)
            rooms.append((("waist", f"{panel}_leg"), distance_between(waist, leg), said("between waist and leg")))
        for zones, room, where in rooms:
            design, short = _held(design, zones, room, where)
            found += short
    return design, tuple(found)


def _held(design: Design, zones: tuple[str, ...], room: float, where: Said) -> tuple[Design, list[Finding]]:
    """``room`` (mm) is the cloth before any is cut short; a leg alone meets its own trim on the other half."""
    finishes = dict(design.finishes)
    short = {zone: -edge_allowance(finishes[zone]) for zone in zones if edge_allowance(finishes[zone]) < 0.0}
    takes = sum(short.values()) * (2.0 if len(zones) == 1 else 1.0)
    most = max(0.0, room - defaults.TRIM_CLEAR)
    if takes <= most:
        return design, []
    held = {zone: replace(finishes[zone], short=one * most / takes) for zone, one in short.items()}
    about = zones[-1].replace("_", " ")
    says = said(
        "The lace laid on the {edge} edges would take {takes} of cloth, but only {room} lies {where}: it was cut less "
        "short than the lace is wide. Take a narrower lace, or another finish.",
        edge=Term(about), takes=format_length(takes, design.units), room=format_length(room, design.units), where=where,
    )  # fmt: skip
    finding = Finding("lace trim too wide", Status.FAIL, says, takes, most, "mm", about)
    return replace(design, finishes=replace(design.finishes, **held)), [finding]
