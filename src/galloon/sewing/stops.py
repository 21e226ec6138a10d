"""Where an elastic stops and the lace's own edge begins: at which seams, how far along the edge, and its cut length."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from galloon.findings import Finding, Status
from galloon.pieces import Garment
from galloon.said import Said, listed
from galloon.sewing.elastics import elastic_row
from galloon.sewing.loops import Loop, Run, loops_of, runs_of
from galloon.sewing.model import ElasticRow
from galloon.sewing.seams import SeamKind
from galloon.sewing.words import say
from galloon.units import format_length


@dataclass(frozen=True)
class Stop:
    """One end of a run beside a scalloped edge: the seam there (None where the cloth runs on), and how far (mm) it lies
    along the finished edge from where the opening begins, at the side seam.
    """

    seam: SeamKind | None
    along: float


@dataclass(frozen=True)
class LaceStop:
    """An elastic that ends where a scalloped edge begins: its row, first and last place, and which ends meet lace."""

    row: ElasticRow
    run: Run
    first: Stop
    last: Stop
    lace: tuple[Stop, ...]


def lace_stops(garment: Garment) -> tuple[LaceStop, ...]:
    """Every elastic that stops where a scallop begins, waist first."""
    return tuple(stop for loop in loops_of(garment) for stop in _of_loop(garment, loop))


def _of_loop(garment: Garment, loop: Loop) -> Iterator[LaceStop]:
    runs = runs_of(loop)
    for place, run in enumerate(runs):
        if run.closed or not run.spans[0].stretched or _scalloped(run):
            continue
        start = loop.spans.index(run.spans[0])
        along = sum(span.length for span in loop.spans[:start])
        first, last = Stop(run.before, along), Stop(run.after, along + run.length)
        beside = ((first, runs[place - 1]), (last, runs[(place + 1) % len(runs)]))
        lace = tuple(stop for stop, other in beside if _scalloped(other) and stop.seam is not SeamKind.OPEN_SIDE)
        if lace:
            yield LaceStop(elastic_row(garment, run), run, first, last, lace)


def _scalloped(run: Run) -> bool:
    return run.spans[0].word == "scallop"


def stop_words(stop: LaceStop, unit: str) -> Said:
    """Where it begins and stops and where the lace begins, in two sentences."""
    each = say("stop.each") if stop.row.count > 1 else ""
    return say(
        "stop",
        kind=stop.row.kind,
        cut=format_length(stop.row.cut_length, unit),
        each=each,
        first=_place(stop, stop.first, unit),
        last=_place(stop, stop.last, unit),
        length=format_length(stop.run.length, unit),
        lace=listed(list(dict.fromkeys(_seam(one) for one in stop.lace))),
    )


def _seam(stop: Stop) -> Said:
    if stop.seam is None:
        return say("stop.free")
    return say("stop.seam", seam=stop.seam.one)


def _place(stop: LaceStop, end: Stop, unit: str) -> Said:
    """The seam, and on a leg that has side seams how far from them it lies."""
    sides = SeamKind.SIDE in stop.run.loop.joints
    told = stop.first.seam is SeamKind.SIDE and stop.first.along == 0.0
    if stop.row.opening != "leg" or end.seam is SeamKind.SIDE or told or not sides:
        return _seam(end)
    return say("stop.away", seam=_seam(end), away=format_length(end.along, unit))


def _says(stop: LaceStop, unit: str) -> Said:
    return say("stop.finding", edge=stop.row.edge, stop=stop_words(stop, unit))


def stop_findings(garment: Garment) -> tuple[Finding, ...]:
    """One finding for every elastic that stops where lace begins; its value is how far (mm) the elastic runs."""
    unit = garment.design.units
    return tuple(
        Finding(
            "elastic stops where the lace begins",
            Status.PASS,
            _says(stop, unit),
            stop.run.length,
            None,
            "mm",
            stop.run.edges[0],
        )
        for stop in lace_stops(garment)
    )
