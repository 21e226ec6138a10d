"""Shapes a centre seam: it takes in at the waist along a smooth curve and the side seams give that back, so that cloth
moves from one seam to the others and every girth stays.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Final

from galloon import defaults
from galloon.drafting import Draft, Panel, Side, waist_line
from galloon.findings import Finding, Status
from galloon.geometry import Cubic, arc, distance_between, flatten, line, reversed_curve
from galloon.said import Term, said
from galloon.tolerance import CLEARANCE
from galloon.units import format_length

#: The share of the centre line that is curved, from the waist down; chosen by eye.
_CURVED: Final = 0.6
#: It is straight again so far (mm) above the leg, whose opening stays, and above the hip, where the side is.
_ABOVE_LEG: Final = 8.0
#: Steepest lean (degrees) of a centre seam at the waist; chosen by eye.
STEEPEST_CENTRE: Final = 25.0
#: How often less is taken in before none is, where the waist would come too near the leg.
_TRIES: Final = 8
_LESS: Final = 0.7
#: A shorter curve (mm) than this is none.
_SHORTEST: Final = 20.0


@dataclass(frozen=True)
class _Curve:
    """A parabola, upright at level ``foot`` (mm below the waist), that has come in by ``wide`` mm ``tall`` mm above."""

    wide: float
    tall: float
    foot: float

    @property
    def seam(self) -> Cubic:
        """From the top down to the foot."""
        top, knee = complex(self.wide, self.tall), complex(0.0, self.tall / 2.0)
        curve = (top, top + (knee - top) * 2.0 / 3.0, knee * 2.0 / 3.0, 0j)
        return Cubic(*(point - 1j * self.foot for point in curve))

    def at(self, down: float) -> float:
        """How far it has come in at a level; on as it runs at its top above that."""
        up = max(0.0, self.foot - down) / self.tall
        return self.wide * (up * up if up <= 1.0 else 2.0 * up - 1.0)

    def slope(self, down: float) -> float:
        """Change of ``at`` per mm of level."""
        return -2.0 * self.wide / self.tall * min(1.0, max(0.0, self.foot - down) / self.tall)


def shape_centres(draft: Draft, take_in: Mapping[str, float]) -> tuple[Draft, tuple[Finding, ...]]:
    """The draft with so much (mm, by panel) less half width at the waist of its centre lines, as smooth curves.

    The centre seams' lengths, every girth and the legs stay: the sides of both panels come out by half of what the
    centres take in and are mirror images still. The frame keeps the side of the body.
    """
    curves = {panel: _curve(draft, panel, asked) for panel, asked in take_in.items() if asked > 0.0}
    for _ in range(_TRIES):
        kept = {panel: curve for panel, curve in curves.items() if curve.wide > 0.01}
        side = _given_back(draft.frame.side, tuple(kept.values())) if kept else None
        panels = _shaped(draft, kept, side) if side is not None else {}
        if all(_clear(panel) for panel in panels.values()):
            break
        curves = {panel: _narrower(draft, panel, curve) for panel, curve in curves.items()}
    else:
        kept, panels, side = {}, {}, None
    found = [_report(panel, take_in[panel], kept[panel].wide if panel in kept else 0.0) for panel in curves]
    shaped = replace(draft, panels={**draft.panels, **panels}, shaped_side=side)
    return shaped, tuple(finding for each in found for finding in each)


def _drop(draft: Draft, panel: str) -> float:
    return draft.front_drop if panel == "front" else draft.back_drop


def _curve(draft: Draft, panel: str, asked: float) -> _Curve:
    """The curve that takes in what was asked, or the most that does not lean too far."""
    drop = _drop(draft, panel)
    low = min(draft.leg, draft.frame.side.hip) - _ABOVE_LEG
    tall = min(_CURVED * (draft.frame.depth(panel) - drop), low - drop)
    if tall <= _SHORTEST:
        return _Curve(0.0, 1.0, drop + 1.0)
    quarter = 0.25 * draft.panels[panel].edge("waist").start.real
    return _hung(min(asked, 0.5 * tall * math.tan(math.radians(STEEPEST_CENTRE)), quarter), tall, drop)


def _hung(wide: float, tall: float, drop: float) -> _Curve:
    """The curve walked down from the waist, so that the centre line keeps its length."""
    return _Curve(wide, tall, drop + arc(_Curve(wide, tall, 0.0).seam))


def _narrower(draft: Draft, panel: str, curve: _Curve) -> _Curve:
    return _hung(_LESS * curve.wide, curve.tall, _drop(draft, panel))


def _shaped(draft: Draft, curves: Mapping[str, _Curve], side: Side) -> dict[str, Panel]:
    """Both body panels with their sides come out to ``side`` and the centres of ``curves`` come in."""
    frame = replace(draft.frame, side=side)
    left = draft.leg - draft.side_drop
    done = {}
    for name in ("front", "back"):
        seam = reversed_curve(frame.side.between(frame.hip(name), draft.side_drop, draft.leg))
        waist = waist_line(frame, name, draft.side_drop, _drop(draft, name), side_left=left)
        panel = draft.panels[name].with_edge("side", curve=seam).with_edge("waist", curve=(waist,))
        if name in curves:
            panel = _come_in(panel, name, curves[name].seam, complex(0.0, -frame.depth(name)))
        done[name] = panel
    return done


def _given_back(side: Side, curves: tuple[_Curve, ...]) -> Side:
    """The side seam come out by half of what the curves have come in, level by level: exact, piece by piece."""
    ends = {level for curve in curves for level in (curve.foot - curve.tall, curve.foot) if 0.0 < level < side.hip}
    levels = tuple(sorted({*side.down, *ends}))
    inset = tuple(side.inset_at(down) - sum(curve.at(down) for curve in curves) / 2.0 for down in levels)
    slopes = tuple(-math.tan(side.slant(down)) - sum(curve.slope(down) for curve in curves) / 2.0 for down in levels)
    return Side(levels, inset, slopes)


def _come_in(panel: Panel, name: str, seam: Cubic, bottom: complex) -> Panel:
    down = (seam.out - seam.start) / abs(seam.out - seam.start)
    *outer, last = panel.edge("waist").curve
    square = down * 1j
    square = square if square.real > 0.0 else -square
    dip = abs(square.imag)
    reach = min(last.into.real - last.end.real, defaults.WAIST_DIP / dip if dip > 1e-9 else math.inf)
    waist = (*outer, last._replace(into=seam.start + reach * square, end=seam.start))
    return panel.with_edge("waist", curve=waist).with_edge(f"centre {name}", curve=(seam, line(seam.end, bottom)))


def _clear(panel: Panel) -> bool:
    waist, leg = (flatten(panel.edge(name).curve, 0.1) for name in ("waist", "leg"))
    return distance_between(waist, leg) >= CLEARANCE + 0.05


def _report(panel: str, asked: float, taken: float) -> tuple[Finding, ...]:
    about = f"{panel}/centre {panel}"
    girth = 2.0 * taken
    seam = Term(f"centre {panel} seam")
    says = said(
        "The shaped {seam} takes {girth} in at the waist and the side seams give it back: the girth stays.",
        seam=seam, girth=format_length(girth),
    )  # fmt: skip
    found = [Finding(f"shaped centre {panel}", Status.PASS, says, girth, None, "mm", about)]
    if taken < asked - 0.01:
        says = said(
            "The {seam} cannot take in {asked} over this length without leaning too far; {taken} was taken in.",
            seam=seam, asked=format_length(asked), taken=format_length(taken),
        )  # fmt: skip
        found.append(Finding(f"shaped centre {panel}", Status.WARN, says, asked, taken, "mm", about))
    return tuple(found)
