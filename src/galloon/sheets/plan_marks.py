"""What every drawing of a cutting plan needs: a cloth's own edges with their scallops, and the words on a piece."""

from __future__ import annotations

import cmath
from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from galloon.drawing import Fill, Path, Pen, RecordingCanvas
from galloon.materials import Cloth, Scallops, SecondEdge
from galloon.pieces import repeat_start
from galloon.sheets.guide_matter import CutPiece, CutPlan
from galloon.sheets.guide_words import say
from galloon.sheets.lace_picture import Lie, spans
from galloon.sheets.plan_labels import number_label, place_label

Ring = list[tuple[float, float]]
#: What a plan's lace lies on where its picture is drawn, how strongly thread shows on it, and a piece cut from it.
GROUND: Final = (250, 240, 243)
SHOWN: Final = 0.55
ON_LACE: Final = Fill((255, 255, 255), 0.45)
#: Takes away what lies under a fold line: the fold edge of a piece is not cut.
COVER: Final = Pen("cover", 1.0, (255, 255, 255))
_ARROW: Final = Pen("stretch", 0.5)
#: Points drawn to a scallop.
_PER_SCALLOP: Final = 24


def edges_of(cloth: Cloth, plan: CutPlan) -> tuple[Ring, Ring]:
    """The lower and the upper edge of the length taken (mm on the cloth), from x = 0 on; on lace with its scallops.

    Scallops are drawn as the pattern draws them: |cos| from valley to peak, peaks where the motif's phase is 0.
    """
    lace = cloth.lace
    lower = upper = None
    shift = 0.0
    if lace is not None and not plan.folded:
        lower, upper = lace.first, lace.second
        shift = (lace.motif or 0.0) / 2.0 if lace.second_edge is SecondEdge.HALF_STEP else 0.0
    start = plan.start or 0.0
    return (
        _edge(plan.length, lower, cloth, start, (0.0, 1.0)),
        _edge(plan.length, upper, cloth, start - shift, (plan.width, -1.0)),
    )


def _edge(length: float, scallops: Scallops | None, cloth: Cloth, start: float, peaks: tuple[float, float]) -> Ring:
    level, inwards = peaks
    if scallops is None:
        return [(0.0, level), (length, level)]
    motif = (cloth.lace.motif if cloth.lace else None) or scallops.pitch
    pitch = motif / max(1, round(motif / scallops.pitch))
    step = pitch / _PER_SCALLOP
    first, last = np.ceil((start + 1e-6) / step), np.floor((start + length - 1e-6) / step)
    x = np.concatenate([[0.0], np.arange(first, last + 1) * step - start, [length]])
    y = level + inwards * scallops.depth * (1.0 - np.abs(np.cos(np.pi * (x + start) / pitch)))
    return list(zip(x.tolist(), y.tolist(), strict=True))


def repeat_on(cloth: Cloth, plan: CutPlan) -> Lie:
    """How one repeat of a lace lies on the length taken (mm on the cloth)."""
    length, width = spans(cloth)
    start = repeat_start(cloth.lace) if cloth.lace is not None else 0.0
    return Lie(complex(start - (plan.start or 0.0), 0.0), complex(length, 0.0), complex(0.0, width))


def used_width(plan: CutPlan) -> float:
    """How much of the width to draw (mm): all of it, or where much stays free only what the pieces reach."""
    far = max((y for placed in plan.placed for _, y in placed.outline), default=plan.width)
    return plan.width if far > 0.7 * plan.width else far + 0.04 * plan.width


def repeats_of(cloth: Cloth, plan: CutPlan) -> Iterator[float]:
    """Where along the length taken (mm) each repeat of the motif begins; none where no motif binds the pieces."""
    motif = cloth.lace.motif if cloth.lace is not None else None
    if motif is None or plan.start is None:
        return
    at = -plan.start % motif
    while at <= plan.length:
        yield at
        at += motif


def copy_words(placed: CutPiece) -> str:
    """``"back 2, mirrored"``: what the paper piece must do before it is cut round."""
    told = ((placed.flipped, "cutting.flipped"), (placed.other_side, "cutting.other"))
    return ", ".join([f"{placed.piece} {placed.copy}", *(say(key) for holds, key in told if holds)])


def label(canvas: RecordingCanvas, words: str, ring: Sequence[tuple[float, float]], sizes: tuple[float, float]) -> None:
    """The words inside a piece between the two ``sizes`` of letters (mm); at the least size where none fits."""
    found = place_label(words, ring, sizes) or replace(number_label(0, ring, sizes[0]), lines=(words,))
    found.draw(canvas)


def draw_ring(ring: Sequence[tuple[float, float]]) -> Path:
    """A closed outline."""
    return Path.polyline(list(ring), closed=True)


def double_arrow(canvas: RecordingCanvas, middle: complex, reach: complex) -> None:
    """An arrow both ways from ``middle``."""
    arrow(canvas, middle, middle + reach)
    arrow(canvas, middle, middle - reach)


def arrow(canvas: RecordingCanvas, start: complex, tip: complex) -> None:
    """An arrow to ``tip``."""
    canvas.layer("arrows")
    canvas.stroke(_segment(start, tip), _ARROW)
    back = (tip - start) / abs(tip - start) * 2.2
    for turn in (0.45, -0.45):
        canvas.stroke(_segment(tip, tip - back * cmath.exp(1j * turn)), _ARROW)


def _segment(start: complex, end: complex) -> Path:
    return Path.line((start.real, start.imag), (end.real, end.imag))
