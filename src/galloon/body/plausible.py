"""Measurements that are possible but unusual, reported as findings; nothing here refuses a body."""

from __future__ import annotations

from galloon.body.model import Wearer
from galloon.findings import Finding, Status
from galloon.said import Said, said
from galloon.units import format_length


def _warn(about: str, says: Said, value: float, limit: float, unit: str) -> Finding:
    return Finding(
        "unusual measurement", Status.WARN, says, value=value, limit=limit, unit=unit, about=f"wearer {about}"
    )


def plausibility(wearer: Wearer) -> tuple[Finding, ...]:
    """Findings on measurements outside the usual ranges of trade practice (no source: common practice)."""
    return tuple(
        finding
        for rule in (_girth_order, _hip_to_waist, _thigh, _crotch_range, _crotch_to_hip, _side_length)
        if (finding := rule(wearer)) is not None
    )


def _girth_order(wearer: Wearer) -> Finding | None:
    top = wearer.top_hip
    if wearer.waist > wearer.hip:
        says = said("The waist is larger than the hip. That is possible; please measure both once more.")
        return _warn("waist", says, wearer.waist, wearer.hip, "mm")
    if top is not None and not wearer.waist <= top <= wearer.hip:
        says = said("The top hip usually lies between waist and hip. That is possible; please measure it once more.")
        return _warn("top_hip", says, top, wearer.hip, "mm")
    return None


def _hip_to_waist(wearer: Wearer) -> Finding | None:
    ratio = wearer.hip / wearer.waist
    if ratio > 1.6:
        says = said("The hip is unusually large beside the waist; please measure both once more.")
        return _warn("hip", says, ratio, 1.6, "ratio")
    return None


def _thigh(wearer: Wearer) -> Finding | None:
    if wearer.thigh is None:
        return None
    ratio = wearer.thigh / wearer.hip
    if 0.52 <= ratio <= 0.65:
        return None
    says = said("The thigh is usually 0.52 to 0.65 of the hip; please check that it was taken at its widest, level.")
    return _warn("thigh", says, ratio, 0.52 if ratio < 0.52 else 0.65, "ratio")


def _crotch_range(wearer: Wearer) -> Finding | None:
    crotch = wearer.crotch_length
    if 600.0 <= crotch <= 900.0:
        return None
    says = said(
        "A total crotch length of {length} is unusual (60 to 90 cm is common); please measure it once more.",
        length=format_length(crotch),
    )
    return _warn("crotch_length", says, crotch, 600.0 if crotch < 600.0 else 900.0, "mm")


def _crotch_to_hip(wearer: Wearer) -> Finding | None:
    ratio = wearer.crotch_length / wearer.hip
    if 0.60 <= ratio <= 0.88:
        return None
    says = said(
        "The crotch length is unusual beside the hip; it runs from waist to waist between the legs, not pulled tight."
    )
    return _warn("crotch_length", says, ratio, 0.60 if ratio < 0.60 else 0.88, "ratio")


def _side_length(wearer: Wearer) -> Finding | None:
    length = wearer.waist_to_hip
    if 150.0 <= length <= 270.0:
        return None
    says = said(
        "Waist to hip of {length} is unusual (15 to 27 cm is common); please measure it once more.",
        length=format_length(length),
    )
    return _warn("waist_to_hip", says, length, 150.0 if length < 150.0 else 270.0, "mm")
