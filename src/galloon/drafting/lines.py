"""The waist line, the leg lines and the gusset's side: cubics that are square to folds and smooth across seams."""

from __future__ import annotations

import cmath
import math
from dataclasses import dataclass
from typing import Final

from galloon import defaults
from galloon.design import Coverage
from galloon.drafting.model import Frame
from galloon.geometry import Cubic, Curve, dot, line, meeting_point, unit


@dataclass(frozen=True)
class Seat:
    """How a seat coverage shapes the back leg: tilt share, bulge of the middle (of the chord), gusset flare spared
    (degrees).
    """

    tilt: float
    bulge: float
    spare: float


#: Chosen by eye on drawn patterns, no source.
SEATS: Final[dict[Coverage, Seat]] = {
    Coverage.FULL: Seat(0.95, 0.035, 5.0),
    Coverage.MEDIUM: Seat(0.6, 0.0, 10.0),
    Coverage.LOW: Seat(0.3, -0.09, 16.0),
}


@dataclass(frozen=True)
class Flare:
    """Angles (radians) from the vertical at which the gusset's leg edge meets the front and the back."""

    front: float
    back: float


def inward(frame: Frame, down: float) -> complex:
    """Unit vector square to the side seam at a level, towards the centre."""
    slant = frame.side.slant(down)
    return complex(-math.cos(slant), -math.sin(slant))


def waist_line(frame: Frame, panel: str, side_drop: float, centre_drop: float, *, side_left: float) -> Cubic:
    """From the side to the centre line: square to the side seam, level at the centre."""
    top = frame.side_point(panel, side_drop)
    lean = abs(math.sin(frame.side.slant(side_drop)))
    wide = top.real
    reach = 0.36 * wide
    if lean > 1e-9:
        reach = min(reach, defaults.WAIST_DIP / lean, 0.6 * side_left / lean)
    handle = inward(frame, side_drop) * reach
    return Cubic(top, top + handle, complex(0.45 * wide, -centre_drop), complex(0.0, -centre_drop))


def chord_turn(frame: Frame, panel: str, leg: float) -> float:
    """Angle (radians) from square-to-the-side down to the chord from leg point to gusset corner."""
    chord = frame.corner(panel) - frame.side_point(panel, leg)
    return cmath.phase(chord / inward(frame, leg))


def gusset_flare(frame: Frame, leg: float, coverage: Coverage) -> Flare:
    """The flare a curved leg asks for: convex at both ends, steeper than the back leg's chord, and no edge bent more
    sharply than ``defaults.GUSSET_BEND``.
    """
    at_front = defaults.GUSSET_NARROWEST_AT * frame.gusset
    front = math.atan2(2.0 * (frame.gusset_front - frame.gusset_narrow), at_front)
    least = _least_back_flare(frame)
    chord = frame.side_point("back", leg) - frame.corner("back")
    lean = math.atan2(chord.real, chord.imag) - math.radians(SEATS[coverage].spare)
    rest = (1.0 - defaults.GUSSET_NARROWEST_AT) * frame.gusset
    widest = _widest_flare(frame.gusset_back - frame.gusset_narrow, rest, least)
    return Flare(front, max(least, min(math.radians(defaults.GUSSET_FLARE), lean, widest)))


def _least_back_flare(frame: Frame) -> float:
    rest = (1.0 - defaults.GUSSET_NARROWEST_AT) * frame.gusset
    return math.atan2(2.0 * (frame.gusset_back - frame.gusset_narrow), rest)


def straight_flare(frame: Frame, panel: str, leg: float) -> float:
    """The flare (radians) towards a straight leg: as far as its line runs on, but never so far that the gusset's edge
    would hook: its bend stays as wide as ``defaults.GUSSET_BEND``, and the lace starts at a corner.
    """
    chord = frame.side_point(panel, leg) - frame.corner(panel)
    lean = math.atan2(chord.real, chord.imag)
    share = defaults.GUSSET_NARROWEST_AT if panel == "front" else 1.0 - defaults.GUSSET_NARROWEST_AT
    wider, rest = frame.gusset_half(panel) - frame.gusset_narrow, share * frame.gusset
    least = math.atan2(2.0 * wider, rest)
    return max(least, min(lean, _widest_flare(wider, rest, least)))


