"""Draws the figures of a lace from the evidence: width, pitch, depth, repeat, openness, symmetries."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from galloon.reading import uncertainty as error
from galloon.reading.edges import Side
from galloon.reading.evidence import Evidence
from galloon.reading.model import Figure, figure
from galloon.reading.pitch import pitches
from galloon.reading.symmetry import Likenesses

#: Two depths nearer than this are one (share; mm).
SAME_DEPTH, SAME_DEPTH_MM = 0.05, 0.5
#: A symmetry holds when likeness less the worst local difference exceeds this; nearer to it than so much is unsure.
ALIKE, ALIKE_UNSURE = 0.81, 0.04


@dataclass(frozen=True)
class Figures:
    """Everything measured; None where the lace has no such thing."""

    edges: str
    width: Figure
    pitch: Figure | None
    depth: Figure | None
    second_pitch: Figure | None
    second_depth: Figure | None
    repeat: Figure | None
    openness: Figure
    mirror_across: bool
    second_edge: str | None
    half_turn: bool


def figures_of(evidence: Evidence) -> Figures:
    """All figures of a lace whose edges and repeat were found."""
    lace = evidence.lace
    assert lace is not None
    sides = [side for side in (lace.top, lace.low) if side.scalloped]
    edges = ("straight", "single scallop", "double scallop")[len(sides)]
    pitch, second_pitch = _pitches(evidence)
    depth, second_depth = _depths(evidence, sides)
    mirror, second, turn = _symmetries(evidence, edges)
    if second_pitch is not None or second_depth is not None:
        second, turn = "other", False  # unlike scallops neither mirror nor turn into each other
    return Figures(
        edges=edges, width=_width(evidence), pitch=pitch, depth=depth, second_pitch=second_pitch,
        second_depth=second_depth, repeat=_repeat(evidence, pitch),
        openness=figure(float(np.clip(evidence.openness, 0, 1)), error.half_open(evidence), 0.0),
        mirror_across=mirror, second_edge=second, half_turn=turn,
    )  # fmt: skip


def _width(evidence: Evidence) -> Figure:
    lace = evidence.lace
    assert lace is not None
    x = (lace.top.middle + lace.low.middle) / 2
    value = lace.top.base(x) + lace.low.base(x) + lace.top.peak + lace.low.peak
    return figure(value, error.half_width(evidence, value), 0.0)


def _pitches(evidence: Evidence) -> tuple[Figure | None, Figure | None]:
    found = [figure(p.value, error.half_pitch(evidence, p), 0.0) for p in pitches(evidence)]
    return found[0] if found else None, found[1] if len(found) > 1 else None


def _depths(evidence: Evidence, sides: list[Side]) -> tuple[Figure | None, Figure | None]:
    found = [
        figure(side.profile.depth, error.half_depth(evidence, side), 0.0) for side in sides if side.profile is not None
    ]
    if len(found) < 2:
        return (found[0] if found else None), None
    gap = abs(found[0].value - found[1].value)
    if gap < max(SAME_DEPTH_MM, SAME_DEPTH * found[0].value) or gap < 0.7 * (found[0].half + found[1].half):
        return figure((found[0].value + found[1].value) / 2, float(np.hypot(found[0].half, found[1].half)) / 1.6), None
    return found[0], found[1]


def _repeat(evidence: Evidence, pitch: Figure | None) -> Figure | None:
    repeat = evidence.repeat
    if repeat is None:
        return None
    if pitch is None or repeat.pitches == 0:
        return figure(repeat.length, error.half_repeat(evidence, repeat.length), 0.0)
    n = repeat.pitches
    return Figure(pitch.value * n, pitch.low * n, pitch.high * n)


def alikeness(alike: Likenesses) -> tuple[float, float, float]:
    """How alike the repeat is to itself mirrored along, mirrored across and turned half round; 1 is wholly."""
    return (
        alike.mirror - alike.mirror_worst,
        alike.across - alike.across_worst,
        alike.turned - alike.turned_worst,
    )


def _symmetries(evidence: Evidence, edges: str) -> tuple[bool, str | None, bool]:
    alike = evidence.alike
    if alike is None:
        return False, ("other" if edges == "double scallop" else None), False
    mirror, across, turn = (like > ALIKE for like in alikeness(alike))
    away = min(alike.across_shift, 1 - alike.across_shift)
    kind = "other"
    if across and away < 0.08:
        kind = "mirror"
    elif across and away > 0.42:
        kind = "half step"
    second = kind if edges == "double scallop" else None
    if edges == "single scallop":
        return mirror, None, False
    return mirror, second, bool(turn or (mirror and kind != "other"))
