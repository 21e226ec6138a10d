"""The guide's pages of cutting plans: every cloth with its pieces laid out, on lace between its own scallops."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from galloon.cutting import shop_text
from galloon.design import Finish
from galloon.drawing import Fill, Paper, Path, Pen, RecordingCanvas, TextStyle, text_width
from galloon.materials import Cloth
from galloon.sheets.guide_flow import SMALL, Block, figure, heading, paragraph, subheading, text_width_of
from galloon.sheets.guide_matter import CutPiece, CutPlan, GuideMatter
from galloon.sheets.guide_words import say
from galloon.sheets.lace_picture import Lie, lay_picture
from galloon.sheets.plan_labels import Label, number_label, place_label
from galloon.sheets.plan_marks import (
    COVER,
    GROUND,
    ON_LACE,
    SHOWN,
    Ring,
    arrow,
    copy_words,
    double_arrow,
    draw_ring,
    edges_of,
    repeat_on,
    used_width,
)

#: The largest scale a plan is drawn at.
_CLOSEST: Final = 0.32
#: The smallest letters on a piece (mm); where they do not fit, a figure stands for its name.
_LEAST: Final = 2.8
_SELVEDGE: Final = Pen("selvedge", 0.35)
_BREAK: Final = Pen("break", 0.35, dash=(1.0, 2.0))
_FOLD: Final = Pen("fold", 0.5, dash=(5.0, 1.5, 1.0, 1.5))
_CUT: Final = Pen("cut", 0.3)
_PIECE: Final = Fill((232, 232, 232))
#: So many samples of a picture each way are one in a plan this small.
_LESS: Final = 2


def cutting(matter: GuideMatter, paper: Paper) -> Iterator[Block]:
    """A drawing of every cloth with its pieces laid out."""
    width = text_width_of(paper)
    yield heading(say("cutting"), width, breaks=True)
    if not matter.plans:
        yield paragraph(say("cutting.none"), width)
    for cloth, plan in matter.plans.items():
        yield from _plan(matter, cloth, plan, width)
    for finish in matter.trims:
        yield from _trim(matter, finish, width)


def _trim(matter: GuideMatter, finish: Finish, width: float) -> Iterator[Block]:
    """What is cut from a lace that is laid on edges; it has no pattern piece."""
    trim = finish.trim
    for row in matter.elastics:
        if trim is not None and row.kind == finish.name:
            sizes = {"length": matter.length(row.cut_length), "width": matter.length(trim.width)}
            yield subheading(say("cutting.trim", lace=trim.name, count=row.count, edge=row.edge, **sizes), width)
            key = "cutting.slit.words" if finish.slit_from else "cutting.trim.words"
            yield paragraph(say(key, galloon=finish.slit_from, **sizes), width, size=SMALL)


def _plan(matter: GuideMatter, cloth: str, plan: CutPlan, width: float) -> Iterator[Block]:
    key = "cutting.folded" if plan.folded else "cutting.cloth"
    title = say(key, cloth=cloth, length=matter.length(plan.length), width=matter.length(plan.width))
    yield subheading(title, width)
    bench = _Bench(plan, width)

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        _draw_plan(matter, canvas, cloth, bench, corner=(left, top - bench.tall))

    yield figure(bench.tall, draw, keep=True)
    if bench.key:
        yield replace(paragraph(" · ".join(bench.key), width, size=SMALL), keep=True)
    bound = say("cutting.bound", bound=matter.length(plan.lower_bound))
    rest = say("cutting.rest") if bench.cut_off else ""
    words = " ".join(
        filter(None, (*_buy(matter, cloth), say("cutting.share", use=f"{plan.use:.0%}"), bound, plan.says, rest))
    )
    yield paragraph(words, width, size=SMALL)


def _buy(matter: GuideMatter, cloth: str) -> Iterator[str]:
    for row in matter.shopping:
        if row.cloth == cloth and row.buy > 0.0:
            yield say("cutting.buy", length=shop_text(row.buy, matter.unit))


class _Bench:
    """A plan drawn as it lies on the table: turned so its longer way runs across the page, empty width left out."""

    def __init__(self, plan: CutPlan, room: float) -> None:
        self.plan = plan
        self.wide = used_width(plan)
        self.cut_off = self.wide < plan.width
        self.turned = self.wide > 1.25 * plan.length
        long, high = (self.wide, plan.length) if self.turned else (plan.length, self.wide)
        self.scale = min((room - 8.0) / long, 105.0 / high, _CLOSEST)
        self.size = (long * self.scale, high * self.scale)
        self.tall = self.size[1] + 13.0
        self.key: list[str] = []
        self.labels = [self._label(placed) for placed in plan.placed]

    def _label(self, placed: CutPiece) -> Label:
        """A piece's name inside it, or where it is too narrow for that a figure explained below the drawing."""
        words = copy_words(placed)
        ring = [self.at(x, y, (0.0, 0.0)) for x, y in placed.outline]
        found = place_label(words, ring, (_LEAST, SMALL))
        if found is not None:
            return found
        self.key.append(say("cutting.key", number=len(self.key) + 1, piece=words))
        return number_label(len(self.key), ring, _LEAST)

    def at(self, x: float, y: float, corner: tuple[float, float]) -> tuple[float, float]:
        """Where a point of the cloth lies on paper; a turn, never a mirror."""
        across, up = (y, self.plan.length - x) if self.turned else (x, y)
        return corner[0] + across * self.scale, corner[1] + 11.0 + up * self.scale


