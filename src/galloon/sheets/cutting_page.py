"""Every cutting plan on a page of its own, true to size: to lay the cloth on, for a wide printer or a projector."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from galloon.drawing import Drawing, Fill, Path, Pen, RecordingCanvas, TextStyle, shorten
from galloon.export import to_pdf
from galloon.materials import Cloth
from galloon.pieces import Garment
from galloon.sheets import inks
from galloon.sheets.guide_matter import CutPlan
from galloon.sheets.guide_words import say
from galloon.sheets.lace_picture import lay_picture
from galloon.sheets.plan_marks import (
    COVER,
    GROUND,
    ON_LACE,
    SHOWN,
    arrow,
    copy_words,
    double_arrow,
    draw_ring,
    edges_of,
    label,
    repeat_on,
    repeats_of,
    used_width,
)
from galloon.sheets.words import whose
from galloon.units import format_length

#: Blank border, and the strip of words and test squares under the cloth; mm.
_BORDER: Final = 15.0
_FOOT: Final = 70.0
#: Narrowest page, so that the words have room, mm.
_LEAST: Final = 420.0
_METRIC: Final = 50.0
_INCH: Final = 2.0 * 25.4
_EDGE: Final = Pen("cloth edge", 0.35)
_END: Final = Pen("cut end", 0.35, dash=(4.0, 2.0))
_FREE: Final = Pen("width left free", 0.35, dash=(1.0, 3.0))
_REPEAT: Final = Pen("repeat", 0.18, (150, 150, 150), (2.0, 3.0))
_PIECE: Final = Fill((238, 238, 238))


def cutting_page(garment: Garment, plans: Mapping[str, CutPlan]) -> Drawing:
    """One true-size page a cloth: its edges, every piece where it is cut, repeats of the motif, test squares."""
    canvas = RecordingCanvas(f"{garment.design.title}: {say('cutting')}")
    for name, plan in plans.items():
        canvas.begin_page(
            max(_LEAST, plan.length + 2.0 * _BORDER), used_width(plan) + 2.0 * _BORDER + _FOOT, name=f"cutting {name}"
        )
        _draw(canvas, garment, garment.design.cloths[name], plan)
        canvas.end_page()
    return canvas.drawing()


def cutting_pdf(garment: Garment, plans: Mapping[str, CutPlan]) -> bytes:
    """``cutting_page`` as a PDF."""
    return to_pdf(cutting_page(garment, plans))


def _draw(canvas: RecordingCanvas, garment: Garment, cloth: Cloth, plan: CutPlan) -> None:
    def at(point: tuple[float, float]) -> tuple[float, float]:
        return point[0] + _BORDER, point[1] + _BORDER + _FOOT

    lower, upper = edges_of(cloth, plan)
    wide = used_width(plan)
    if wide < plan.width:
        upper = [(0.0, wide), (plan.length, wide)]
    canvas.layer("cloth")
    whole = draw_ring([at(point) for point in [*lower, *upper[::-1]]])
    lie = repeat_on(cloth, plan)
    lie = lie._replace(corner=complex(*at((lie.corner.real, lie.corner.imag))))
    pictured = not plan.folded and lay_picture(canvas, cloth, lie, (whole,), ground=GROUND, strength=SHOWN)
    for x in repeats_of(cloth, plan):
        canvas.stroke(Path.line(at((x, 0.0)), at((x, wide))), _REPEAT)
    for edge, pen in ((lower, _EDGE), (upper, _EDGE if wide == plan.width else _FREE)):
        canvas.stroke(Path.polyline([at(point) for point in edge]), pen)
    for low, high in ((lower[0], upper[0]), (lower[-1], upper[-1])):
        canvas.stroke(Path.line(at(low), at(high)), _END)
    for placed in plan.placed:
        ring = [at(point) for point in placed.outline]
        canvas.layer("pieces")
        canvas.fill((draw_ring(ring),), ON_LACE if pictured else _PIECE)
        canvas.stroke(draw_ring(ring), inks.CUT_PEN)
        label(canvas, copy_words(placed), ring, (3.0, 7.0))
    if plan.folded:
        canvas.layer(inks.FOLD)
        for pen in (COVER, inks.FOLD_PEN):
            canvas.stroke(Path.line(at((0.0, 0.0)), at((plan.length, 0.0))), pen)
    _foot(canvas, garment, cloth, plan)


def _foot(canvas: RecordingCanvas, garment: Garment, cloth: Cloth, plan: CutPlan) -> None:
    unit = garment.design.units
    length, width = format_length(plan.length, unit), format_length(plan.width, unit)
    title = say("cutting.folded" if plan.folded else "cutting.cloth", cloth=cloth.name, length=length, width=width)
    lines = [
        f"{whose(garment)} · {say('page.scale')}",
        say("cutting.bound", bound=format_length(plan.lower_bound, unit)) + f" {plan.says}",
        *([say("cutting.rest")] if used_width(plan) < plan.width else []),
        say("page.lines.fold" if plan.folded else "page.lines.motif" if plan.start is not None else "page.lines"),
    ]
    left = _BORDER + _METRIC + _INCH + 14.0
    room = max(_LEAST, plan.length + 2.0 * _BORDER) - left - _BORDER
    canvas.layer("letters")
    canvas.text(shorten(title, 7.0, room), (left, _BORDER + 43.0), style=TextStyle(7.0, bold=True))
    for row, words in enumerate(lines):
        canvas.text(shorten(words, 3.6, room), (left, _BORDER + 34.0 - 6.0 * row), style=TextStyle(3.6))
    _arrows(canvas, cloth, left)
    canvas.layer(inks.SQUARE)
    for x, side, words in ((_BORDER, _METRIC, "50 mm"), (_BORDER + _METRIC + 6.0, _INCH, "2 in")):
        canvas.stroke(Path.rectangle(x, _BORDER, side, side), inks.SQUARE_PEN)
        middle = (x + side / 2.0, _BORDER + side / 2.0 - 2.0)
        canvas.text(words, middle, style=TextStyle(5.5, bold=True, anchor="middle"))


def _arrows(canvas: RecordingCanvas, cloth: Cloth, left: float) -> None:
    level = _BORDER + 7.0
    most = 1.0 + 0.0j if cloth.stretches_most == "length" else 1.0j
    for words, way in ((say("cutting.along"), 1.0 + 0.0j), (say("cutting.most"), most)):
        double_arrow(canvas, complex(left + 10.0, level), way * (6.0 if way.imag else 10.0))
        canvas.layer("letters")
        canvas.text(words, (left + 24.0, level - 1.3), style=TextStyle(3.6))
        left += 75.0
    if cloth.motif_up:
        arrow(canvas, complex(left + 4.0, level - 6.0), complex(left + 4.0, level + 6.0))
        canvas.layer("letters")
        canvas.text(say("cutting.up"), (left + 10.0, level - 1.3), style=TextStyle(3.6))
