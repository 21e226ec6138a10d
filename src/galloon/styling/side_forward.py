"""Moves the side seam forward: cloth goes from the front to the back, and every girth, length and opening stays."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from galloon import defaults
from galloon.design import Drops
from galloon.drafting import Draft, Frame, waist_line
from galloon.findings import Finding, Status
from galloon.geometry import Cubic, arc, distance_between, flatten, reversed_curve, unit
from galloon.said import said
from galloon.styling.across_side import (
    Across,
    end_moved,
    end_turned,
    reflected,
    seam_direction,
    smoothed,
    start_moved,
)
from galloon.styling.solve import settle_length
from galloon.tolerance import CENTRE_SUM, CLEARANCE
from galloon.units import format_length

#: A leg or a waist is shifted by this much (mm) at the most to keep its length.
_MOST_SHIFT: Final = 40.0
_TRIES: Final = 24


@dataclass(frozen=True)
class Legs:
    """Both leg lines from the gusset up to the side seam."""

    front: Cubic
    back: tuple[Cubic, ...]

    @property
    def length(self) -> float:
        """Of both together (mm)."""
        return arc(self.front) + sum(arc(piece) for piece in self.back)


def moved_frame(frame: Frame, forward: float) -> Frame:
    """The frame with the side seam ``forward`` mm nearer the centre front: same seam, same girth at every level."""
    return replace(frame, front_hip=frame.front_hip - forward, back_hip=frame.back_hip + forward)


def room_forward(frame: Frame) -> float:
    """How far (mm) the side seam can come forward before it leaves no front beside the gusset."""
    return max(0.0, frame.front_hip - frame.gusset_front - defaults.FRONT_CLEAR)


def move_side(draft: Draft, forward: float, *, straight_waist: bool = False) -> tuple[Draft, tuple[Finding, ...]]:
    """The draft with its side seam ``forward`` mm nearer the front; less where there is no room, with a finding.

    ``straight_waist``: the drafted waist line gives way to a straight one, so a level waist stays exactly level.
    """
    frame = draft.frame
    most = min(forward, room_forward(frame))
    for _ in range(_TRIES):
        if most < 1.0:
            break
        made = _moved(draft, most, straight_waist)
        if made is not None:
            return made, (*_short(forward, most), *(() if straight_waist else _waist_off(draft, made)))
        most *= 0.85
    return draft, _short(forward, 0.0)


def _short(asked: float, got: float) -> tuple[Finding, ...]:
    if got >= asked - 0.01:
        return ()
    says = said(
        "The side seam cannot come {asked} forward on this front: {got} leaves cloth beside the gusset and between "
        "waist and leg.",
        asked=format_length(asked), got=format_length(got),
    )  # fmt: skip
    return (Finding("side seam forward", Status.WARN, says, asked, got, "mm", "front/side"),)


def _waist_off(before: Draft, after: Draft) -> tuple[Finding, ...]:
    lengths = [
        sum(arc(piece) for name in ("front", "back") for piece in draft.panels[name].edge("waist").curve)
        for draft in (before, after)
    ]
    off = lengths[1] - lengths[0]
    if abs(off) <= CENTRE_SUM:
        return ()
    says = said(
        "With the waist so uneven and the side seam so far forward, half the waist line comes out {by} {longer}; move "
        "the seam less, or drop the waist more evenly.",
        by=format_length(abs(off)), longer=said("longer") if off > 0.0 else said("shorter"),
    )  # fmt: skip
    return (Finding("side seam forward", Status.WARN, says, off, CENTRE_SUM, "mm", "front/waist"),)


def _moved(draft: Draft, forward: float, straight_waist: bool) -> Draft | None:
    """None where the seam would meet the leg line too low, or waist and leg would come too near each other."""
    frame = draft.frame
    legs, leg = _legs(draft, forward)
    lowest = frame.front_depth - max(float(defaults.FRONT_CLEAR), 0.14 * frame.front_depth)
    if leg > lowest:
        return None
    to = moved_frame(frame, forward)
    level = straight_waist and draft.front_drop == draft.side_drop == draft.back_drop
    side_drop = draft.side_drop if level else _side_drop(draft, to, leg)
    waists = _waists(draft, to, side_drop, leg)
    panels = dict(draft.panels)
    for name, curve in (("front", (legs.front,)), ("back", legs.back)):
        if distance_between(flatten((waists[name],), 0.1), flatten(curve, 0.1)) < CLEARANCE + 0.5:
            return None
        side = reversed_curve(to.side.between(to.hip(name), side_drop, leg))
        panel = draft.panels[name].with_edge("leg", curve=curve).with_edge("side", curve=side)
        panels[name] = panel.with_edge("waist", curve=(waists[name],))
    if leg - side_drop < defaults.LEAST_SIDE - 1e-6:
        return None
    return replace(draft, frame=to, panels=panels, side_drop=side_drop, leg=leg)


def _legs(draft: Draft, forward: float) -> tuple[Legs, float]:
    """The front leg cut at the new seam, the back leg carried on over what it gains; and the new leg level.

    Their length is kept by raising or lowering the stretch between the old and the new side point.
    """
    frame = draft.frame
    front, back = draft.panels["front"].edge("leg").curve[0], draft.panels["back"].edge("leg").curve
    kept, sliver = front.split(_crossing(frame, front, forward))
    across = Across(frame)
    last, gained = smoothed(back[-1], across.cubic(Cubic(*sliver[::-1])))
    base = unit(gained.end - gained.into)
    level = -kept.end.imag
    runs_on = reflected(unit(kept.into - kept.end), seam_direction(frame, level))
    half = unit(base + runs_on)
    front_arrives = -reflected(half, seam_direction(frame, level))
    kept, gained = end_turned(kept, front_arrives), end_turned(gained, half)
    base_legs = Legs(kept, (*back[:-1], last, gained))
    whole = arc(front) + sum(arc(piece) for piece in back)

    def at(shift: float) -> tuple[Legs, float]:
        return _shifted(frame, base_legs, forward, shift), level - shift

    shift = settle_length(lambda up: at(up)[0].length - whole, -_MOST_SHIFT, _MOST_SHIFT)
    return at(shift)


def _shifted(frame: Frame, legs: Legs, forward: float, up: float) -> Legs:
    """The legs with the stretch round old and new side point ``up`` mm higher, still smooth across the seam."""
    level = -legs.front.end.imag - up
    inset = frame.side.inset_at(level)
    front = end_moved(legs.front, complex(frame.front_hip - forward - inset, -level))
    *lower, last, gained = legs.back
    gained = end_moved(start_moved(gained, gained.start + 1j * up), complex(frame.back_hip + forward - inset, -level))
    last = end_moved(last, last.end + 1j * up)
    leaves = reflected(unit(front.into - front.end), seam_direction(frame, level))
    return Legs(front, (*lower, last, end_turned(gained, leaves)))


def _crossing(frame: Frame, front: Cubic, forward: float) -> float:
    """Parameter at which the front leg meets the side seam moved forward."""
    low, high = 0.0, 1.0
    for _ in range(48):
        middle = (low + high) / 2.0
        point = front.at(middle)
        beyond = point.real + frame.side.inset_at(-point.imag) > frame.front_hip - forward
        low, high = (low, middle) if beyond else (middle, high)
    return (low + high) / 2.0


def _waists(draft: Draft, frame: Frame, side_drop: float, leg: float) -> dict[str, Cubic]:
    drops = Drops(draft.front_drop, max(0.0, side_drop), draft.back_drop)
    left = leg - side_drop
    return {
        name: waist_line(frame, name, side_drop, centre, side_left=left)
        for name, centre in (("front", drops.front), ("back", drops.back))
    }


def _side_drop(draft: Draft, to: Frame, leg: float) -> float:
    """The level of the new top of the side seam: on the waist line of the plain front, less its dip beside the seam,
    then shifted so that the whole waist line keeps its length.
    """
    frame = draft.frame
    whole = sum(arc(draft.panels[name].edge("waist").curve[0]) for name in ("front", "back"))
    top = frame.side_point("front", draft.side_drop)
    wide = top.real
    level_line = Cubic(top, top - 0.36 * wide, complex(0.45 * wide, -draft.front_drop), complex(0.0, -draft.front_drop))
    t = _share_along(level_line, wide - (frame.front_hip - to.front_hip))
    base = -level_line.at(t).imag

    def miss(up: float) -> float:
        waists = _waists(draft, to, base - up, leg)
        return sum(arc(piece) for piece in waists.values()) - whole

    if abs(miss(0.0)) < 1e-3:
        return base
    return base - settle_length(miss, -min(_MOST_SHIFT, leg - base - defaults.LEAST_SIDE), min(_MOST_SHIFT, base))


def _share_along(curve: Cubic, x: float) -> float:
    low, high = 0.0, 1.0
    for _ in range(40):
        middle = (low + high) / 2.0
        low, high = (middle, high) if curve.at(middle).real > x else (low, middle)
    return (low + high) / 2.0
