"""Flowing text and figures on pages: blocks of known height, kept with the next where asked, drawn by the canvas."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final

from galloon.drawing import Paper, Path, Pen, RecordingCanvas, TextStyle, text_width, wrap

BODY: Final = 4.4
SMALL: Final = 3.7
LEADING: Final = 1.36
MARGIN: Final = 17.0
FOOT: Final = 10.0
RULE: Final = Pen("rule", 0.25)
HAIR: Final = Pen("hair", 0.15, (120, 120, 120))
WORDS: Final = "text"
LINES: Final = "drawing"

Draw = Callable[[RecordingCanvas, float, float], None]


@dataclass(frozen=True)
class Block:
    """Something ``height`` mm high; ``draw(canvas, left, top)`` puts it there. ``keep``: on the same page as the next
    block.

    ``breaks``: a new page begins before it. ``space`` (mm) comes above it unless it is the first on its page.
    """

    height: float
    draw: Draw
    keep: bool = False
    breaks: bool = False
    space: float = 0.0


@dataclass(frozen=True)
class Column:
    """One column of a table: its head, its share of the width, and whether figures stand at the right."""

    head: str
    share: float
    right: bool = False


def lines_block(
    lines: Sequence[str], size: float, *, bold: bool = False, space: float = 0.0, keep: bool = False
) -> Block:
    """Lines of text already broken."""
    style = TextStyle(size, bold=bold)

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        write(canvas, lines, (left, top), style)

    return Block(len(lines) * size * LEADING, draw, keep=keep, space=space)


def write(canvas: RecordingCanvas, lines: Sequence[str], at: tuple[float, float], style: TextStyle) -> None:
    """Lines below one another, the top of the first at ``at``."""
    canvas.layer(WORDS)
    for number, line in enumerate(lines):
        if line:
            base = at[1] - (number + 0.82) * style.size * LEADING
            canvas.text(line, (at[0], base), style=style)


def paragraph(text: str, width: float, *, size: float = BODY, space: float = 2.0, bold: bool = False) -> Block:
    """A paragraph in one block."""
    return lines_block(wrap(text, size, width), size, bold=bold, space=space)


def heading(text: str, width: float, *, size: float = 7.5, breaks: bool = False) -> Block:
    """A heading with a rule below it, kept with what follows."""
    lines = wrap(text, size, width)
    height = len(lines) * size * LEADING + 1.5

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        write(canvas, lines, (left, top), TextStyle(size, bold=True))
        canvas.layer(LINES)
        canvas.stroke(Path.line((left, top - height + 0.5), (left + width, top - height + 0.5)), RULE)

    return Block(height, draw, keep=True, breaks=breaks, space=9.0)


def subheading(text: str, width: float) -> Block:
    """A smaller heading, kept with what follows."""
    return lines_block(wrap(text, 5.2, width), 5.2, bold=True, space=5.0, keep=True)


def bullet(text: str, width: float, *, mark: str = "•", size: float = BODY, bold_mark: bool = False) -> Block:
    """A paragraph hanging from its mark."""
    indent = max(5.0, text_width(mark, size) + 2.5)
    lines = wrap(text, size, width - indent)

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        write(canvas, [mark], (left, top), TextStyle(size, bold=bold_mark))
        write(canvas, lines, (left + indent, top), TextStyle(size))

    return Block(len(lines) * size * LEADING, draw, space=1.6)


def table(columns: Sequence[Column], rows: Sequence[Sequence[str]], width: float, *, size: float = 4.0) -> list[Block]:
    """A table, one block a row; the head stays with the first row."""
    head = _row(columns, [column.head for column in columns], width, size=size, bold=True)
    return [head, *(_row(columns, row, width, size=size) for row in rows)]


def _row(columns: Sequence[Column], cells: Sequence[str], width: float, *, size: float, bold: bool = False) -> Block:
    total = sum(column.share for column in columns)
    wide = [column.share / total * width for column in columns]
    texts = [wrap(cell, size, room - 3.0) for cell, room in zip(cells, wide, strict=True)]
    height = max(len(text) for text in texts) * size * LEADING + 1.6

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        x = left
        for column, text, room in zip(columns, texts, wide, strict=True):
            style = TextStyle(size, bold=bold, anchor="right" if column.right else "left")
            write(canvas, text, (x + room - 3.0 if column.right else x, top - 0.6), style)
            x += room
        canvas.layer(LINES)
        canvas.stroke(Path.line((left, top - height), (left + width, top - height)), RULE if bold else HAIR)

    return Block(height, draw, keep=bold, space=2.5 if bold else 0.0)


def figure(height: float, draw: Draw, *, space: float = 3.0, keep: bool = False) -> Block:
    """A drawing ``height`` mm high."""
    return Block(height, draw, space=space, keep=keep)


def beside(one: Block, other: Block, at: float, *, space: float = 5.0) -> Block:
    """Two blocks side by side, the second ``at`` mm from the left; tops level."""

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        one.draw(canvas, left, top)
        other.draw(canvas, left + at, top)

    return Block(max(one.height, other.height), draw, space=space)


def stack(blocks: Sequence[Block], *, space: float = 0.0) -> Block:
    """Blocks below one another as one that no page cuts."""
    heights = [block.height + (block.space if number else 0.0) for number, block in enumerate(blocks)]

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        for number, block in enumerate(blocks):
            top -= block.space if number else 0.0
            block.draw(canvas, left, top)
            top -= block.height

    return Block(sum(heights), draw, space=space)


def text_width_of(paper: Paper) -> float:
    """Width for text on a sheet (mm)."""
    return paper.width - 2.0 * MARGIN


def room_of(paper: Paper) -> float:
    """Height for blocks on a sheet (mm)."""
    return paper.height - 2.0 * MARGIN - FOOT


def paginate(blocks: Sequence[Block], room: float) -> list[list[tuple[Block, float]]]:
    """Blocks on pages, each with the distance of its top from the top of the text area (mm)."""
    pages: list[list[tuple[Block, float]]] = [[]]
    used, index = 0.0, 0
    while index < len(blocks):
        end = index
        while blocks[end].keep and end + 1 < len(blocks):
            end += 1
        group = blocks[index : end + 1]
        need = sum(block.height + block.space for block in group)
        if pages[-1] and (group[0].breaks or used + need > room):
            pages.append([])
            used = 0.0
        for block in group:
            used += block.space if pages[-1] else 0.0
            pages[-1].append((block, used))
            used += block.height
        index = end + 1
    return pages


def set_pages(canvas: RecordingCanvas, blocks: Sequence[Block], paper: Paper, foot: str) -> None:
    """Every block on its page, with ``foot`` and the page number below."""
    pages = paginate(blocks, room_of(paper))
    for number, page in enumerate(pages, 1):
        canvas.begin_page(paper.width, paper.height, name=f"page {number}")
        for block, down in page:
            block.draw(canvas, MARGIN, paper.height - MARGIN - down)
        _foot(canvas, paper, foot, f"{number} / {len(pages)}")
        canvas.end_page()


def _foot(canvas: RecordingCanvas, paper: Paper, foot: str, number: str) -> None:
    canvas.layer(WORDS)
    line = wrap(foot, 3.2, text_width_of(paper) - 25.0)[0]
    canvas.text(line, (MARGIN, MARGIN - 4.0), style=TextStyle(3.2, colour=(70, 70, 70)))
    canvas.text(number, (paper.width - MARGIN, MARGIN - 4.0), style=TextStyle(3.2, anchor="right"))
