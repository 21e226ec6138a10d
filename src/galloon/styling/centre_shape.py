"""Shapes a centre seam: it takes in at the waist along a smooth curve, and the waist line runs on across it."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Final

from galloon import defaults
from galloon.drafting import Draft, Panel
from galloon.findings import Finding, Status
from galloon.geometry import Cubic, arc, distance_between, flatten, line
from galloon.tolerance import CLEARANCE
from galloon.units import format_length

#: The share of the centre line that is curved, from the waist down; chosen by eye.
_CURVED: Final = 0.6
#: Steepest lean (degrees) of a centre seam at the waist; chosen by eye.
_STEEPEST: Final = 25.0
#: How often less is taken in before none is, where the waist would come too near the leg.
_TRIES: Final = 8


def shape_centre(draft: Draft, panel: str, take_in: float) -> tuple[Draft, tuple[Finding, ...]]:
    """The draft with ``take_in`` mm less half width at the waist of the centre of ``panel``; the seam's length stays.

    A parabola from the waist down to where the straight centre line begins; what is taken in is reported.
    """
    drop = draft.front_drop if panel == "front" else draft.back_drop
    whole = draft.frame.depth(panel) - drop
    tall = _CURVED * whole
    most = min(0.5 * tall * math.tan(math.radians(_STEEPEST)), 0.25 * draft.panels[panel].edge("waist").start.real)
    taken = min(take_in, most)
    bottom = complex(0.0, -draft.frame.depth(panel))
    for _ in range(_TRIES):
        curved = _parabola(taken, tall)
        foot = -drop - arc(curved)
        seam = Cubic(*(point + 1j * foot for point in curved))
        shaped = _shaped(draft.panels[panel], panel, seam, bottom)
        if _clear(shaped):
            return replace(draft, panels={**draft.panels, panel: shaped}), _report(panel, take_in, taken)
        taken *= 0.7
    return draft, _report(panel, take_in, 0.0)


def _clear(panel: Panel) -> bool:
    waist, leg = (flatten(panel.edge(name).curve, 0.1) for name in ("waist", "leg"))
    return distance_between(waist, leg) >= CLEARANCE + 0.05


def _parabola(wide: float, tall: float) -> Cubic:
    """From (wide, tall) down to the origin, upright there."""
    top, knee = complex(wide, tall), complex(0.0, tall / 2.0)
    return Cubic(top, top + (knee - top) * 2.0 / 3.0, knee * 2.0 / 3.0, 0j)


def _shaped(panel: Panel, name: str, seam: Cubic, bottom: complex) -> Panel:
    down = (seam.out - seam.start) / abs(seam.out - seam.start)
    *outer, last = panel.edge("waist").curve
    square = down * 1j
    square = square if square.real > 0.0 else -square
    dip = abs(square.imag)
    reach = min(last.into.real - last.end.real, defaults.WAIST_DIP / dip if dip > 1e-9 else math.inf)
    waist = (*outer, last._replace(into=seam.start + reach * square, end=seam.start))
    return panel.with_edge("waist", curve=waist).with_edge(f"centre {name}", curve=(seam, line(seam.end, bottom)))


def _report(panel: str, asked: float, taken: float) -> tuple[Finding, ...]:
    about = f"{panel}/centre {panel}"
    girth = 2.0 * taken
    says = f"The shaped centre {panel} seam takes {format_length(girth)} of girth in at the waist."
    found = [Finding(f"shaped centre {panel}", Status.PASS, says, girth, None, "mm", about)]
    if taken < asked - 0.01:
        says = (
            f"The centre {panel} seam cannot take in {format_length(asked)} over this length without leaning too far; "
            f"{format_length(taken)} was taken in."
        )
        found.append(Finding(f"shaped centre {panel}", Status.WARN, says, asked, taken, "mm", about))
    return tuple(found)
