"""The drawn figure that shows where the tape goes, and the strips that show a lace and its stretch; SVG text."""

from __future__ import annotations

import math
from html import escape
from typing import Final

import numpy as np

from galloon.geometry import Points
from galloon.materials import Cloth, LaceEdges
from galloon.pieces import repeat_start
from galloon.sheets.lace_picture import spans

#: Levels of the figure (of its height, from the top) and half widths seen from the front (of its height), by eye.
_FRONT: Final = (
    (0.30, 0.078), (0.36, 0.068), (0.40, 0.066), (0.45, 0.078),
    (0.50, 0.096), (0.54, 0.103), (0.60, 0.098), (0.72, 0.082),
)  # fmt: skip
#: The same seen from the side: how far the figure reaches to the front and to the back.
_SIDE: Final = (
    (0.30, 0.052, 0.040), (0.36, 0.048, 0.040), (0.40, 0.046, 0.042), (0.45, 0.050, 0.056), (0.50, 0.050, 0.078),
    (0.54, 0.048, 0.080), (0.58, 0.046, 0.060), (0.64, 0.044, 0.044), (0.72, 0.040, 0.040),
)  # fmt: skip
_LEVEL: Final = {"waist": 0.40, "top_hip": 0.465, "hip": 0.535, "thigh": 0.615}
_TALL: Final = 420.0
_AT: Final = (120.0, 300.0)


def figure(what: str, alt: str) -> str:
    """The figure with the tape of one measurement; ``what`` is its key in the brief."""
    front = _curve(
        [(_AT[0] + s * w * _TALL, y * _TALL) for s in (-1, 1) for y, w in (_FRONT if s < 0 else _FRONT[::-1])]
    )
    side = _curve(
        [(_AT[1] - back * _TALL, y * _TALL) for y, _, back in _SIDE]
        + [(_AT[1] + before * _TALL, y * _TALL) for y, before, _ in _SIDE[::-1]]
    )
    legs = f'<path class="body" d="M{_AT[0]:.0f} {0.575 * _TALL:.0f}V{0.72 * _TALL:.0f}"/>'
    return (
        f'<svg class="figure" viewBox="50 110 320 205" role="img" aria-label="{escape(alt, quote=True)}">'
        f'<path class="body" d="{front}"/>{legs}<path class="body" d="{side}"/>{_tape(what)}</svg>'
    )


def _curve(points: list[tuple[float, float]]) -> str:
    """A smooth open line through points, as cubics with the slopes of their neighbours."""
    array = np.array(points)
    slopes = np.gradient(array, axis=0)
    half = len(points) // 2
    steps = [f"M{points[0][0]:.1f} {points[0][1]:.1f}"]
    for i in range(len(points) - 1):
        if i == half - 1:
            steps.append(f"M{points[i + 1][0]:.1f} {points[i + 1][1]:.1f}")
            slopes[i + 1] = array[i + 2] - array[i + 1]
            continue
        if i + 1 == half - 1:
            slopes[i + 1] = array[i + 1] - array[i]
        a, b = array[i] + slopes[i] / 3.0, array[i + 1] - slopes[i + 1] / 3.0
        end = array[i + 1]
        steps.append(f"C{a[0]:.1f} {a[1]:.1f} {b[0]:.1f} {b[1]:.1f} {end[0]:.1f} {end[1]:.1f}")
    return "".join(steps)


def _wide(level: float) -> tuple[float, float, float]:
    front = float(np.interp(level, [y for y, _ in _FRONT], [w for _, w in _FRONT]))
    before = float(np.interp(level, [y for y, _, _ in _SIDE], [w for _, w, _ in _SIDE]))
    behind = float(np.interp(level, [y for y, _, _ in _SIDE], [w for _, _, w in _SIDE]))
    return front * _TALL, before * _TALL, behind * _TALL


def _ring(x: float, left: float, right: float, level: float) -> str:
    middle, half = x + (right - left) / 2.0, (left + right) / 2.0
    return f'<ellipse class="tape" cx="{middle:.1f}" cy="{level * _TALL:.1f}" rx="{half:.1f}" ry="{0.09 * half:.1f}"/>'


def _tape(what: str) -> str:
    top, low = _LEVEL["waist"], _LEVEL["hip"]
    if what == "thigh":
        wide = _wide(_LEVEL[what])[0]
        return _ring(_AT[0] + wide / 2.0, wide / 2.0 - 2.0, wide / 2.0, _LEVEL[what])
    if what in _LEVEL:
        front, before, behind = _wide(_LEVEL[what])
        return _ring(_AT[0], front, front, _LEVEL[what]) + _ring(_AT[1], behind, before, _LEVEL[what])
    if what == "waist_to_hip":
        points = [(_AT[0] + _wide(level)[0] + 3.0, level * _TALL) for level in np.linspace(top, low, 9)]
        return _line(points)
    if what == "crotch_length":
        down = [(_AT[1] + _wide(y)[1] + 2.0, y * _TALL) for y in np.linspace(top, 0.57, 8)]
        up = [(_AT[1] - _wide(y)[2] - 2.0, y * _TALL) for y in np.linspace(0.57, top, 8)]
        round_ = [(_AT[1] + 12.0 * math.cos(a), 0.585 * _TALL + 6.0 * math.sin(a)) for a in np.linspace(0.4, 2.7, 7)]
        return _line([*down, *round_, *up])
    return ""


