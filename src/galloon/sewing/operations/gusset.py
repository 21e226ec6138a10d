"""Gusset seams: both ends enclosed in the lining where there is one, lapped where a lace's scallop lies over them."""

from __future__ import annotations

from collections.abc import Iterator

from galloon.said import Term
from galloon.sewing.bench import Bench, Care, Operation, pieces_of
from galloon.sewing.operations import stages
from galloon.sewing.seams import Seam, SeamKind
from galloon.sewing.words import say
from galloon.styling import Pass
from galloon.styling.finish_table import HEMMED, LAPPED, LOCKSTITCH, SUPERIMPOSED, ZIGZAG

_KINDS = (SeamKind.FRONT_GUSSET, SeamKind.BACK_GUSSET)


def gusset_operations(bench: Bench) -> Iterator[Operation]:
    """The first plain seam lies between gusset and lining, the second is sewn with the garment rolled up inside;
    lapped ends last.
    """
    seams = bench.seams_like(*_KINDS)
    ways = iter(("sandwich", "roll"))
    for seam in sorted(seams, key=lambda seam: bool(seam.upper)):
        if seam.upper:
            yield _lapped(bench, seam, seams)
        elif _lined(bench, seam):
            yield _sewn(bench, seam, next(ways), seams)
        else:
            yield _sewn(bench, seam, "plain", seams)
    yield from _legs(bench, seams)


def free_ends(bench: Bench) -> Iterator[Operation]:
    """Ends of linings that no seam catches, because the gusset is grown on there: hemmed before they are sewn in."""
    for key in sorted(bench.sewable):
        piece, edge = bench.edge(key)
        if piece.part.lining and edge.finish == "hem" and piece.part.zone_of(edge.name) == "" and edge.sewn_to is None:
            yield Operation(
                f"hem {key}",
                stages.JOIN,
                say("lining.end", lining=Term(piece.name)),
                say("lining.end.do", lining=Term(piece.name), end=Term(edge.name), wide=bench.small(edge.allowance)),
                closes=(key,),
                pieces=(piece.name,),
                sewn=Pass(ZIGZAG, say("setting.lace seam")),
                seam_class=HEMMED,
                care=Care(bench.small(edge.allowance)),
            )


def _lined(bench: Bench, seam: Seam) -> bool:
    return any(bench.garment.piece(name).part.covers == "gusset" for name in pieces_of(seam.linings))


def _panel(bench: Bench, seam: Seam) -> Term:
    """The piece that the gusset is sewn to."""
    names = pieces_of(seam.edges)
    return Term(next((name for name in names if "gusset" not in bench.garment.piece(name).part.bodies), names[0]))


def _first(bench: Bench, seam: Seam) -> tuple[str, ...]:
    """Seams within the panel that must be sewn before its gusset seam."""
    covers = {bench.garment.piece(name).part.covers for name in pieces_of(seam.edges)}
    kinds = (SeamKind.JOIN, SeamKind.CENTRE_FRONT, SeamKind.CENTRE_BACK, SeamKind.CENTRE_GUSSET)
    return tuple(
        edge
        for other in bench.seams_like(*kinds)
        if bench.garment.piece(other.edges[0].partition("/")[0]).part.covers in covers
        for edge in other.all_edges
    )


def _sewn(bench: Bench, seam: Seam, way: str, seams: tuple[Seam, ...]) -> Operation:
    panel = _panel(bench, seam)
    before: tuple[str, ...] = ()
    if way == "roll":
        before = tuple(e for other in seams if other is not seam and not other.upper for e in other.all_edges)
    care = bench.seam_care(seam)
    return Operation(
        seam.kind.value,
        stages.GUSSET,
        say(f"gusset.{way}", seam=seam.kind.words),
        say(f"gusset.{way}.do", panel=panel),
        closes=seam.all_edges,
        free=_lining_legs(bench) if way != "plain" else (),
        closed=(*_first(bench, seam), *before),
        pieces=pieces_of(seam.all_edges),
        sewn=bench.seam_pass(seam.edges),
        seam_class=SUPERIMPOSED,
        care=care if way == "plain" else Care(care.allowance, say("trim.gusset"), care.pressing),
    )


def _lapped(bench: Bench, seam: Seam, seams: tuple[Seam, ...]) -> Operation:
    enclosed = [other for other in seams if not other.upper and _lined(bench, other)]
    before = tuple(edge for other in enclosed for edge in other.all_edges)
    lining = say("gusset.lap.lining") if _lined(bench, seam) else ""
    return Operation(
        seam.kind.value,
        stages.GUSSET_LAP,
        say("gusset.lap", seam=seam.kind.words),
        say("gusset.lap.do", panel=_panel(bench, seam), lining=lining),
        closes=seam.all_edges,
        closed=(*_first(bench, seam), *before),
        pieces=pieces_of(seam.all_edges),
        sewn=Pass(ZIGZAG, say("setting.lap")),
        seam_class=LAPPED,
        care=Care(bench.allowance(seam.edges), say("trim.lap"), say("press.lace")),
    )


def _lining_legs(bench: Bench) -> tuple[str, ...]:
    """Leg edges of the gusset's lining, which must be open while its ends are enclosed."""
    return tuple(
        f"{lining.name}/{edge.name}"
        for lining in bench.lining_of("gusset")
        for edge in lining.edges
        if edge.name == "leg"
    )


def _legs(bench: Bench, seams: tuple[Seam, ...]) -> Iterator[Operation]:
    legs = _lining_legs(bench)
    outer = tuple(key for key in sorted(bench.sewable) if set(bench.with_linings((key,))[1:]) & set(legs))
    if legs:
        yield Operation(
            "gusset legs",
            stages.GUSSET_LEGS,
            say("gusset.legs"),
            say("gusset.legs.do"),
            free=(*(key for key in outer if key in bench.sewable), *legs),
            works=(*outer, *legs),
            closed=tuple(edge for seam in seams if seam.linings for edge in seam.all_edges),
            pieces=pieces_of((*(key for key in outer if key in bench.sewable), *legs)),
            sewn=Pass(LOCKSTITCH, say("setting.baste")),
        )
