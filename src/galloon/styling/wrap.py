"""Front and back in one piece that wraps round the body: no side seam, its shaping goes into the centre back seam."""

from __future__ import annotations

import math
from typing import Final

from galloon import defaults
from galloon.drafting import Draft, Edge, Panel, Side
from galloon.findings import Finding, Status
from galloon.geometry import (
    Cubic,
    Curve,
    arc,
    cubic_length,
    distance_between,
    flatten,
    line,
    reversed_curve,
    unit,
)
from galloon.said import said
from galloon.styling.across_side import Across, end_moved, smoothed, start_moved
from galloon.styling.solve import settle_length
from galloon.tolerance import CENTRE_SUM, CLEARANCE
from galloon.units import format_length

#: Steepest lean (degrees) of the centre back seam at the waist before it is told; chosen by eye.
_STEEP: Final = 35.0
_MOST_SHIFT: Final = 40.0


def wrap_panel(draft: Draft) -> tuple[Panel, tuple[Finding, ...]]:
    """Half of the wrap, x from the centre front: every girth, the crotch length and the leg opening as with side seams.

    Edges: front gusset, front leg, back leg, back gusset, centre back, waist, centre front.
    """
    frame = draft.frame
    legs = _legs(draft)
    doubled = _doubled(frame.side)
    top = _top(doubled, frame.back_depth, frame.back_depth - draft.back_drop)
    wide = Across(frame).wide
    centre = reversed_curve(doubled.between(wide, top, frame.back_depth))
    waist = _waist(draft, centre[-1].end, doubled.slant(top))
    front_foot = complex(0.0, -frame.front_depth)
    panel = Panel(
        "wrap",
        (
            Edge("front gusset", draft.panels["front"].edge("gusset").curve, sewn_to="gusset/front"),
            Edge("front leg", legs[0]),
            Edge("back leg", legs[1]),
            Edge("back gusset", (line(legs[1][-1].end, centre[0].start),), sewn_to="gusset/back"),
            Edge("centre back", centre, sewn_to="wrap/centre back"),
            Edge("waist", waist),
            Edge("centre front", (line(waist[-1].end, front_foot),)),
        ),
    )
    found = (*_steep(math.degrees(doubled.slant(top))), *_waist_change(draft, waist), *_leg_change(draft, legs))
    return panel, (*found, *_near(waist, legs))


def _legs(draft: Draft) -> tuple[Curve, Curve]:
    """Front leg up to the side of the body, back leg down from it; smooth there, their length kept by a shift there."""
    front, back = (draft.panels[name].edge("leg").curve for name in ("front", "back"))
    across = Across(draft.frame)
    over = [across.cubic(piece) for piece in reversed_curve(back)]
    foot = back[0]
    over[-1] = over[-1]._replace(
        into=over[-1].end + complex(-(foot.out - foot.start).real, (foot.out - foot.start).imag)
    )
    whole = cubic_length(front) + cubic_length(back)
    last, first = smoothed(front[-1], over[0])
    side = last.end

    def at(up: float) -> tuple[Curve, Curve]:
        to = side + 1j * up
        return (*front[:-1], end_moved(last, to)), (start_moved(first, to), *over[1:])

    def miss(up: float) -> float:
        return sum(arc(piece) for curve in at(up) for piece in curve) - whole

    return at(settle_length(miss, -_MOST_SHIFT, _MOST_SHIFT))


def _doubled(side: Side) -> Side:
    return Side(side.down, tuple(2.0 * x for x in side.inset), tuple(2.0 * slope for slope in side.slopes))


def _top(seam: Side, bottom: float, length: float) -> float:
    """The level at which the seam, walked up from ``bottom``, has ``length``."""
    low, high = 0.0, bottom
    for _ in range(40):
        middle = (low + high) / 2.0
        longer = sum(arc(piece) for piece in seam.between(0.0, middle, bottom)) > length
        low, high = (middle, high) if longer else (low, middle)
    return (low + high) / 2.0


def _waist(draft: Draft, start: complex, lean: float) -> Curve:
    """From the centre back, square to the seam, by way of the side's own level to the centre front."""
    frame = draft.frame
    side = frame.side_point("front", draft.side_drop)
    front = complex(0.0, -draft.front_drop)
    along = unit(front - start)
    square = complex(-math.cos(lean), -math.sin(lean))
    gap = abs(side - start)
    reach = min(0.36 * gap, defaults.WAIST_DIP / math.sin(lean) if lean > 1e-9 else gap)
    return (
        Cubic(start, start + square * reach, side - along * 0.36 * gap, side),
        Cubic(side, side + along * 0.36 * side.real, complex(0.45 * side.real, front.imag), front),
    )


def _steep(lean: float) -> tuple[Finding, ...]:
    if lean <= _STEEP:
        return ()
    says = said(
        "Without side seams all the shaping is in the centre back seam, which leans {lean:.0f} degrees at the waist. "
        "Lower the waist, or keep the side seams.",
        lean=lean,
    )
    return (Finding("no side seam", Status.WARN, says, lean, _STEEP, "degrees", "wrap/centre back"),)


def _waist_change(draft: Draft, waist: Curve) -> tuple[Finding, ...]:
    before = sum(arc(piece) for name in ("front", "back") for piece in draft.panels[name].edge("waist").curve)
    more = 2.0 * (sum(arc(piece) for piece in waist) - before)
    if abs(more) < 3.0:
        return ()
    says = said(
        "Without side seams the waist line measures {by} {more}, because the centre back seam meets it lower down; "
        "every girth below is the same.",
        by=format_length(abs(more)), more=said("more") if more > 0.0 else said("less"),
    )  # fmt: skip
    return (Finding("no side seam", Status.WARN, says, more, 3.0, "mm", "wrap/waist"),)


def _leg_change(draft: Draft, legs: tuple[Curve, Curve]) -> tuple[Finding, ...]:
    """Where the leg lies so high that the side curves in strongly there, its length cannot be kept."""
    before = sum(arc(piece) for name in ("front", "back") for piece in draft.panels[name].edge("leg").curve)
    more = sum(arc(piece) for leg in legs for piece in leg) - before
    if abs(more) <= CENTRE_SUM:
        return ()
    says = said(
        "Without side seams the leg opening would measure {by} {more}: the leg lies where the body curves in strongly "
        "at the side. Lower the leg line (leg_raise), or keep the side seams.",
        by=format_length(abs(more)), more=said("more") if more > 0.0 else said("less"),
    )  # fmt: skip
    return (Finding("no side seam", Status.FAIL, says, more, CENTRE_SUM, "mm", "wrap/front leg"),)


def _near(waist: Curve, legs: tuple[Curve, Curve]) -> tuple[Finding, ...]:
    apart = min(distance_between(flatten(waist, 0.1), flatten(leg, 0.1)) for leg in legs)
    if apart >= CLEARANCE:
        return ()
    says = said(
        "Only {apart} of cloth is left between waist and leg; raise the waist or lower the leg.",
        apart=format_length(apart),
    )
    return (Finding("no side seam", Status.FAIL, says, apart, CLEARANCE, "mm", "wrap/waist"),)
