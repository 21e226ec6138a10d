"""The guide's pages on cloth: what to buy, how to prepare it, the pieces, and the cutting plans."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator

from galloon.drawing import Fill, Paper, Path, Pen, RecordingCanvas, TextStyle, shorten, text_width
from galloon.materials import Cloth, Kind
from galloon.pieces import Piece
from galloon.sewing import ElasticRow, notions
from galloon.sheets.guide_flow import (
    SMALL,
    Block,
    Column,
    beside,
    bullet,
    figure,
    heading,
    lines_block,
    paragraph,
    stack,
    subheading,
    table,
    text_width_of,
)
from galloon.sheets.guide_matter import CutPiece, CutPlan, GuideMatter
from galloon.sheets.guide_words import say
from galloon.sheets.words import cut_words, edge_words

_THUMB: float = 52.0
#: The largest scale a plan is drawn at.
_CLOSEST: float = 0.32
_ARROW: Pen = Pen("stretch", 0.5)
_SELVEDGE: Pen = Pen("selvedge", 0.35)
_BREAK: Pen = Pen("break", 0.35, dash=(1.0, 2.0))
_CUT: Pen = Pen("cut", 0.3)
_PIECE: Fill = Fill((232, 232, 232))


def buying(matter: GuideMatter, paper: Paper) -> Iterator[Block]:
    """What to buy, elastics with their marks, notions."""
    width = text_width_of(paper)
    yield heading(say("buy"), width, breaks=True)
    heads = ("cloth", "need", "have", "buy", "cost")
    columns = [Column(say(f"buy.{head}"), 2.2 if head == "cloth" else 1.0, head != "cloth") for head in heads]
    rows = [
        (
            row.cloth,
            matter.length(row.need),
            matter.length(row.on_hand) if row.on_hand else "–",
            matter.length(row.buy) if row.buy > 0.0 else "–",
            f"{row.cost:.2f}" if row.cost else "–",
        )
        for row in matter.shopping
    ]
    yield from table(columns, rows, width)
    yield paragraph(say("buy.note"), width, size=SMALL)
    if matter.elastics:
        yield from _elastics(matter, width)
    yield subheading(say("notions"), width)
    yield from (bullet(words, width) for words in notions(matter.garment))


def _elastics(matter: GuideMatter, width: float) -> Iterator[Block]:
    yield subheading(say("elastic"), width)
    heads = {"edge": 1.6, "kind": 2.0, "count": 0.6, "length": 1.0, "finished": 1.2}
    columns = [Column(say(f"elastic.{head}"), share, share <= 1.2) for head, share in heads.items()]
    rows = [
        (row.edge, row.kind, f"{row.count} ×", matter.length(row.cut_length), matter.length(row.edge_length))
        for row in matter.elastics
    ]
    yield from table(columns, rows, width)
    for row in matter.elastics:
        yield _marks(matter, row, width)
    yield paragraph(say("marks.note"), width, size=SMALL)


def _marks(matter: GuideMatter, row: ElasticRow, width: float) -> Block:
    """One elastic's pins, whole on one page."""
    columns = (
        Column(say("marks.at"), 2.0),
        Column(say("marks.elastic"), 1.0, True),
        Column(say("marks.edge"), 1.0, True),
    )
    rows = [(mark.at, matter.length(mark.along_elastic), matter.length(mark.along_edge)) for mark in row.marks]
    ends = say("elastic.ends.ring" if row.closed else "elastic.ends.flat", ends=matter.small(row.ends))
    note = f"{ends} {row.says}".strip()
    return stack(
        [
            paragraph(say("marks", kind=row.kind, edge=row.edge), width, bold=True),
            paragraph(note, width, size=SMALL, space=0.5),
            *table(columns, rows, width * 0.8, size=SMALL),
        ],
        space=4.0,
    )


def preparing(matter: GuideMatter, paper: Paper) -> Iterator[Block]:
    """Washing, resting, measuring again."""
    width = text_width_of(paper)
    yield heading(say("prepare"), width)
    used = dict.fromkeys(piece.part.cloth for piece in matter.garment.pieces)
    cloths = [matter.garment.design.cloths[name] for name in used]
    for cloth in cloths:
        yield bullet(_wash(cloth), width)
    for cloth in cloths:
        if cloth.kind is Kind.LACE:
            yield bullet(_relax(matter, cloth), width)
    yield from (bullet(say(f"prepare.{key}"), width) for key in ("again", "right", "print"))


def _wash(cloth: Cloth) -> str:
    shrink = [
        f"{value * 100:g} % {way}"
        for value, way in ((cloth.shrink_length, "in length"), (cloth.shrink_width, "in width"))
        if value
    ]
    if not shrink:
        return say("prepare.wash.plain", cloth=cloth.name)
    return say("prepare.wash", cloth=cloth.name, shrink=" and ".join(shrink))


