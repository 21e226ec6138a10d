"""The guide's cover: the garment from front and back, the verdict, the measurements, a label for the envelope."""

from __future__ import annotations

from collections.abc import Iterator

from galloon.drawing import Matrix, Paper, Path, Pen, RecordingCanvas, TextStyle, moved, text_width, wrap
from galloon.sheets.guide_flow import (
    SMALL,
    Block,
    Column,
    beside,
    figure,
    lines_block,
    paragraph,
    stack,
    subheading,
    table,
    text_width_of,
    write,
)
from galloon.sheets.guide_matter import GuideMatter
from galloon.sheets.guide_words import say
from galloon.sheets.views import garment_views, swatches
from galloon.sheets.words import cut_words

#: The tallest the two views may be, mm.
_VIEWS: float = 96.0
#: Side of a square of cloth beside its name, mm.
_SWATCH: float = 5.0
_LABEL: Pen = Pen("label", 0.3, dash=(3.0, 2.0))


def cover(matter: GuideMatter, paper: Paper) -> Iterator[Block]:
    """The blocks of the first page."""
    width = text_width_of(paper)
    design = matter.garment.design
    yield lines_block(wrap(design.title, 11.0, width), 11.0, bold=True)
    if design.wearer.name:
        yield lines_block(wrap(say("for", name=design.wearer.name), 6.0, width), 6.0)
    yield _views(matter, width)
    yield _legend(matter, width)
    yield paragraph(matter.verdict(), width, size=5.4, bold=True, space=4.0)
    yield subheading(say("cover.measured"), width)
    yield _measures(matter, width)
    yield paragraph(say("cover.private"), width, size=SMALL)
    for name, estimate in design.wearer.estimated.items():
        words = say(
            "estimate",
            what=say(f"measure.{name}"),
            how=estimate.how,
            value=matter.length(estimate.value),
            spread=matter.length(estimate.spread),
        )
        yield paragraph(words, width, size=SMALL)
    yield _label(matter, width)


def _views(matter: GuideMatter, width: float) -> Block:
    """Front and back of this very garment, as tall as there is room."""
    page = garment_views(matter.garment, width=width).pages[0]
    scale = min(1.0, _VIEWS / page.height)

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        aside = (width - page.width * scale) / 2.0
        place = Matrix.scale(scale).then(Matrix.move(left + aside, top - page.height * scale))
        canvas.add(*(moved(mark, place) for mark in page.marks))

    return Block(page.height * scale, draw, space=3.0)


def _legend(matter: GuideMatter, width: float) -> Block:
    """A square of every cloth that shows, as the views draw it, with its name; as many rows as it takes."""
    shown = {piece.part.cloth for piece in matter.garment.outer} | {one.trim.name for one in matter.trims if one.trim}
    shown |= {finish.slit_from for finish in matter.trims}
    cloths = [cloth for cloth in matter.cloths if cloth.name in shown]
    squares = swatches(matter.garment, cloths, side=_SWATCH)
    places, x, y = [], 0.0, 0.0
    for cloth in cloths:
        words = say("legend.rigid", cloth=cloth.name) if cloth.rigid else cloth.name
        wide = _SWATCH + 2.0 + text_width(words, SMALL) + 6.0
        if x > 0.0 and x + wide > width:
            x, y = 0.0, y + _SWATCH + 2.0
        places.append((x, y, words))
        x += wide

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        for (x, y, words), marks in zip(places, squares, strict=True):
            corner = (left + x, top - y - _SWATCH)
            canvas.add(*(moved(mark, Matrix.move(*corner)) for mark in marks))
            canvas.layer("text")
            canvas.text(words, (corner[0] + _SWATCH + 2.0, corner[1] + 1.4), style=TextStyle(SMALL))

    return Block(y + _SWATCH, draw, space=2.0)


def _measures(matter: GuideMatter, width: float) -> Block:
    wearer = matter.garment.design.wearer
    rows = []
    for name, value in wearer.measurements().items():
        text = matter.length(value)
        if name in wearer.estimated:
            text = say("measure.estimated", value=text)
        rows.append((say(f"measure.{name}"), text))
    half = (len(rows) + 1) // 2
    columns = (Column("", 1.0), Column("", 1.0))
    tables = [
        stack(table(columns, part, width / 2.0 - 5.0)[1:]) if part else figure(0.0, lambda *_: None)
        for part in (rows[:half], rows[half:])
    ]
    return beside(tables[0], tables[1], width / 2.0 + 5.0, space=1.0)


def _label(matter: GuideMatter, width: float) -> Block:
    garment, wearer = matter.garment, matter.garment.design.wearer
    inner = width - 12.0
    whose = say("for", name=wearer.name) if wearer.name else ""
    pieces = ", ".join(f"{piece.name} ({cut_words(piece)})" for piece in garment.pieces)
    cloths = ", ".join(cloth.name for cloth in matter.cloths)
    count = sum(piece.part.quantity for piece in garment.pieces)
    texts = [
        whose,
        say("label.body", waist=matter.length(wearer.waist), hip=matter.length(wearer.hip)),
        say("label.cloths", cloths=cloths),
        say("label.pieces", count=count, pieces=pieces),
    ]
    lines = [line for text in texts if text for line in wrap(text, 4.0, inner)]
    title = wrap(garment.design.title, 6.0, inner)
    head = len(title) * 6.0 * 1.36
    height = head + len(lines) * 4.0 * 1.36 + 8.0

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        canvas.layer("drawing")
        canvas.stroke(Path.rectangle(left, top - height, width, height), _LABEL)
        write(canvas, title, (left + 6.0, top - 4.0), TextStyle(6.0, bold=True))
        write(canvas, lines, (left + 6.0, top - 4.0 - head), TextStyle(4.0))

    note = lines_block([say("label.cut")], 3.2)
    return stack([note, Block(height, draw, space=0.5)], space=7.0)
