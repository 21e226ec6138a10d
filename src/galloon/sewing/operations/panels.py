"""Operations within and between panels: joins, linings, centre seams, side seams."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from galloon.said import Term
from galloon.sewing.bench import Bench, Care, Operation, pieces_of
from galloon.sewing.loops import Run
from galloon.sewing.operations import stages
from galloon.sewing.seams import Seam, SeamKind
from galloon.sewing.words import say
from galloon.styling import Pass
from galloon.styling.finish_table import LAPPED, LOCKSTITCH, SUPERIMPOSED, ZIGZAG


def joins(bench: Bench) -> Iterator[Operation]:
    """Style-line seams within a panel, lapped where a lace edge lies over the other piece."""
    for seam in bench.seams_like(SeamKind.JOIN):
        yield lapped(bench, seam, stages.JOIN) if seam.upper else _joined(bench, seam)


def _joined(bench: Bench, seam: Seam) -> Operation:
    one, other = (Term(name) for name in (pieces_of(seam.edges) * 2)[:2])
    return Operation(
        f"join {'+'.join(seam.edges)}",
        stages.JOIN,
        say("join", one=one, other=other),
        say("join.do", one=one, other=other),
        closes=seam.all_edges,
        pieces=pieces_of(seam.all_edges),
        sewn=bench.seam_pass(seam.edges),
        seam_class=SUPERIMPOSED,
        care=bench.seam_care(seam),
    )


def lapped(bench: Bench, seam: Seam, stage: int) -> Operation:
    """A lapped lace seam: the upper edge over the under one, sewn along its motifs, the under layer trimmed."""
    upper = Term(seam.upper.partition("/")[0])
    under = Term(next((name for name in pieces_of(seam.edges) if name != upper), upper))
    return Operation(
        f"lap {'+'.join(seam.edges)}",
        stage,
        say("lap", upper=upper, under=under),
        say("lap.do", upper=upper, under=under),
        closes=seam.all_edges,
        pieces=pieces_of(seam.all_edges),
        sewn=Pass(ZIGZAG, say("setting.lap")),
        seam_class=LAPPED,
        care=Care(bench.allowance(seam.edges), say("trim.lap"), say("press.lace")),
    )


def linings(bench: Bench) -> Iterator[Operation]:
    """Front and back linings, basted to their panels; from then on both are sewn as one."""
    for covers in ("front", "back", "wrap"):
        for lining in bench.lining_of(covers):
            outer = lining.name.removesuffix(" lining")
            mine = [key for key in bench.sewable if key.startswith(f"{lining.name}/")]
            under = {bench_key for key in bench.sewable for bench_key in bench.with_linings((key,))[1:]}
            names = {piece.name for piece in bench.garment.pieces}
            partners = tuple(sorted(key for key in bench.sewable if key.startswith(f"{outer}/")))
            yield Operation(
                f"line {lining.name}",
                stages.LINE,
                say("line", panel=Term(outer)),
                say("line.do", panel=Term(outer), lining=Term(lining.name)),
                closes=tuple(sorted(key for key in mine if key not in under and bench.edge(key)[1].finish != "hem")),
                free=tuple(key for key in partners if bench.with_linings((key,))[1:]),
                closed=bench.seam_edges(SeamKind.JOIN) if outer not in names else (),
                works=tuple(sorted(mine)),
                pieces=tuple(name for name in (outer, lining.name) if name in names),
                sewn=Pass(LOCKSTITCH, say("setting.baste")),
            )


def centre_seams(bench: Bench) -> Iterator[Operation]:
    """Centre front, back and gusset seams."""
    for seam in bench.seams_like(SeamKind.CENTRE_FRONT, SeamKind.CENTRE_BACK, SeamKind.CENTRE_GUSSET):
        name = seam.edges[0].partition("/")[0]
        piece = bench.garment.piece(name)
        if seam.upper:
            title = say("centre", seam=seam.kind.words)
            under = bench.small(bench.garment.design.allowances.lapped_under)
            done = lapped(bench, seam, stages.CENTRE)
            do = say("lap.centre.do", panel=Term(name), under=under)
            yield replace(done, key=f"centre {name}", title=title, do=do)
            continue
        scallops = piece.strip is not None and piece.strip.scallops is not None
        yield Operation(
            f"centre {name}",
            stages.CENTRE,
            say("centre", seam=seam.kind.words),
            say("centre.do", panel=Term(name), scallops=say("centre.scallops") if scallops else ""),
            closes=seam.all_edges,
            pieces=pieces_of(seam.all_edges),
            sewn=bench.seam_pass(seam.edges),
            seam_class=SUPERIMPOSED,
            care=bench.seam_care(seam),
        )


def side_seams(bench: Bench) -> Iterator[Operation]:
    """Both side seams; ends of elastics put on flat before are caught in them."""
    seams = bench.seams_like(SeamKind.SIDE)
    for seam in seams:
        if seam.upper:
            yield lapped(bench, seam, stages.SIDE)
    plain = [seam for seam in seams if not seam.upper]
    if not plain:
        return
    edges = tuple(edge for seam in plain for edge in seam.all_edges)
    outer = tuple(edge for seam in plain for edge in seam.edges)
    whole = Seam(SeamKind.SIDE, outer)
    ends = any(SeamKind.SIDE in (run.before, run.after) and run.spans[0].stretched for run in _open_runs(bench))
    yield Operation(
        "side seams",
        stages.SIDE,
        say("side"),
        say("side.do", caught=say("side.caught") if ends else ""),
        closes=edges,
        pieces=pieces_of(edges),
        sewn=bench.seam_pass(outer),
        seam_class=SUPERIMPOSED,
        care=bench.seam_care(whole),
    )


def _open_runs(bench: Bench) -> tuple[Run, ...]:
    return tuple(run for run in bench.runs if not run.closed)