def _relax(matter: GuideMatter, cloth: Cloth) -> str:
    width = matter.length(cloth.width)
    first = cloth.lace.first if cloth.lace is not None else None
    if first is None:
        return say("prepare.relax.plain", cloth=cloth.name, width=width)
    return say("prepare.relax", cloth=cloth.name, width=width, pitch=matter.length(first.pitch))


def pieces(matter: GuideMatter, paper: Paper) -> Iterator[Block]:
    """Every piece with its drawing, the way it stretches, and how it is cut."""
    width = text_width_of(paper)
    yield heading(say("pieces"), width, breaks=True)
    yield paragraph(say("pieces.note"), width, size=SMALL)
    for piece in matter.garment.pieces:
        yield _piece(matter, piece, width)


def _piece(matter: GuideMatter, piece: Piece, width: float) -> Block:
    tall = matter.map.height([piece.name], _THUMB, 50.0)

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        box = (left, top - tall, left + _THUMB, top)
        _, scale = matter.map.draw(canvas, box, [piece.name])
        middle = complex((box[0] + box[2]) / 2.0, (box[1] + box[3]) / 2.0)
        reach = max(5.0, 0.22 * scale * float(piece.stitch.real.max() - piece.stitch.real.min()))
        across = cmath.rect(1.0, math.radians(piece.part.greatest_stretch))
        _double_arrow(canvas, middle + (0.3 * reach if piece.part.mirrored else 0.0), across * reach)

    room = width - _THUMB - 7.0
    lines: list[Block] = [lines_block([piece.name], 5.2, bold=True)]
    lines.append(paragraph(say("piece.cloth", cloth=piece.part.cloth, cut=cut_words(piece)), room, space=0.5))
    lines += [paragraph(words, room, size=SMALL, space=0.6) for words in _piece_notes(matter, piece)]
    return beside(figure(tall, draw), stack(lines), _THUMB + 7.0, space=6.0)


def _piece_notes(matter: GuideMatter, piece: Piece) -> Iterator[str]:
    design = matter.garment.design
    cloth = design.cloths[piece.part.cloth]
    if piece.strip is not None and piece.strip.scallops is not None:
        yield say("piece.scallop")
    if piece.part.mirrored:
        copies = [copy for plan in matter.plans.values() for copy in plan.placed if copy.piece == piece.name]
        yield say("piece.pair.other" if any(copy.other_side for copy in copies) else "piece.pair")
    if cloth.kind is Kind.LACE and not cloth.reversible:
        yield say("piece.right")
    if cloth.motif_up:
        yield say("piece.up")
    if cloth.nap:
        yield say("piece.nap")
    edges = [edge_words(design, piece, edge) for edge in piece.edges if edge.finish != "fold"]
    yield " · ".join(words[0].replace(" · ", ", ") for words in edges)


def _double_arrow(canvas: RecordingCanvas, middle: complex, reach: complex) -> None:
    _arrow(canvas, middle, middle + reach)
    _arrow(canvas, middle, middle - reach)


def _arrow(canvas: RecordingCanvas, start: complex, tip: complex) -> None:
    canvas.layer("arrows")
    canvas.stroke(_segment(start, tip), _ARROW)
    back = (tip - start) / abs(tip - start) * 2.2
    for turn in (0.45, -0.45):
        canvas.stroke(_segment(tip, tip - back * cmath.exp(1j * turn)), _ARROW)


def _segment(start: complex, end: complex) -> Path:
    return Path.line((start.real, start.imag), (end.real, end.imag))


def cutting(matter: GuideMatter, paper: Paper) -> Iterator[Block]:
    """A drawing of every cloth with its pieces laid out."""
    width = text_width_of(paper)
    yield heading(say("cutting"), width, breaks=True)
    if not matter.plans:
        yield paragraph(say("cutting.none"), width)
    for cloth, plan in matter.plans.items():
        yield from _plan(matter, cloth, plan, width)


def _plan(matter: GuideMatter, cloth: str, plan: CutPlan, width: float) -> Iterator[Block]:
    key = "cutting.folded" if plan.folded else "cutting.cloth"
    title = say(key, cloth=cloth, length=matter.length(plan.length), width=matter.length(plan.width))
    yield subheading(title, width)
    bench = _Bench(plan, width)

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        _draw_plan(matter, canvas, cloth, bench, corner=(left, top - bench.tall))

    yield figure(bench.tall, draw, keep=True)
    proof = "" if plan.proven else say("cutting.bound", bound=matter.length(plan.lower_bound))
    words = " ".join(filter(None, (say("cutting.share", use=f"{plan.use:.0%}"), proof, plan.says)))
    yield paragraph(words, width, size=SMALL)


