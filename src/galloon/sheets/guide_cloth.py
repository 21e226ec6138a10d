"""The guide's pages on cloth: what to buy, how to prepare it, the pieces, and the cutting plans."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterator

import shapely

from galloon import defaults
from galloon.cutting import shop_text
from galloon.drawing import Paper, RecordingCanvas, TextStyle
from galloon.geometry import coordinates
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
from galloon.sheets.guide_matter import GuideMatter
from galloon.sheets.guide_words import say
from galloon.sheets.plan_marks import arrow, double_arrow
from galloon.sheets.words import cut_words, edge_words

_THUMB: float = 52.0


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
            shop_text(row.buy, matter.unit) if row.buy > 0.0 else "–",
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
    yield subheading(say("elastic.lace" if matter.trims else "elastic"), width)
    heads = {"edge": 1.6, "kind": 2.0, "count": 0.6, "length": 1.0, "finished": 1.2}
    columns = [Column(say(f"elastic.{head}"), share, share <= 1.2) for head, share in heads.items()]
    rows = [
        (row.edge, matter.kind(row), f"{row.count} ×", matter.length(row.cut_length), matter.length(row.edge_length))
        for row in matter.elastics
    ]
    yield from table(columns, rows, width)
    for row in matter.elastics:
        if row.marks:
            yield _marks(matter, row, width)
    if (side := matter.garment.design.open_side) is not None:
        end = matter.small(float(defaults.STRAP_END))
        yield paragraph(say("elastic.straps", kind=side.elastic.name, end=end), width, size=SMALL)
    yield paragraph(say("marks.note"), width, size=SMALL)


def _marks(matter: GuideMatter, row: ElasticRow, width: float) -> Block:
    """One elastic's pins, whole on one page."""
    columns = (
        Column(say("marks.at"), 2.0),
        Column(say("marks.elastic"), 1.0, True),
        Column(say("marks.edge"), 1.0, True),
    )
    rows = [(mark.at, matter.length(mark.along_elastic), matter.length(mark.along_edge)) for mark in row.marks]
    flat = "elastic.ends.flat" if row.ends > 0.0 else "elastic.ends.none"
    ends = say("elastic.ends.ring" if row.closed else flat, ends=matter.small(row.ends))
    note = f"{ends} {row.says}".strip()
    return stack(
        [
            paragraph(say("marks", kind=matter.kind(row), edge=row.edge), width, bold=True),
            paragraph(note, width, size=SMALL, space=0.5),
            *table(columns, rows, width * 0.8, size=SMALL),
        ],
        space=4.0,
    )


def preparing(matter: GuideMatter, paper: Paper) -> Iterator[Block]:
    """Washing, resting, measuring again."""
    width = text_width_of(paper)
    yield heading(say("prepare"), width)
    for cloth in matter.cloths:
        yield bullet(_wash(cloth), width)
    for cloth in matter.cloths:
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
        place, scale = matter.map.draw(canvas, box, [piece.name])
        middle = complex(*place.apply(*_middle(matter, piece)))
        reach = max(5.0, 0.2 * scale * float(piece.stitch.real.max() - piece.stitch.real.min()))
        most = cmath.rect(1.0, math.radians(piece.part.greatest_stretch))
        cloth = matter.garment.design.cloths[piece.part.cloth]
        length = most if cloth.stretches_most == "length" else most * 1j
        double_arrow(canvas, middle, (length if cloth.rigid else most) * reach)
        if cloth.motif_up:
            _draw_up(canvas, middle, length)

    room = width - _THUMB - 7.0
    lines: list[Block] = [lines_block([piece.name], 5.2, bold=True)]
    lines.append(paragraph(say("piece.cloth", cloth=piece.part.cloth, cut=cut_words(piece)), room, space=0.5))
    lines += [paragraph(words, room, size=SMALL, space=0.6) for words in _piece_notes(matter, piece)]
    return beside(figure(tall, draw), stack(lines), _THUMB + 7.0, space=6.0)


def _middle(matter: GuideMatter, piece: Piece) -> tuple[float, float]:
    """A point well inside the piece's right half, or the middle of one cut on the fold, as the map draws it."""
    half = shapely.make_valid(shapely.polygons(coordinates(matter.map.copies([piece.name])[0].ring)))
    inside = shapely.centroid(half)
    if not shapely.contains(half, inside):
        inside = shapely.point_on_surface(half)
    x, y = float(shapely.get_x(inside)), float(shapely.get_y(inside))
    return (0.0 if piece.part.fold is not None else x), y


def _draw_up(canvas: RecordingCanvas, middle: complex, length: complex) -> None:
    """A single arrow that says which way the motif stands, square to the cloth's ``length``."""
    up = length * 1j if (length * 1j).imag > 0.0 else length * -1j
    start = middle + up * 1.5
    arrow(canvas, start, start + up * 6.0)
    canvas.layer("letters")
    tip = start + up * 8.0
    canvas.text(say("piece.up.arrow"), (tip.real, tip.imag), style=TextStyle(2.8, anchor="middle"))


def _piece_notes(matter: GuideMatter, piece: Piece) -> Iterator[str]:
    design = matter.garment.design
    cloth = design.cloths[piece.part.cloth]
    if cloth.rigid:
        yield say("piece.rigid")
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
