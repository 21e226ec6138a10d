"""The guide's pages for drawing the pattern by hand: a small drawing with numbered points, and two tables for each
piece.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from galloon.drawing import Paper, Path, Pen, RecordingCanvas, TextStyle
from galloon.geometry import unit
from galloon.pieces import Piece, PieceEdge
from galloon.sheets.by_hand import HandRun, HandSheet, hand_sheet, replay_run
from galloon.sheets.guide_flow import (
    HAIR,
    SMALL,
    Block,
    Column,
    beside,
    figure,
    heading,
    paragraph,
    stack,
    subheading,
    table,
    text_width_of,
)
from galloon.sheets.guide_matter import GuideMatter
from galloon.sheets.guide_words import say
from galloon.sheets.words import cut_words

_BOX: float = 88.0
_TALLEST: float = 95.0
#: Offsets side by side on a line, and room for the words before them (mm).
_ABREAST: int = 9
_HEAD: float = 34.0
#: As many offsets are told in the run's own line.
_IN_LINE: int = 2
_SQUARE: Pen = Pen("square line", 0.3, dash=(5.0, 1.5))
_LINE: Pen = Pen("stitch", 0.45)
_CHORD: Pen = Pen("straight", 0.15, (90, 90, 90))
#: Figures are rounded to half a millimetre, or to the thirty-second of an inch.
_STEP = {"in": 25.4 / 32.0}


def by_hand(matter: GuideMatter, paper: Paper) -> Iterator[Block]:
    """How to draw every piece with a ruler."""
    width = text_width_of(paper)
    yield heading(say("hand"), width, breaks=True)
    yield paragraph(say("hand.note"), width, size=SMALL)
    seen: list[tuple[HandSheet, Piece]] = []
    for piece in matter.garment.pieces:
        sheet = hand_sheet(piece, _STEP.get(matter.unit, 0.5))
        twin = next((other for known, other in seen if known.points == sheet.points and known.runs == sheet.runs), None)
        if twin is not None:
            words = say("hand.like", name=piece.name, twin=twin.name, cloth=piece.part.cloth)
            yield paragraph(words, width, space=5.0)
            continue
        seen.append((sheet, piece))
        yield from _sheet(matter, piece, sheet, width)


def _sheet(matter: GuideMatter, piece: Piece, sheet: HandSheet, width: float) -> Iterator[Block]:
    yield subheading(f"{piece.name} ({piece.part.cloth}, {cut_words(piece)})", width)
    extent = piece.stitch - sheet.corner
    scale = min((_BOX - 16.0) / float(extent.real.max()), (_TALLEST - 14.0) / float(extent.imag.max()))
    tall = float(extent.imag.max()) * scale + 14.0
    unit = "in" if matter.unit == "in" else "mm"
    columns = (
        Column(say("hand.point"), 0.8),
        Column(f"{say('hand.across')}, {unit}", 1.2, True),
        Column(f"{say('hand.up')}, {unit}", 1.0, True),
    )
    rows = [(str(p.number), _figure(matter, p.across), _figure(matter, p.up)) for p in sheet.points]
    side = table(columns, rows, width - _BOX - 8.0, size=SMALL)
    if piece.part.fold is not None:
        fold = say("hand.fold", fold=piece.part.fold)
        side.append(paragraph(fold, width - _BOX - 8.0, size=SMALL))
    if piece.part.strap_ends:
        step = _STEP.get(matter.unit, 0.5)
        ups = ((end.at - sheet.corner).imag for end in piece.part.strap_ends)
        levels = [_figure(matter, round(up / step) * step) for up in ups]
        straps = say("hand.straps", levels=", ".join(levels), unit=unit)
        side.append(paragraph(straps, width - _BOX - 8.0, size=SMALL))

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        _draw(canvas, sheet, (left + 8.0, top - tall + 7.0), scale)

    yield beside(figure(tall, draw), stack(side), _BOX + 8.0, space=2.0)
    yield from _runs(matter, piece, sheet, width)


def _runs(matter: GuideMatter, piece: Piece, sheet: HandSheet, width: float) -> Iterator[Block]:
    """A row for each run, and below each curve its offsets."""
    columns = (
        Column(say("hand.edge"), 1.3),
        Column(say("hand.from"), 0.7),
        Column(say("hand.how"), 1.9),
        Column(say("hand.beyond"), 1.6),
    )
    head, *rows = table(
        columns,
        [
            (
                run.edge,
                f"{run.start} – {run.end}",
                _how(matter, run),
                _beyond(matter, piece, piece.edge(run.edge)),
            )
            for run in sheet.runs
        ],
        width,
        size=SMALL,
    )
    yield head
    for run, row in zip(sheet.runs, rows, strict=True):
        below = run.offsets if len(run.offsets) > _IN_LINE else ()
        yield stack([row, *(_offsets(matter, run, part, width) for part in _few(below))])


def _how(matter: GuideMatter, run: HandRun) -> str:
    """Straight, or a curve; its offsets in the same line where they are few."""
    if not run.offsets:
        return say("hand.straight")
    if len(run.offsets) > _IN_LINE:
        return say("hand.curve")
    each = [
        say("hand.at", along=_figure(matter, along), off=_figure(matter, abs(off)), side="left" if off > 0 else "right")
        for along, off in run.offsets
    ]
    return say("hand.curve.short", offsets="; ".join(each))


def _few(offsets: tuple[tuple[float, float], ...]) -> Iterator[tuple[tuple[float, float], ...]]:
    """Offsets in as many as stand side by side."""
    for start in range(0, len(offsets), _ABREAST):
        yield offsets[start : start + _ABREAST]


def _offsets(matter: GuideMatter, run: HandRun, part: tuple[tuple[float, float], ...], width: float) -> Block:
    """Two lines of figures: along the straight line, and square to it."""
    signs = {off > 0.0 for _, off in run.offsets if off}
    side = "either" if len(signs) == 2 else "right" if signs == {False} else "left"
    figures = [(_figure(matter, along), _signed(matter, off, side)) for along, off in part]
    heads = (say("hand.along", start=run.start, end=run.end), say(f"hand.{side}"))
    room = (width - _HEAD - 4.0) / _ABREAST

    def draw(canvas: RecordingCanvas, left: float, top: float) -> None:
        for line, head in enumerate(heads):
            level = top - 4.6 - line * 5.0
            canvas.layer("text")
            canvas.text(head, (left + 4.0, level), style=TextStyle(3.3, bold=line == 1))
            for number, pair in enumerate(figures):
                at = (left + _HEAD + 4.0 + (number + 1) * room - 1.0, level)
                canvas.text(pair[line], at, style=TextStyle(3.3, bold=line == 1, anchor="right"))
        canvas.layer("drawing")
        canvas.stroke(Path.line((left, top - 11.4), (left + width, top - 11.4)), HAIR)

    return Block(11.6, draw)


def _signed(matter: GuideMatter, off: float, side: str) -> str:
    text = _figure(matter, abs(off))
    return f"− {text}" if side == "either" and off < 0.0 else text


def _beyond(matter: GuideMatter, piece: Piece, edge: PieceEdge) -> str:
    if edge.finish in ("scallop", "lapped") and edge.allowance == 0.0:
        on_strip = piece.strip is not None and edge.name in (piece.strip.edge, piece.strip.far_edge)
        return say("hand.scallop" if on_strip else "hand.on line")
    if edge.allowance < 0.0:
        return say("hand.short", length=matter.small(-edge.allowance))
    if edge.finish == "fold":
        return say("hand.on fold")
    return matter.small(edge.allowance) if edge.allowance > 0.0 else say("hand.nothing")


def _figure(matter: GuideMatter, mm: float) -> str:
    """A figure to measure with a ruler: mm to the half, or inches to the thirty-second."""
    if matter.unit != "in":
        return f"{mm:g}"
    whole, rest = divmod(round(mm / 25.4 * 32), 32)
    part = str(Fraction(rest, 32)) if rest else ""
    return " ".join(filter(None, [str(whole) if whole or not part else "", part]))


def _draw(canvas: RecordingCanvas, sheet: HandSheet, corner: tuple[float, float], scale: float) -> None:
    def at(point: complex) -> tuple[float, float]:
        shifted = (point - sheet.corner) * scale
        return corner[0] + shifted.real, corner[1] + shifted.imag

    wide = max(point.across for point in sheet.points) * scale + 5.0
    tall = max(point.up for point in sheet.points) * scale + 5.0
    canvas.layer("drawing")
    canvas.stroke(Path.line((corner[0], corner[1] - 4.0), (corner[0], corner[1] + tall)), _SQUARE)
    canvas.stroke(Path.line((corner[0] - 4.0, corner[1]), (corner[0] + wide, corner[1])), _SQUARE)
    for run in sheet.runs:
        canvas.stroke(
            Path.polyline([at(complex(p)) for p in replay_run(sheet, run)[::4]] + [at(sheet.at(run.end))]), _LINE
        )
        _chords(canvas, sheet, run, at)
    canvas.layer("text")
    ring = [complex(*at(sheet.at(point.number))) for point in sheet.points]
    for place, point in enumerate(sheet.points):
        middle = ring[place] + 4.0 * _aside(ring, place)
        style = TextStyle(SMALL, bold=True, anchor="middle")
        canvas.text(str(point.number), (middle.real, middle.imag - 1.3), style=style)


def _aside(ring: Sequence[complex], place: int) -> complex:
    """A unit step to where a corner of an anticlockwise ring has most room: out of it, or into it at a notch."""
    before, after = unit(ring[place] - ring[place - 1]), unit(ring[(place + 1) % len(ring)] - ring[place])
    notch = (before.conjugate() * after).imag < -0.2
    out = -1j * (before + after)
    return unit(-out if notch else out) if abs(out) > 1e-6 else before


def _chords(canvas: RecordingCanvas, sheet: HandSheet, run: HandRun, at: object) -> None:
    place = at
    if not run.offsets or not callable(place):
        return
    start, end = sheet.at(run.start), sheet.at(run.end)
    along = (end - start) / abs(end - start)
    canvas.stroke(Path.line(place(start), place(end)), _CHORD)
    for station, off in run.offsets:
        foot = start + along * station
        canvas.stroke(Path.line(place(foot), place(foot + along * 1j * off)), _CHORD)