class _Bench:
    """A plan drawn as it lies on the table: turned so its longer way runs across the page, empty width left out."""

    def __init__(self, plan: CutPlan, room: float) -> None:
        self.plan = plan
        far = max((y for placed in plan.placed for _, y in placed.outline), default=plan.width)
        self.wide = plan.width if far > 0.7 * plan.width else far + 0.04 * plan.width
        self.cut_off = self.wide < plan.width
        self.turned = self.wide > 1.25 * plan.length
        long, high = (self.wide, plan.length) if self.turned else (plan.length, self.wide)
        self.scale = min((room - 8.0) / long, 105.0 / high, _CLOSEST)
        self.size = (long * self.scale, high * self.scale)
        self.tall = self.size[1] + 13.0

    def at(self, x: float, y: float, corner: tuple[float, float]) -> tuple[float, float]:
        """Where a point of the cloth lies on paper; a turn, never a mirror."""
        across, up = (y, self.plan.length - x) if self.turned else (x, y)
        return corner[0] + across * self.scale, corner[1] + 11.0 + up * self.scale


def _draw_plan(
    matter: GuideMatter, canvas: RecordingCanvas, cloth: str, bench: _Bench, *, corner: tuple[float, float]
) -> None:
    plan = bench.plan
    canvas.layer("drawing")
    ends = [(0.0, bench.wide), (0.0, 0.0), (plan.length, 0.0), (plan.length, bench.wide)]
    path = Path.polyline([bench.at(x, y, corner) for x, y in ends], closed=not bench.cut_off)
    canvas.stroke(path, _SELVEDGE)
    if bench.cut_off:
        canvas.stroke(Path.line(bench.at(*ends[0], corner), bench.at(*ends[-1], corner)), _BREAK)
    for placed in plan.placed:
        ring = [bench.at(x, y, corner) for x, y in placed.outline]
        path = Path.polyline(ring, closed=True)
        canvas.layer("pieces")
        canvas.fill((path,), _PIECE)
        canvas.stroke(path, _CUT)
        _plan_label(canvas, placed, ring)
    _plan_arrows(canvas, matter.garment.design.cloths[cloth], bench, corner)


def _plan_arrows(canvas: RecordingCanvas, cloth: Cloth, bench: _Bench, corner: tuple[float, float]) -> None:
    """Below the drawing: which way the cloth's length runs, and which way it stretches most."""
    left, level = corner[0], corner[1] + 3.6
    lengthwise = 1j if bench.turned else 1.0 + 0j
    most = lengthwise if cloth.stretches_most == "length" else lengthwise * 1j
    for words, way in ((say("cutting.along"), lengthwise), (say("cutting.most"), most)):
        reach = 3.6 if abs(way.imag) > 0.5 else 8.0
        _double_arrow(canvas, complex(left + reach, level), way * reach)
        left += 2.0 * reach + 2.5
        canvas.layer("letters")
        canvas.text(words, (left, level - 1.2), style=TextStyle(SMALL))
        left += text_width(words, SMALL) + 9.0
    if cloth.motif_up:
        canvas.text(say("cutting.up"), (left, level - 1.2), style=TextStyle(SMALL))
        start = complex(left + text_width(say("cutting.up"), SMALL) + 4.0, level - 3.6)
        _arrow(canvas, start, start + (7.2j if not bench.turned else 7.2))
        left = start.real + 12.0
    if bench.cut_off:
        canvas.text(say("cutting.rest"), (left, level - 1.2), style=TextStyle(SMALL))


def _plan_label(canvas: RecordingCanvas, placed: CutPiece, ring: list[tuple[float, float]]) -> None:
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    words = f"{placed.piece} {placed.copy}"
    if placed.flipped or placed.other_side:
        words += f", {say('cutting.other' if placed.other_side else 'cutting.flipped')}"
    upright = max(ys) - min(ys) > 1.4 * (max(xs) - min(xs))
    room = (max(ys) - min(ys) if upright else max(xs) - min(xs)) - 2.0
    size = max(2.0, min(SMALL, SMALL * room / max(text_width(words, SMALL), 0.1)))
    canvas.layer("letters")
    at = (sum(xs) / len(xs) + (0.35 * size if upright else 0.0), sum(ys) / len(ys) - (0.0 if upright else 0.35 * size))
    style = TextStyle(size, anchor="middle")
    canvas.text(shorten(words, size, max(room, 4.0)), at, style=style, angle=90.0 if upright else 0.0)
