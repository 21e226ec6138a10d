"""Lays the frame of the block: levels, half widths and side seam, from a body or from proven figures."""

from __future__ import annotations

from galloon import defaults
from galloon.body import Wearer
from galloon.design import ProvenBlock
from galloon.drafting.model import Frame, Reductions
from galloon.drafting.side import Side, draft_side
from galloon.errors import CannotMake
from galloon.findings import Finding, Status
from galloon.said import Term, said
from galloon.units import format_length


def lay_frame(wearer: Wearer, reductions: Reductions, block: ProvenBlock) -> tuple[Frame, tuple[Finding, ...]]:
    """The frame for ``wearer`` in cloth so reduced; any figure of a proven ``block`` wins over the draft's."""
    front_hip = _half(block.front_hip, wearer.hip / 4.0 * (1.0 - reductions.front))
    back_hip = _half(block.back_hip, wearer.hip / 4.0 * (1.0 - reductions.back))
    front, gusset, back = _depths(wearer, reductions, block)
    narrow_at = float(defaults.GUSSET_NARROWEST_AT)
    widths = _gusset_widths(wearer.hip, min(front_hip, back_hip), gusset, block)
    side, findings = _side(wearer, reductions, block, (front_hip, back_hip))
    leg = side.hip + defaults.LEG_BELOW_HIP * (1.0 - reductions.length)
    if block.side is not None:
        leg = side.level_at(block.side)
    _require(0.0 < narrow_at < 1.0 and front > 80.0 and back > 80.0, "crotch_length", wearer.crotch_length)
    frame = Frame(front, back, gusset, front_hip, back_hip, *widths, side, leg)
    return frame, (*findings, *_odd_block(wearer, block))


def _half(full: float | None, drafted: float) -> float:
    return drafted if full is None else full / 2.0


def _require(holds: bool, subject: str, seen: float) -> None:
    if not holds:
        raise CannotMake(Term(subject), said("leaves no panel between waist and gusset"), format_length(seen))


def _depths(wearer: Wearer, reductions: Reductions, block: ProvenBlock) -> tuple[float, float, float]:
    """Centre front, gusset and centre back lengths; their sum is the reduced crotch length unless the block says
    else.
    """
    whole = wearer.crotch_length * (1.0 - reductions.length)
    gusset = block.gusset_length or min(defaults.GUSSET_SHARE * whole, float(defaults.GUSSET_LONGEST))
    rest = whole - gusset
    front, back = block.centre_front, block.centre_back
    if front is None:
        front = rest - back if back is not None else defaults.FRONT_SHARE * rest
    return front, gusset, back if back is not None else rest - front


def _gusset_widths(hip: float, narrower: float, gusset: float, block: ProvenBlock) -> tuple[float, float, float]:
    back = min(65.0, max(45.0, 45.0 + 0.05 * (hip - 850.0)))
    scale = min(1.0, 0.34 * narrower / back, 0.55 * gusset / back)
    front, narrow = defaults.GUSSET_FRONT_HALF * scale, defaults.GUSSET_NARROW_HALF * scale
    front, narrow, back = (
        _half(block.gusset_front, front),
        _half(block.gusset_narrowest, narrow),
        _half(block.gusset_back, back * scale),
    )
    if block.gusset_narrowest is None:
        narrow = min(narrow, front, back)
    if narrow > min(front, back) + 1e-9:
        rule = said("must not exceed the gusset's ends")
        raise CannotMake("block.gusset_narrowest", rule, format_length(2.0 * narrow))
    return front, narrow, back


def _side(
    wearer: Wearer, reductions: Reductions, block: ProvenBlock, hips: tuple[float, float]
) -> tuple[Side, tuple[Finding, ...]]:
    length = wearer.waist_to_hip * (1.0 - reductions.length)
    inset = _waist_inset(wearer, reductions, block, hips)
    top = None if wearer.top_hip is None else (wearer.hip - wearer.top_hip) / 4.0 * (1.0 - reductions.girth)
    most = defaults.STEEPEST_SIDE * length
    capped = min(most, max(-most, inset))
    findings: tuple[Finding, ...] = ()
    if capped != inset:
        off = 4.0 * (abs(inset) - most)
        says = said(
            "The side would slope too steeply from waist to hip; the waist is drawn {off} off. Take it in with darts "
            "or elastic, or measure waist to hip once more (waist_to_hip).",
            off=format_length(off),
        )
        findings = (Finding("side slope", Status.WARN, says, off, 0.0, "mm", "front/side"),)
    if top is not None:
        half = defaults.STEEPER_HALF * most / 2.0
        held = min(half, capped + half, max(-half, capped - half, top))
        if held != top:
            findings = (*findings, _top_hip_off(4.0 * abs(held - top)))
        top = held
    return draft_side(length, capped, top), findings


def _top_hip_off(off: float) -> Finding:
    says = said(
        "Between waist and hip the side would turn too sharply; at the top hip it is drawn {off} off. Measure the top "
        "hip once more, or leave it out.",
        off=format_length(off),
    )
    return Finding("side slope", Status.WARN, says, off, 0.0, "mm", "front/side")


def _waist_inset(wearer: Wearer, reductions: Reductions, block: ProvenBlock, hips: tuple[float, float]) -> float:
    known = [hip - waist / 2.0 for hip, waist in zip(hips, (block.front_waist, block.back_waist), strict=True) if waist]
    if known:
        return sum(known) / len(known)
    return (wearer.hip - wearer.waist) / 4.0 * (1.0 - reductions.girth)


def _odd_block(wearer: Wearer, block: ProvenBlock) -> tuple[Finding, ...]:
    """Proven figures that do not fit one another or look like halves."""
    found = []
    for name, girth in (("hip", wearer.hip), ("waist", wearer.waist)):
        for panel in ("front", "back"):
            given = getattr(block, f"{panel}_{name}")
            if given is not None and not 0.3 * girth <= given <= 0.75 * girth:
                says = said(
                    "The whole width of your block's {panel}, side to side, looks odd: {given} (block.{key}).",
                    panel=Term(panel),
                    given=format_length(given),
                    key=f"{panel}_{name}",
                )
                found.append(Finding("odd block figure", Status.WARN, says, given, girth / 2.0, "mm", panel))
    if None not in (block.front_hip, block.back_hip, block.front_waist, block.back_waist):
        front = (block.front_hip or 0.0) - (block.front_waist or 0.0)
        back = (block.back_hip or 0.0) - (block.back_waist or 0.0)
        if abs(front - back) > 4.0:
            says = said(
                "Your block's front and back side seams differ in shape; the pattern uses their mean, so that they sew "
                "together."
            )
            found.append(Finding("odd block figure", Status.WARN, says, abs(front - back), 4.0, "mm", "front/side"))
    return tuple(found)
