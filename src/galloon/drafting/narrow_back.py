"""The narrow back of a tanga or a thong: a tapering gusset, a strip, and a leg that sweeps out to the side."""

from __future__ import annotations

import cmath
import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Final

from galloon import defaults
from galloon.design import Shape
from galloon.drafting.lines import Flare, inward
from galloon.drafting.model import Frame
from galloon.geometry import Cubic, Curve


@dataclass(frozen=True)
class NarrowBack:
    """Half widths (mm) of the strip at its narrowest and of the gusset's back end; where the narrowest lies (of the
    centre back, up from the gusset seam); how closely the leg hugs its corner there (0 straight, 1 a right angle).
    """

    narrowest: float
    gusset_back: float
    at: float
    hug: float


#: The shapes with a narrow back.
NARROW_BACKS: Final[Mapping[Shape, NarrowBack]] = MappingProxyType(
    {
        Shape.TANGA: NarrowBack(defaults.TANGA_HALF, defaults.TANGA_GUSSET_HALF, 0.16, 0.56),
        Shape.THONG: NarrowBack(defaults.THONG_HALF, defaults.THONG_GUSSET_HALF, 0.24, 0.80),
    }
)
#: Least radius (mm) of the leg where it leaves the strip: a little more than an allowance turned in there.
_LEAST_BEND: Final = 9.0
#: Slope of the strip's edge at the gusset seam, at the most: of the slope at which the strip would bulge.
_STEEPEST: Final = 2.5


def narrowed(frame: Frame, back: NarrowBack) -> Frame:
    """The frame with the gusset's back end as narrow as ``back`` asks, never wider than its middle."""
    return replace(frame, gusset_back=min(back.gusset_back, 0.94 * frame.gusset_narrow))


def narrowest_half(frame: Frame, back: NarrowBack) -> float:
    """Half width (mm) of the strip at its narrowest."""
    return min(back.narrowest, 0.9 * frame.gusset_back)


def taper_flare(frame: Frame, back: NarrowBack) -> Flare:
    """Angles of the tapering gusset's leg edge; the back one is negative: it still narrows there."""
    slopes = _slopes(frame)
    most = _STEEPEST * (frame.gusset_back - narrowest_half(frame, back)) / (back.at * frame.back_depth)
    return Flare(math.atan(slopes[2]), -math.atan(min(slopes[0], most)))


def taper_side(frame: Frame, flare: Flare) -> Curve:
    """The tapering gusset's leg edge from back corner to front corner; it widens all the way (monotone cubics)."""
    levels, widths = _stations(frame)
    slopes = (math.tan(-flare.back), _slopes(frame)[1], math.tan(flare.front))
    return tuple(_rising(levels[i : i + 2], widths[i : i + 2], slopes[i : i + 2]) for i in (0, 1))


def narrow_leg(frame: Frame, back: NarrowBack, leg: float, tau: float, flare: float) -> Curve:
    """The back leg from the gusset corner up along the strip and out to the side."""
    corner, side = frame.corner("back"), frame.side_point("back", leg)
    neck = complex(narrowest_half(frame, back), corner.imag + _neck_height(frame, back, leg, tau))
    lower = _rising((corner.imag, neck.imag), (corner.real, neck.real), (math.tan(flare), 0.0))
    leaves = inward(frame, leg) * cmath.exp(1j * tau)
    reach = (side.real - neck.real) / -leaves.real
    rise = side.imag + reach * leaves.imag - neck.imag
    if rise < 12.0:
        third = abs(side - neck) / 3.0
        return lower, Cubic(neck, neck + 1j * third, side + third * leaves, side)
    return lower, Cubic(neck, neck + 1j * back.hug * rise, side + back.hug * reach * leaves, side)


def _neck_height(frame: Frame, back: NarrowBack, leg: float, tau: float) -> float:
    """How far above the gusset seam the strip is narrowest: as asked, but so far below where the leg aims from the side
    that it need not bend more sharply than its allowance can follow.
    """
    leaves = inward(frame, leg) * cmath.exp(1j * tau)
    side = frame.side_point("back", leg)
    reach = side.real - narrowest_half(frame, back)
    aims = side.imag + reach / -leaves.real * leaves.imag + frame.back_depth
    bend = math.sqrt(2.0 / 3.0 * (1.0 - back.hug) * reach * _LEAST_BEND) / back.hug
    return max(8.0, min(back.at * frame.back_depth, 0.6 * aims, aims - bend))


def steepest_narrow(frame: Frame, back: NarrowBack, leg: float) -> float:
    """The greatest tilt (radians) at which the leg still aims above the gusset seam, by a fifth of the way."""
    side, corner = frame.side_point("back", leg), frame.corner("back")
    fall = 0.8 * (side.imag - corner.imag)
    return math.atan2(fall, side.real - narrowest_half(frame, back)) - frame.side.slant(leg)


def _stations(frame: Frame) -> tuple[tuple[float, ...], tuple[float, ...]]:
    levels = (-frame.gusset, -defaults.GUSSET_NARROWEST_AT * frame.gusset, 0.0)
    return levels, (frame.gusset_back, frame.gusset_narrow, frame.gusset_front)


def _slopes(frame: Frame) -> tuple[float, float, float]:
    """Growth of the half width per mm at back end, middle and front end: monotone cubic interpolation."""
    levels, widths = _stations(frame)
    steps = [levels[i + 1] - levels[i] for i in (0, 1)]
    rates = [(widths[i + 1] - widths[i]) / steps[i] for i in (0, 1)]
    total = sum(rates)
    middle = 2.0 * rates[0] * rates[1] / total if total > 0.0 else 0.0
    ends = [max(0.0, min(3.0 * rate, 1.5 * rate - 0.5 * middle)) for rate in rates]
    return ends[0], middle, ends[1]


def _rising(levels: tuple[float, ...], widths: tuple[float, ...], slopes: tuple[float, ...]) -> Cubic:
    third = (levels[1] - levels[0]) / 3.0
    return Cubic(
        complex(widths[0], levels[0]),
        complex(widths[0] + slopes[0] * third, levels[0] + third),
        complex(widths[1] - slopes[1] * third, levels[1] - third),
        complex(widths[1], levels[1]),
    )