def _widest_flare(wider: float, rest: float, least: float) -> float:
    """The flare at which the edge, a parabola that widens by ``wider`` over ``rest``, bends at its end with the least
    radius; its curvature there is (rest - wider / tan f) sin³ f / (2 wider²).
    """
    if wider < 1e-9:
        return least
    low, high = least, math.pi / 2.0
    for _ in range(40):
        flare = (low + high) / 2.0
        bend = (rest - wider / math.tan(flare)) * math.sin(flare) ** 3 / (2.0 * wider * wider)
        low, high = (low, flare) if bend > 1.0 / defaults.GUSSET_BEND else (flare, high)
    return low


def front_leg(frame: Frame, leg: float, tau: float, flare: float) -> Curve:
    """From the gusset corner up to the side: one cubic; ``tau`` turns it up at the side."""
    side, corner = frame.side_point("front", leg), frame.corner("front")
    leaves = inward(frame, leg) * cmath.exp(-1j * tau)
    arrives = complex(-math.sin(flare), -math.cos(flare))
    chord = corner - side
    met = meeting_point(side, leaves, corner, -arrives)
    if met is None or met[1] <= 0.0 or met[2] <= 0.0:
        first = second = abs(chord) / 3.0
    else:
        first, second = 0.48 * met[1], 0.60 * met[2]
    along = unit(chord)
    spent = first * dot(leaves, along) + second * dot(arrives, along)
    shrink = min(1.0, 0.92 * abs(chord) / spent) if spent > 0.0 else 1.0
    return (Cubic(corner, corner - arrives * second * shrink, side + leaves * first * shrink, side),)


def back_leg(frame: Frame, leg: float, tau: float, flare: float, *, bulge: float) -> Curve:
    """From the gusset corner up to the side: two cubics through the middle of the chord, moved outwards by
    ``bulge``.
    """
    side, corner = frame.side_point("back", leg), frame.corner("back")
    leaves = inward(frame, leg) * cmath.exp(1j * tau)
    arrives = complex(-math.sin(flare), -math.cos(flare))
    chord = corner - side
    along = unit(chord)
    half = abs(chord) / 2.0
    middle = (side + corner) / 2.0 + 1j * along * bulge * abs(chord)
    upper = Cubic(middle, middle - along * 0.38 * half, side + leaves * 0.52 * half, side)
    lower = Cubic(corner, corner - arrives * 0.42 * half, middle + along * 0.40 * half, middle)
    return lower, upper


def straight_leg(frame: Frame, panel: str, leg: float) -> Curve:
    """From the gusset corner straight up to the side: the valley line of a lace takes the leg line's place."""
    return (line(frame.corner(panel), frame.side_point(panel, leg)),)


def gusset_side(frame: Frame, flare: Flare) -> Curve:
    """The gusset's leg edge from the back corner to the front corner; front seam at y = 0, back seam at y = -length."""
    g, narrow_at = frame.gusset, defaults.GUSSET_NARROWEST_AT * frame.gusset
    front, narrow, back = (
        complex(frame.gusset_front, 0.0),
        complex(frame.gusset_narrow, -narrow_at),
        complex(frame.gusset_back, -g),
    )
    return (
        _from_quadratic(back, _knee(frame.gusset_narrow, -g, frame.gusset_back, flare.back, up=1.0), narrow),
        _from_quadratic(narrow, _knee(frame.gusset_narrow, 0.0, frame.gusset_front, flare.front, up=-1.0), front),
    )


def _knee(narrow: float, level: float, half: float, flare: float, *, up: float) -> complex:
    away = (half - narrow) / math.tan(flare) if half - narrow > 1e-9 and flare > 1e-9 else 1.0
    return complex(narrow, level + up * away)


def _from_quadratic(start: complex, knee: complex, end: complex) -> Cubic:
    return Cubic(start, start + (knee - start) * 2.0 / 3.0, end + (knee - end) * 2.0 / 3.0, end)