def _line(points: list[tuple[float, float]]) -> str:
    text = " ".join(f"{x:.1f} {y:.1f}" for x, y in points)
    return f'<path class="tape" d="M{text}"/>'


def lace_strip(cloth: Cloth, alt: str) -> str:
    """Two repeats of a lace with its own scallops, true in proportion; a plain cloth as a band."""
    facts = cloth.lace
    first, second = (facts.first, facts.second) if facts is not None else (None, None)
    repeat = (facts.motif if facts is not None else None) or (first.pitch if first else 60.0)
    if facts is None:
        return _plain_strip(cloth, alt)
    long = min(max(2.0 * repeat, cloth.width * 0.9), 2.4 * cloth.width)
    x = np.linspace(0.0, long, 240)
    low = np.zeros_like(x) if first is None else first.depth * (1.0 - np.abs(np.cos(np.pi * x / first.pitch)))
    high = np.zeros_like(x)
    if second is not None:
        shift = repeat / 2.0 if facts.second_edge.value == "half step" else 0.0
        high = second.depth * (1.0 - np.abs(np.cos(np.pi * (x + shift) / second.pitch)))
    ring = np.concatenate([x + 1j * (cloth.width - low), (x + 1j * high)[::-1]])
    marks = "".join(f'<path class="repeat" d="M{at:.1f} 0V{cloth.width:.1f}"/>' for at in np.arange(0.0, long, repeat))
    box = f"-4 -4 {long + 8.0:.1f} {cloth.width + 8.0:.1f}"
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="strip" viewBox="{box}" role="img" '
        f'preserveAspectRatio="xMinYMid" aria-label="{escape(alt, quote=True)}">'
        f'<path class="lace" d="{_closed(ring)}"/>{_picture(cloth, facts, ring)}{marks}</svg>'
    )


def _picture(cloth: Cloth, facts: LaceEdges, ring: Points) -> str:
    """Her own lace between its edges, where it has a picture."""
    if cloth.picture is None:
        return ""
    length, width = spans(cloth)
    name = cloth.picture.name
    corners = " ".join(f"{point.real:.1f},{point.imag:.1f}" for point in ring)
    return (
        f'<pattern id="strip-{name}" patternUnits="userSpaceOnUse" x="{repeat_start(facts):.3f}" y="0" '
        f'width="{length:.3f}" height="{width:.3f}"><image href="/picture/{name}.png" width="{length:.3f}" '
        f'height="{width:.3f}" preserveAspectRatio="none"/></pattern>'
        f'<polygon class="picture" points="{corners}" fill="url(#strip-{name})"/>'
    )


def _plain_strip(cloth: Cloth, alt: str) -> str:
    """A plain cloth as a band between its selvedges, with an arrow the way it stretches most."""
    wide, tall = 600.0, 150.0
    arrow = "M270 75H330m-8 -6l8 6l-8 6m-44 -12l-8 6l8 6"
    turn = "" if cloth.stretches_most == "length" else f' transform="rotate(90 {wide / 2.0:.0f} {tall / 2.0:.0f})"'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="strip band" viewBox="-4 -4 {wide + 8.0:.0f} {tall + 8.0:.0f}" '
        f'preserveAspectRatio="xMinYMid" role="img" aria-label="{escape(alt, quote=True)}">'
        f'<rect class="plain" x="0" y="0" width="{wide:.0f}" height="{tall:.0f}"/>'
        f'<path class="arrow" d="{arrow}"{turn}/></svg>'
    )


def _closed(ring: Points) -> str:
    return "M" + " ".join(f"{point.real:.1f} {point.imag:.1f}" for point in ring) + "Z"


def stretch_picture(alt: str, stretch: float = 0.55) -> str:
    """A strip at rest and pulled, over a ruler in centimetres."""
    ticks = "".join(
        f'<path class="tick" d="M{20 + 14 * cm} 96v{10 if cm % 5 == 0 else 6}"/>'
        + (f'<text x="{20 + 14 * cm}" y="118">{cm}</text>' if cm % 5 == 0 else "")
        for cm in range(19)
    )
    bars = "".join(
        f'<rect class="{kind}" x="20" y="{y}" width="{140 * (1.0 + by):.0f}" height="26"/>'
        f'<path class="mark" d="M20 {y - 4}v34M{20 + 140 * (1.0 + by):.0f} {y - 4}v34"/>'
        for kind, y, by in (("rest", 12, 0.0), ("pulled", 56, stretch))
    )
    label = escape(alt, quote=True)
    return f'<svg class="stretch" viewBox="0 0 300 124" role="img" aria-label="{label}">{bars}{ticks}</svg>'
