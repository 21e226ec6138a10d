"""The words and arrows of one pattern piece, placed where they cross no line: beside edges, and in the widest room."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterable
from typing import Final

import numpy as np

from galloon.design import Design
from galloon.drawing import Mark, Path, RecordingCanvas, TextStyle, text_width, wrap
from galloon.geometry import Points
from galloon.pieces import Garment, Piece
from galloon.sheets import inks
from galloon.sheets.piece_lines import (
    arrow_head,
    finish_ends,
    fold_bracket,
    lace_lines,
    laid_lines,
    notch_ticks,
    strap_lines,
)
from galloon.sheets.room import Place, Room, upright
from galloon.sheets.words import edge_words, piece_words

#: Text sizes tried along edges, mm, the one wanted first.
_EDGE_SIZES: Final = (3.2, 2.8, 2.4, 2.0)
_EASY: Final = (4.4, 4.0, 3.6, 3.2, 2.8)
_HARD: Final = (2.4, 2.0)
#: How the label is tried: text sizes, direction, and room left over and under it for the labels of edges (mm).
_LABEL_TRIES: Final = (
    (_EASY, 1.0 + 0.0j, 6.0),
    (_EASY, 1.0j, 6.0),
    (_EASY, 1.0 + 0.0j, 0.0),
    (_HARD, 1.0 + 0.0j, 0.0),
    (_HARD, 1.0j, 0.0),
)
_ARROW_LENGTHS: Final = (70.0, 55.0, 45.0, 35.0, 28.0, 20.0)
#: Widths the label is broken to, as multiples of its text size.
_WRAPS: Final = (22.0, 16.0, 11.0, 8.0)
_NAME: Final = 1.5
_LINE: Final = 1.35
_STRETCH_WORDS: Final = "greatest stretch"
_VALLEY: Final = ("valley line",)
_FAR: Final = ("far edge of solid lace",)


def piece_labels(garment: Garment, piece: Piece) -> tuple[Mark, ...]:
    """Every word and arrow of a piece, in the piece's own place; what finds no room at its edge goes into the label."""
    marks, left_over = _labels(garment, piece, ())
    if left_over:
        marks, _ = _labels(garment, piece, left_over)
    return marks


def _labels(garment: Garment, piece: Piece, further: tuple[str, ...]) -> tuple[tuple[Mark, ...], tuple[str, ...]]:
    """The marks with ``further`` lines in the label, and the lines that found no room elsewhere."""
    canvas, room = RecordingCanvas(), _room(piece)
    canvas.begin_page(1.0, 1.0)
    _draw_label(canvas, room, piece, (*piece_words(garment, piece), *further))
    left_over = (
        *_lace_labels(canvas, room, piece),
        *_laid_labels(canvas, room, piece),
        *_strap_labels(canvas, room, piece),
        *_edge_labels(canvas, room, garment.design, piece, said=further),
    )
    stretch = cmath.exp(1j * math.radians(piece.part.greatest_stretch))
    cloth = garment.design.cloths[piece.part.cloth]
    if not cloth.rigid:
        _draw_arrow(canvas, room, _STRETCH_WORDS, stretch, layer=inks.STRETCH)
    along = stretch if cloth.stretches_most == "length" else stretch * 1j
    _draw_arrow(canvas, room, f"along the {'lace' if cloth.lace else 'cloth'}", along, layer=inks.GRAIN)
    canvas.end_page()
    return canvas.drawing().pages[0].marks, left_over


def _room(piece: Piece) -> Room:
    room = Room(piece.stitch, piece.cut)
    lines = [line for line in lace_lines(piece) if line is not None]
    lines += [np.append(line, line[0]) for line, _ in laid_lines(piece)]
    lines += list(strap_lines(piece))
    lines += [tick for notch in piece.notches for tick in notch_ticks(notch)]
    lines += [np.array([end, end + 0.01]) for end in finish_ends(piece)]
    for line in lines:
        room.keep_clear(line)
    if (bracket := fold_bracket(piece)) is not None:
        stand = complex(bracket[0].real, 0.0)
        room.keep_clear(np.array([bracket[0] - stand, *bracket, bracket[1] - stand]), 1.2)
    return room


