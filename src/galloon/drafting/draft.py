"""Drafts front, back and gusset on a frame: limits first, then the lines, then clearance between waist and leg."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from types import MappingProxyType

from galloon import defaults
from galloon.design import Coverage, Drops
from galloon.drafting.limits import deepest_drop, held_leg, lowest_leg
from galloon.drafting.lines import (
    SEATS,
    Flare,
    back_leg,
    chord_turn,
    front_leg,
    gusset_flare,
    gusset_side,
    straight_flare,
    straight_leg,
    waist_line,
)
from galloon.drafting.model import Draft, Edge, Frame, Panel
from galloon.drafting.narrow_back import NarrowBack, narrow_leg, steepest_narrow, taper_flare, taper_side
from galloon.findings import Finding, Status
from galloon.geometry import Curve, distance_between, flatten, line, reversed_curve
from galloon.said import Term, said
from galloon.tolerance import CLEARANCE
from galloon.units import format_length


@dataclass(frozen=True)
class Lines:
    """What the style asks of the lines: drops and leg level (mm below the waist), coverage, panels with a straight
    lace leg.
    """

    drops: Drops
    leg: float
    coverage: Coverage = Coverage.FULL
    straight: frozenset[str] = frozenset()
    narrow: NarrowBack | None = None


def draft_block(frame: Frame, asked: Lines) -> tuple[Draft, tuple[Finding, ...]]:
    """The three panels for ``asked``; a drop or a leg that had to be cut back is a finding with its limit."""
    lines = _limited(frame, asked)
    turn = _leg_turn(frame, lines)
    lines, turn = _cleared(frame, lines, turn)
    return _build(frame, lines, turn), _cut_back(asked, lines)


def _limited(frame: Frame, lines: Lines) -> Lines:
    """Levels held inside what the block can take."""
    leg = held_leg(frame, lines.leg)
    drops = Drops(
        *(min(getattr(lines.drops, edge), deepest_drop(frame, edge, leg)) for edge in ("front", "side", "back"))
    )
    return replace(lines, drops=drops, leg=leg)


def _leg_turn(frame: Frame, lines: Lines) -> float:
    """The one tilt (radians) by which the front leg leaves the side upwards and the back leg downwards."""
    to_back = chord_turn(frame, "back", lines.leg)
    share = 1.0 if "back" in lines.straight else SEATS[lines.coverage].tilt
    to_front = chord_turn(frame, "front", lines.leg)
    left = lines.leg - lines.drops.side
    wide = frame.side_x("front", lines.leg) - frame.gusset_front
    rise = frame.side.slant(lines.leg) + math.atan2(0.35 * left, wide)
    limits: tuple[float, ...] = (
        share * to_back,
        math.radians(defaults.STEEPEST_LEG_TURN),
        math.radians(defaults.STEEPEST_FRONT_LEG) - to_front,
        rise,
    )
    if "front" in lines.straight and "back" not in lines.straight:
        limits = (-to_front, *limits[1:])
    if lines.narrow is not None:
        limits = (*limits, steepest_narrow(frame, lines.narrow, lines.leg))
    return max(0.0, min(limits))


def flare_of(frame: Frame, lines: Lines) -> Flare:
    """The gusset's flare for these lines: as the curved leg asks, or as a straight lace leg runs on."""
    if lines.narrow is not None:
        flare = taper_flare(frame, lines.narrow)
    else:
        flare = gusset_flare(frame, lines.leg, lines.coverage)
    for panel in lines.straight:
        flare = replace(flare, **{panel: straight_flare(frame, panel, lines.leg)})
    return flare


def leg_line(frame: Frame, lines: Lines, panel: str, turn: float) -> Curve:
    """The leg line of ``panel`` from gusset corner to side."""
    if panel in lines.straight:
        return straight_leg(frame, panel, lines.leg)
    flare = flare_of(frame, lines)
    if panel == "front":
        return front_leg(frame, lines.leg, turn, flare.front)
    if lines.narrow is not None:
        return narrow_leg(frame, lines.narrow, lines.leg, turn, flare.back)
    return back_leg(frame, lines.leg, turn, flare.back, bulge=SEATS[lines.coverage].bulge)


