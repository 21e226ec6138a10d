"""Many garments side by side on pages: front and back of each at one scale, its name and figures below."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Final

import shapely

from galloon.drawing import (
    Drawing,
    Fill,
    Matrix,
    Page,
    Paper,
    Path,
    Pen,
    RecordingCanvas,
    TextStyle,
    moved,
    wrap,
)
from galloon.pieces import Garment
from galloon.sheets.flat_lay import lay_flat
from galloon.sheets.guide_flow import (
    LEADING,
    Block,
    Column,
    beside,
    figure,
    heading,
    lines_block,
    paragraph,
    set_pages,
    stack,
    table,
    text_width_of,
)
from galloon.sheets.views import garment_views

#: Two cards stand side by side, this far apart; mm.
_GAP: Final = 10.0
_APART: Final = 6.0
#: Rows of cards on the first page, above what the scores mean.
_FIRST_ROWS: Final = 2
#: The most that a pair of views takes in height, mm.
_TALL: Final = 30.0
_TITLE: Final = 4.2
_TEXT: Final = 3.1
_NUMBER: Final = 8.0
_BAR: Final = 1.3
_SMALL: Final = 2.25
_GREY: Final = (95, 95, 95)
_TRACK: Final = Fill((232, 232, 232))
_MARK: Final = Fill((150, 40, 90))
_RULE: Final = Pen("card", 0.15, (170, 170, 170))


@dataclass(frozen=True)
class Card:
    """One garment: its number, title and score (0 to 100), lines of figures, and small named bars from 0 to 1."""

    number: int
    title: str
    score: int
    garment: Garment
    lines: tuple[str, ...]
    bars: tuple[tuple[str, float], ...]


@dataclass(frozen=True)
class LineUp:
    """Everything on the sheets.

    ``weights`` are rows of name, meaning and weight; ``left_out`` rows of reason, how many, and what was said of one.
    """

    title: str
    whose: str
    counts: str
    cards: tuple[Card, ...]
    weights: tuple[tuple[str, str, str], ...]
    left_out: tuple[tuple[str, int, str], ...]


def line_up_drawing(line_up: LineUp, paper: Paper) -> Drawing:
    """The pages, upright on ``paper``."""
    width = text_width_of(paper)
    canvas = RecordingCanvas(title=line_up.title)
    blocks = [
        lines_block(wrap(line_up.title, 8.0, width), 8.0, bold=True),
        paragraph(line_up.whose, width, size=3.4),
        paragraph(line_up.counts, width, size=3.4, space=1.0),
        *_cards(line_up, width),
        *_left_out(line_up, width),
    ]
    set_pages(canvas, blocks, paper, line_up.title)
    return canvas.drawing()


def _cards(line_up: LineUp, width: float) -> Iterator[Block]:
    """Rows of two, how they were ranked after the first rows; the views of all cards at one scale, those of a row
    standing on one line.
    """
    cards, wide = line_up.cards, (width - _GAP) / 2.0
    pages = _views(cards, wide)
    for start in range(0, len(cards), 2):
        row = cards[start : start + 2]
        tall = max(page.height for page in pages[start : start + 2])
        two = [_card(card, page, wide, tall) for card, page in zip(row, pages[start : start + 2], strict=True)]
        block = beside(two[0], two[-1], wide + _GAP) if len(two) == 2 else two[0]
        yield replace(block, space=_APART, breaks=start == 2 * _FIRST_ROWS)
        if start + 2 == 2 * _FIRST_ROWS or (start + 2 >= len(cards) and start < 2 * _FIRST_ROWS):
            yield _weights(line_up, width)


def _views(cards: Sequence[Card], wide: float) -> list[Page]:
    """Front and back of each card, drawn so that a millimetre of garment is as long on every one."""
    halves = [_half(card.garment) for card in cards]
    most = max(halves, default=1.0)
    pages = [
        garment_views(card.garment, width=wide * half / most, words=False, pictures=False).pages[0]
        for card, half in zip(cards, halves, strict=True)
    ]
    shrink = min(1.0, _TALL / max((page.height for page in pages), default=1.0))
    if shrink == 1.0:
        return pages
    return [
        garment_views(card.garment, width=wide * shrink * half / most, words=False, pictures=False).pages[0]
        for card, half in zip(cards, halves, strict=True)
    ]


def _half(garment: Garment) -> float:
    """Half the width (mm) of the garment laid flat."""
    areas = [patch.area for patches in lay_flat(garment).values() for patch in patches]
    left, _, right, _ = shapely.total_bounds(areas)
    return float(max(-left, right))


def _card(card: Card, page: Page, wide: float, tall: float) -> Block:
    parts = [_drawn(page, wide, tall), _name(card, wide), _bars(card, wide)]
    parts += [lines_block(wrap(line, _TEXT, wide), _TEXT, space=0.6) for line in card.lines]
    return stack(parts)


def _drawn(page: Page, wide: float, tall: float) -> Block:
    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        place = Matrix.move(left + (wide - page.width) / 2.0, top - tall)
        canvas.add(*(moved(mark, place) for mark in page.marks))

    return figure(tall, draw)


def _name(card: Card, wide: float) -> Block:
    """The number at the left, the score at the right, the title between them."""
    lines = wrap(card.title, _TITLE, wide - _NUMBER - 9.0)
    height = len(lines) * _TITLE * LEADING + 1.0

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        canvas.layer("drawing")
        canvas.stroke(Path.line((left, top), (left + wide, top)), _RULE)
        canvas.layer("text")
        base = top - 1.0 - 0.82 * _TITLE * LEADING
        canvas.text(str(card.number), (left, base), style=TextStyle(_TITLE * 1.2, bold=True, colour=_MARK.colour))
        right = TextStyle(_TITLE, colour=_GREY, anchor="right")
        canvas.text(str(card.score), (left + wide, base), style=right)
        for number, line in enumerate(lines):
            at = (left + _NUMBER, base - number * _TITLE * LEADING)
            canvas.text(line, at, style=TextStyle(_TITLE, bold=True))

    return Block(height, draw, space=1.0)


def _bars(card: Card, wide: float) -> Block:
    """A short bar for each score, its name below."""
    step = wide / max(1, len(card.bars))

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        for number, (name, value) in enumerate(card.bars):
            x, full = left + number * step, step - 1.6
            canvas.layer("drawing")
            canvas.fill((Path.rectangle(x, top - _BAR, full, _BAR),), _TRACK)
            if value > 0.005:
                canvas.fill((Path.rectangle(x, top - _BAR, full * value, _BAR),), _MARK)
            canvas.layer("text")
            canvas.text(name, (x, top - _BAR - _SMALL * 1.1), style=TextStyle(_SMALL, colour=_GREY))

    return Block(_BAR + _SMALL * 1.6, draw, space=1.2)


def _weights(line_up: LineUp, width: float) -> Block:
    """What the figure beside a title and the bars below it mean."""
    half = (len(line_up.weights) + 1) // 2
    wide = (width - _GAP) / 2.0
    columns = (Column("score", 1.0), Column("is high where", 3.3), Column("weight", 0.8, right=True))
    parts = [table(columns, rows, wide, size=2.8) for rows in (line_up.weights[:half], line_up.weights[half:])]
    blocks = [stack(part) if part else figure(0.0, lambda *_: None) for part in parts]
    words = (
        "The figure beside a title is the mean of its scores, from 0 to 100, weighed as below; the bars show them one "
        "by one. An idea that looks much like one before it stands further down. To weigh anew: --weigh comfort=3."
    )
    head = lines_block(["How they were ranked"], _TITLE, bold=True)
    legend = beside(blocks[0], blocks[1], wide + _GAP, space=1.0)
    return replace(stack([head, paragraph(words, width, size=3.0, space=0.5), legend]), space=_APART)


def _left_out(line_up: LineUp, width: float) -> Iterator[Block]:
    if not line_up.left_out:
        return
    yield heading("What cannot be made, and why", width, size=6.0, breaks=True)
    columns = (Column("designs", 0.7, right=True), Column("check that fails", 1.5), Column("for one of them", 4.0))
    rows = [(str(count), reason, says) for reason, count, says in line_up.left_out]
    yield from table(columns, rows, width, size=3.4)