def _lace_labels(canvas: RecordingCanvas, room: Room, piece: Piece) -> Iterable[str]:
    """Names of the lace's two lines; the far line's stands over it, off the piece, where there is no room under it."""
    valley, far = lace_lines(piece)
    if valley is not None and not _write_beside(canvas, room, _VALLEY, valley, layer=inks.LACE, sides=(1, -1)):
        yield f"fine line: {_VALLEY[0]}"
    if far is None or _write_beside(canvas, room, _FAR, far, layer=inks.LACE, sides=(-1,)):
        return
    turn = (far[1] - far[0]) / abs(far[1] - far[0])
    over = (far[0] + far[1]) / 2.0 + 3.0j * turn
    _write(canvas, _FAR[0], (over, upright(turn)), 2.8, layer=inks.LACE)


def _laid_labels(canvas: RecordingCanvas, room: Room, piece: Piece) -> Iterable[str]:
    """What is laid on the piece, along the longest free side of its place; what found no room."""
    for laid in piece.part.laid:
        side = {"left": ", left half", "right": ", right half"}.get(laid.half, "")
        behind = f"{laid.name}{side}: cut away behind" if laid.cut_away else f"{laid.name}{side} on top"
        line = np.append(laid.ring, laid.ring[0])
        if not _write_beside(canvas, room, (behind, f"{laid.name}{side}"), line, layer=inks.LACE, sides=(1, -1)):
            yield f"dotted line: {behind}"


def _strap_labels(canvas: RecordingCanvas, room: Room, piece: Piece) -> Iterable[str]:
    """Which strap is caught where, inside its mark; what found no room."""
    alone = len(piece.part.strap_ends) == 1
    for end, line in zip(piece.part.strap_ends, strap_lines(piece), strict=True):
        choices = ("strap",) if alone else (f"strap {end.number}", str(end.number))
        inner = line[1:3]
        if not _write_beside(canvas, room, choices, inner[::-1] + 0.0, layer=inks.STRAPS, sides=(1, -1)):
            yield f"fine dots: {choices[0]}"


def _edge_labels(
    canvas: RecordingCanvas, room: Room, design: Design, piece: Piece, *, said: tuple[str, ...]
) -> Iterable[str]:
    """A label at every edge but those whose words are ``said`` already; the words that found no room."""
    bracket = fold_bracket(piece)
    for edge in piece.edges:
        words = edge_words(design, piece, edge)
        if words[0] in said:
            continue
        folded = edge.finish == "fold" and bracket is not None
        line = bracket if folded and bracket is not None else piece.edge_points(edge.name)
        if not _write_beside(canvas, room, words, line, layer=inks.FOLD if folded else inks.TEXT):
            yield words[0]


def _write_beside(
    canvas: RecordingCanvas,
    room: Room,
    choices: tuple[str, ...],
    line: Points,
    *,
    layer: str,
    sides: tuple[int, ...] = (1,),
) -> bool:
    """The first of the wordings that finds room, as large as may be: the whole of one wording before the next."""
    for words in choices:
        sizes = _EDGE_SIZES if words is choices[-1] else _EDGE_SIZES[:3]
        width = text_width(words, 1.0)
        for size in sizes:
            place = room.beside(line, (width * size, size), sides=sides)
            if place is not None:
                _write(canvas, words, place, size, layer=layer)
                return True
    return False


def _write(canvas: RecordingCanvas, words: str, place: Place, size: float, *, layer: str, bold: bool = False) -> None:
    """One line with its middle at a place."""
    middle, turn = place
    foot = middle - 0.33 * size * 1j * turn
    style = TextStyle(size, bold=bold, colour=inks.WORD_COLOUR.get(layer, inks.INK), anchor="middle")
    canvas.layer(layer)
    canvas.text(words, (foot.real, foot.imag), style=style, angle=round(math.degrees(cmath.phase(turn)), 6))


