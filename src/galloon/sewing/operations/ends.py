"""The first and the last of the work: preparing, edges nobody else finishes, bar tacks, the try-on."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from galloon.materials import Kind
from galloon.said import Term, in_a_row, listed
from galloon.sewing.bench import Bench, Care, Operation, pieces_of
from galloon.sewing.elastics import caught
from galloon.sewing.loops import Run
from galloon.sewing.operations import stages
from galloon.sewing.words import say
from galloon.styling import Pass
from galloon.styling.finish_table import APPLIED, ZIGZAG


def prepare(bench: Bench) -> Iterator[Operation]:
    """Sorting, marking, and letting the lace rest."""
    pieces = bench.garment.pieces
    lace = any(bench.garment.design.cloths[piece.part.cloth].kind is Kind.LACE for piece in pieces)
    lace = lace or any(finish.trim is not None for _, finish in bench.garment.design.finishes)
    names = tuple(piece.name for piece in pieces)
    text = say("prepare.do", lace=say("prepare.lace") if lace else "")
    yield Operation("prepare", stages.PREPARE, say("prepare"), text, pieces=names)


def tacks(bench: Bench) -> Iterator[Operation]:
    """Bar tacks where an elastic ends at a closed seam and where a bare scallop begins and ends."""
    runs = [run for run in bench.runs if not run.closed and run.loop.name != "side"]
    turned = [run for run in runs if run.spans[0].stretched and _stops(bench, run)]
    scallops = [run for run in runs if run.spans[0].word == "scallop"]
    where = [say("tacks.turned")] * bool(turned) + [say("tacks.scallop")] * bool(scallops)
    edges = tuple(dict.fromkeys(edge for run in (*turned, *scallops) for edge in run.edges))
    if where:
        yield Operation(
            "tacks",
            stages.TACKS,
            say("tacks"),
            say("tacks.do", where=listed(where)),
            closed=edges,
            works=edges,
            pieces=pieces_of(edges),
            sewn=Pass(ZIGZAG, say("setting.tack")),
            spots=_spots(bench, (*turned, *scallops)),
        )


def _spots(bench: Bench, runs: Sequence[Run]) -> tuple[str, ...]:
    """Where the runs end without being caught: "piece/edge@start" or "@end" as the edge is walked."""
    found = []
    for run in runs:
        for seam in (run.before, run.after):
            if run.spans[0].word == "scallop" or not caught(bench.garment, seam):
                found += [spot for key in run.edges for spot in _touching(bench, key, bench.seam_edges(seam))]
    return tuple(dict.fromkeys(found))


def _touching(bench: Bench, key: str, seam: tuple[str, ...]) -> Iterator[str]:
    piece, edge = bench.edge(key)
    place = [each.name for each in piece.edges].index(edge.name)
    for end, neighbour in (("start", place - 1), ("end", (place + 1) % len(piece.edges))):
        if f"{piece.name}/{piece.edges[neighbour].name}" in seam:
            yield f"{key}@{end}"


def _stops(bench: Bench, run: Run) -> bool:
    return not all(caught(bench.garment, seam) for seam in (run.before, run.after))


def left_over(bench: Bench, done: Sequence[Operation]) -> Iterator[Operation]:
    """Edges that no builder has claimed, finished by their own word."""
    closed = {edge for operation in done for edge in operation.closes}
    for key in sorted(bench.sewable - closed):
        piece, edge = bench.edge(key)
        names = (Term(piece.name), Term(edge.name))
        yield Operation(
            f"other {key}",
            stages.OTHER,
            say("other", edges=in_a_row(", ", names)),
            say("other.do", edges=say("other.edge", piece=names[0], edge=names[1]), finish=Term(edge.finish)),
            closes=(key,),
            pieces=(piece.name,),
            sewn=Pass(ZIGZAG, say("setting.lace seam")),
            seam_class=APPLIED,
            care=Care(bench.small(edge.allowance)),
        )


def finishing(bench: Bench) -> Operation:
    """The last step: threads, try-on, first wash."""
    names = tuple(piece.name for piece in bench.garment.pieces)
    every = tuple(sorted(bench.sewable))
    return Operation(
        "finish", stages.FINISH, say("finish"), say("finish.do"), closed=every, after=("tacks", "straps"), pieces=names
    )