def _draw_plan(
    matter: GuideMatter, canvas: RecordingCanvas, cloth: str, bench: _Bench, *, corner: tuple[float, float]
) -> None:
    plan = bench.plan
    canvas.layer("drawing")
    edges = edges_of(matter.garment.design.cloths[cloth], plan)
    pictured = _draw_lace(canvas, matter.garment.design.cloths[cloth], bench, edges, corner)
    _draw_cloth(canvas, bench, edges, corner)
    for placed in plan.placed:
        ring = [bench.at(x, y, corner) for x, y in placed.outline]
        path = draw_ring(ring)
        canvas.layer("pieces")
        canvas.fill((path,), ON_LACE if pictured else _PIECE)
        canvas.stroke(path, _CUT)
    for words in bench.labels:
        words.draw(canvas, corner)
    if plan.folded:
        canvas.layer("fold")
        fold = Path.line(bench.at(0.0, 0.0, corner), bench.at(plan.length, 0.0, corner))
        for pen in (COVER, _FOLD):
            canvas.stroke(fold, pen)
    _plan_arrows(canvas, matter.garment.design.cloths[cloth], bench, corner)


def _draw_lace(
    canvas: RecordingCanvas, cloth: Cloth, bench: _Bench, edges: tuple[Ring, Ring], corner: tuple[float, float]
) -> bool:
    """Her own lace between its edges, faint; whether there is a picture of it."""
    if cloth.picture is None or bench.plan.folded:
        return False
    far = [(0.0, bench.wide), (bench.plan.length, bench.wide)] if bench.cut_off else edges[1]
    ring = Path.polyline([bench.at(x, y, corner) for x, y in [*edges[0], *far[::-1]]], closed=True)
    lie = repeat_on(cloth, bench.plan)
    spots = (lie.corner, lie.corner + lie.length, lie.corner + lie.width)
    at, along, across = (complex(*bench.at(spot.real, spot.imag, corner)) for spot in spots)
    return lay_picture(
        canvas, cloth, Lie(at, along - at, across - at), (ring,), ground=GROUND, strength=SHOWN, less=_LESS
    )  # fmt: skip


def _draw_cloth(canvas: RecordingCanvas, bench: _Bench, edges: tuple[Ring, Ring], corner: tuple[float, float]) -> None:
    """The cloth's edges and cut ends; on folded cloth the fold, and where width is left out a broken end."""
    lower, upper = edges
    far = [(0.0, bench.wide), (bench.plan.length, bench.wide)]
    if bench.cut_off:
        canvas.stroke(Path.line(*(bench.at(x, y, corner) for x, y in far)), _BREAK)
        upper = far
    ends = [[lower[0], upper[0]], [lower[-1], upper[-1]]]
    lines = [*ends] if bench.plan.folded else [lower, *ends]
    for line in [*lines, *([] if bench.cut_off else [upper])]:
        canvas.stroke(Path.polyline([bench.at(x, y, corner) for x, y in line]), _SELVEDGE)


def _plan_arrows(canvas: RecordingCanvas, cloth: Cloth, bench: _Bench, corner: tuple[float, float]) -> None:
    """Below the drawing: which way the cloth's length runs, and which way it stretches most."""
    left, level = corner[0], corner[1] + 3.6
    lengthwise = 1j if bench.turned else 1.0 + 0j
    arrows = [(say("cutting.along"), lengthwise)]
    if not cloth.rigid:
        arrows.append((say("cutting.most"), lengthwise if cloth.stretches_most == "length" else lengthwise * 1j))
    for words, way in arrows:
        reach = 3.6 if abs(way.imag) > 0.5 else 8.0
        double_arrow(canvas, complex(left + reach, level), way * reach)
        left += 2.0 * reach + 2.5
        canvas.layer("letters")
        canvas.text(words, (left, level - 1.2), style=TextStyle(SMALL))
        left += text_width(words, SMALL) + 9.0
    if cloth.motif_up:
        canvas.text(say("cutting.up"), (left, level - 1.2), style=TextStyle(SMALL))
        start = complex(left + text_width(say("cutting.up"), SMALL) + 4.0, level - 3.6)
        arrow(canvas, start, start + (7.2j if not bench.turned else 7.2))
        left = start.real + 12.0
    if bench.plan.folded:
        canvas.stroke(Path.line((left, level), (left + 14.0, level)), _FOLD)
        canvas.text(say("cutting.fold"), (left + 16.5, level - 1.2), style=TextStyle(SMALL))