def _draw_label(canvas: RecordingCanvas, room: Room, piece: Piece, words: tuple[str, ...]) -> None:
    """The label in the widest room: level rather than turned, unless that makes it hard to read."""
    for sizes, turn, apart in _LABEL_TRIES:
        for size in sizes:
            for wide in _WRAPS:
                lines = _broken(words, size, wide * size)
                width, height = _extent(lines)
                middle = room.best((width, height), turn, over=apart)
                if middle is not None:
                    _write_block(canvas, lines, middle + height / 2.0 * 1j * turn, turn)
                    return
    lines = _broken(words, 2.8, 60.0)
    under = complex(float(piece.cut.real.min()) + _extent(lines)[0] / 2.0, float(piece.cut.imag.min()) - 3.0)
    _write_block(canvas, lines, under, 1.0 + 0.0j)


#: Lines of a label with their sizes; the first is bold.
_Lines = list[tuple[str, float]]


def _broken(words: tuple[str, ...], size: float, width: float) -> _Lines:
    name, *rest = words
    lines = [(line, _NAME * size) for line in wrap(name, _NAME * size, max(width, _NAME * size))]
    return lines + [(line, size) for text in rest for line in wrap(text, size, width)]


def _extent(lines: _Lines) -> tuple[float, float]:
    return max(text_width(line, size) for line, size in lines), _LINE * sum(size for _, size in lines)


def _write_block(canvas: RecordingCanvas, lines: _Lines, top: complex, turn: complex) -> None:
    """Lines under one another from the middle of the block's upper edge."""
    name_size = lines[0][1]
    for line, size in lines:
        middle = top - _LINE * size / 2.0 * 1j * turn
        _write(canvas, line, (middle, turn), size, layer=inks.TEXT, bold=size == name_size)
        top -= _LINE * size * 1j * turn


def _draw_arrow(canvas: RecordingCanvas, room: Room, words: str, direction: complex, *, layer: str) -> None:
    """An arrow with its words over it, as long as there is room for; outside no piece, so left out where none fits."""
    turn = upright(direction)
    for length in _ARROW_LENGTHS:
        size = 3.0 if length > 40.0 else 2.4 if length > 24.0 else 1.9
        box = (max(length, text_width(words, size)), size * 1.3 + 4.0)
        middle = room.best(box, turn)
        if middle is None:
            continue
        half, axis = length / 2.0 * turn, middle - (box[1] / 2.0 - 2.0) * 1j * turn
        canvas.layer(layer)
        if layer == inks.STRETCH:
            _draw_stretch(canvas, axis - half, axis + half)
        else:
            _draw_length(canvas, axis - half, axis + half)
        _write(canvas, words, (axis + (2.2 + size / 2.0) * 1j * turn, turn), size, layer=layer)
        return


def _draw_stretch(canvas: RecordingCanvas, start: complex, end: complex) -> None:
    """Two arrows that pull apart, joined by a spring."""
    turn = (end - start) / abs(end - start)
    middle = (start + end) / 2.0
    spring = [middle + turn * x + 1j * turn * y for x, y in zip(range(-5, 6), _SPRING, strict=True)]
    canvas.stroke(Path.polyline([start, *spring, end]), inks.STRETCH_PEN)
    for tip, way in ((start, -turn), (end, turn)):
        canvas.stroke(arrow_head(tip, way), inks.STRETCH_PEN)
        canvas.stroke(arrow_head(tip - 1.6 * way, way), inks.STRETCH_PEN)


_SPRING: Final = (0.0, 1.3, -1.3, 1.3, -1.3, 1.3, -1.3, 1.3, -1.3, 1.3, 0.0)


def _draw_length(canvas: RecordingCanvas, start: complex, end: complex) -> None:
    """A plain thin line with an arrow head at each end."""
    turn = (end - start) / abs(end - start)
    canvas.stroke(Path.line(start, end), inks.GRAIN_PEN)
    for tip, way in ((start, -turn), (end, turn)):
        canvas.stroke(arrow_head(tip, way, 4.0), inks.GRAIN_PEN)
