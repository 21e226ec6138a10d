"""Girth and length reductions from the cloths: equal tension round the body, each within the usual share of its
stretch.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import Final

from galloon import defaults
from galloon.design import Design
from galloon.drafting import Frame, Reductions, held_leg, lay_frame, narrowed
from galloon.findings import Finding
from galloon.materials.tension import usual_tension
from galloon.styling.lay import NO_SHARES, Shares, lengthwise_stretch, round_panel
from galloon.styling.plan import SeamPlan
from galloon.styling.side_forward import moved_frame, room_forward

PLAIN: Final = SeamPlan()
#: Passes in which the tilt of a lace and the reductions it causes come to rest.
_PASSES = 40
#: Tilts (degrees) that agree so well are one; a secant steeper than this is not followed.
_AGREED, _STEEPEST = 1e-10, 0.5


def reduction_of(strain: float) -> float:
    """Girth reduction x at worn strain e: x = e / (1 + e), exact arithmetic."""
    return strain / (1.0 + strain)


def strain_of(reduction: float) -> float:
    """Worn strain e at girth reduction x: e = x / (1 - x), exact arithmetic."""
    return reduction / (1.0 - reduction)


def reductions(design: Design, angles: Mapping[str, float], shares: Shares = NO_SHARES) -> Reductions:
    """Reductions for cloths lying at ``angles`` (degrees, by panel); the design's own figures win.

    ``shares`` says which panels are made of several cloths side by side.
    """
    cloths = {panel: round_panel(design, panel, angles[panel], shares) for panel in ("front", "back")}
    given = design.girth_reduction
    tension = usual_tension(tuple(cloths.values()))
    for panel, reduction in given.items():
        if not cloths[panel].rigid:
            tension = strain_of(reduction) * cloths[panel].stiffness
    most = float(defaults.WORN_STRAIN_LIMIT)
    girth = {
        panel: given.get(panel, reduction_of(min(most, max(0.0, cloth.strain(tension)))))
        for panel, cloth in cloths.items()
    }
    return Reductions(girth["front"], girth["back"], _lengthwise(design, angles, shares))


def _lengthwise(design: Design, angles: Mapping[str, float], shares: Shares) -> float:
    if design.length_reduction is not None:
        return design.length_reduction
    least = min(lengthwise_stretch(design, panel, angles[panel], shares) for panel in ("front", "back", "gusset"))
    if least < defaults.LENGTH_FROM:
        return 0.0
    return min(float(defaults.LENGTH_LIMIT), reduction_of(defaults.LENGTH_SHARE * least))


def settle(
    design: Design,
    angles: Mapping[str, float],
    tilted: frozenset[str],
    *,
    shares: Shares = NO_SHARES,
    plan: SeamPlan = PLAIN,
) -> tuple[Frame, Reductions, dict[str, float], tuple[Finding, ...]]:
    """Frame, reductions and final angles, where the lace of each ``tilted`` panel lies along its straight leg line.

    The tilt depends on the frame and the frame on the tilt; repeated until they agree, each step by the secant of the
    two before it.
    """
    now: dict[str, float] = dict(angles)
    before: _Pass | None = None
    for _ in range(_PASSES):
        cut = reductions(design, now, shares)
        frame, findings = lay_frame(design.wearer, cut, design.block)
        frame = _planned(frame, plan, bool(tilted))
        found = {panel: _tilt(frame, panel, design.style.leg_raise) for panel in tilted}
        if all(abs(found[panel] - now[panel]) < _AGREED for panel in tilted):
            break
        last, before = before, (now, found)
        now = {**now, **{panel: _nearer(panel, before, last) for panel in tilted}}
    return frame, cut, now, findings


_Pass = tuple[Mapping[str, float], Mapping[str, float]]


def _nearer(panel: str, this: _Pass, last: _Pass | None) -> float:
    """The next tilt to try: where the line through the last two passes, tried and found, meets tried = found."""
    tried, found = this[0][panel], this[1][panel]
    if last is None or tried == last[0][panel]:
        return found
    slope = (found - last[1][panel]) / (tried - last[0][panel])
    return found if abs(slope) > _STEEPEST else (found - slope * tried) / (1.0 - slope)


def _planned(frame: Frame, plan: SeamPlan, straight: bool) -> Frame:
    """The frame with the plan's narrow back; and with its moved side seam where a lace runs straight to that."""
    if plan.narrow is not None:
        frame = narrowed(frame, plan.narrow)
    if straight and plan.forward:
        frame = moved_frame(frame, min(plan.forward, room_forward(frame)))
    return frame


def _tilt(frame: Frame, panel: str, leg_raise: float) -> float:
    chord = frame.side_point(panel, held_leg(frame, frame.leg - leg_raise)) - frame.corner(panel)
    return math.degrees(math.atan2(chord.imag, chord.real))