def _waist(frame: Frame, lines: Lines, panel: str) -> Curve:
    centre = lines.drops.front if panel == "front" else lines.drops.back
    left = lines.leg - lines.drops.side
    return (waist_line(frame, panel, lines.drops.side, centre, side_left=left),)


def _cleared(frame: Frame, lines: Lines, turn: float) -> tuple[Lines, float]:
    """Lines whose waist and leg keep ``CLEARANCE`` in both panels: first less tilt, then a less deep waist, then
    less of all.
    """
    for attempt in range(40):
        short = {panel: _shortfall(frame, lines, panel, turn) for panel in ("front", "back")}
        if max(short.values()) <= 0.0:
            break
        if turn > 0.0:
            turn = turn / 2.0 if turn > math.radians(2.0) else 0.0
            continue
        drops = lines.drops
        drops = Drops(
            max(0.0, drops.front - (short["front"] + 8.0 if short["front"] > 0.0 else 0.0)),
            drops.side * (0.6 if attempt > 12 else 1.0),
            max(0.0, drops.back - (short["back"] + 8.0 if short["back"] > 0.0 else 0.0)),
        )
        leg = lines.leg + (0.4 * (min(frame.leg, lowest_leg(frame)) - lines.leg) if attempt > 12 else 0.0)
        lines = replace(lines, drops=drops, leg=leg)
    return lines, turn


def _shortfall(frame: Frame, lines: Lines, panel: str, turn: float) -> float:
    waist, leg = _waist(frame, lines, panel), leg_line(frame, lines, panel, turn)
    return CLEARANCE + 1.0 - distance_between(flatten(waist, 0.2), flatten(leg, 0.2))


def _build(frame: Frame, lines: Lines, turn: float) -> Draft:
    panels = {panel: _panel(frame, lines, panel, turn) for panel in ("front", "back")}
    flare = flare_of(frame, lines)
    panels["gusset"] = _gusset(frame, gusset_side(frame, flare) if lines.narrow is None else taper_side(frame, flare))
    drops = lines.drops
    return Draft(frame, MappingProxyType(panels), drops.front, drops.side, drops.back, lines.leg, turn)


def _panel(frame: Frame, lines: Lines, panel: str, turn: float) -> Panel:
    corner = frame.corner(panel)
    bottom = complex(0.0, corner.imag)
    waist = _waist(frame, lines, panel)
    side = reversed_curve(frame.side.between(frame.hip(panel), lines.drops.side, lines.leg))
    other = "back" if panel == "front" else "front"
    return Panel(
        panel,
        (
            Edge("gusset", (line(bottom, corner),), sewn_to=f"gusset/{panel}"),
            Edge("leg", leg_line(frame, lines, panel, turn)),
            Edge("side", side, sewn_to=f"{other}/side"),
            Edge("waist", waist),
            Edge(f"centre {panel}", (line(waist[-1].end, bottom),)),
        ),
    )


def _gusset(frame: Frame, side: Curve) -> Panel:
    g, front, back = frame.gusset, frame.gusset_front, frame.gusset_back
    return Panel(
        "gusset",
        (
            Edge("back", (line(complex(0.0, -g), complex(back, -g)),), sewn_to="back/gusset"),
            Edge("leg", side),
            Edge("front", (line(complex(front, 0.0), 0j),), sewn_to="front/gusset"),
            Edge("centre gusset", (line(0j, complex(0.0, -g)),)),
        ),
    )


def _cut_back(asked: Lines, got: Lines) -> tuple[Finding, ...]:
    pairs = [
        ("front waist drop", asked.drops.front, got.drops.front, "front/waist"),
        ("side waist drop", asked.drops.side, got.drops.side, "front/side"),
        ("back waist drop", asked.drops.back, got.drops.back, "back/waist"),
        ("leg level", asked.leg, got.leg, "front/leg"),
    ]
    return tuple(
        Finding(
            "cut back to fit",
            Status.WARN,
            said(
                "The {what} asked for does not fit this body and leg line: {was} below the waist became {now}, the "
                "most that leaves cloth between waist and leg.",
                what=Term(what),
                was=format_length(was),
                now=format_length(now),
            ),
            was,
            now,
            "mm",
            about,
        )
        for what, was, now, about in pairs
        if abs(was - now) > 0.01
    )
