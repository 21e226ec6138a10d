"""Pieces laid on panels: overlays, strips over a seam, motifs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import shapely

from galloon.design import Use
from galloon.geometry import coordinates
from galloon.lace import Placement
from galloon.pieces import Piece
from galloon.said import Said, Term, listed
from galloon.sewing.bench import Bench, Care, Operation, pieces_of
from galloon.sewing.operations import stages
from galloon.sewing.seams import SeamKind
from galloon.sewing.words import say
from galloon.styling import Laid, Pass
from galloon.styling.finish_table import LAPPED, LOCKSTITCH, ZIGZAG

_SEAMS: Final = {"side": SeamKind.SIDE, "front": SeamKind.CENTRE_FRONT, "back": SeamKind.CENTRE_BACK}
#: Seams said as they are told from one another.
_SEAM_WORDS: Final = {
    "side": Term("side seams"), "front": Term("centre front seam"), "back": Term("centre back seam"),
}  # fmt: skip
#: A difference of lengths (mm) that nobody can pin.
_NOTHING: Final = 1.0


def overlay(bench: Bench, placement: Placement) -> Iterator[Operation]:
    """An overlay, sewn on before its panel is sewn to anything; style lines beneath it come first."""
    piece = bench.garment.piece(placement.piece)
    upper, under = Term(piece.name), _panels(piece)
    text = say("laid.do", upper=upper, under=under, fold=say("laid.fold") if piece.part.fold else "")
    yield _sewn_on(bench, piece, (say("laid", upper=upper, under=under), text))


def _panels(piece: Piece) -> Said:
    """What a piece is laid on, in words."""
    return listed([Term(name) for name in piece.part.laid_on])


def insertion(bench: Bench, placement: Placement) -> Iterator[Operation]:
    """A strip over a seam: the seam first, then the strip, before any edge it runs out to is finished."""
    piece = bench.garment.piece(placement.piece)
    figures = placement.figures or {}
    longer = figures.get("seam_length", 0.0) - figures.get("strip_length", 0.0)
    ease = say("insertion.ease", longer=bench.small(longer)) if longer > _NOTHING else say("insertion.flat")
    seam = _SEAM_WORDS[piece.part.covers]
    text = say("insertion.do", upper=Term(piece.name), seam=seam, ease=ease)
    words = (say("insertion", upper=Term(piece.name), seam=seam), text)
    cut = say("insertion.cut") if _mark(bench, piece).cut_away else say("laid.keep")
    closed = bench.seam_edges(_SEAMS[piece.part.covers])
    yield _sewn_on(bench, piece, words, closed=closed, stage=stages.OVER_SEAM, behind=cut)


def applique(bench: Bench, placement: Placement) -> Iterator[Operation]:
    """A motif or a cluster sewn round its outline, while its panel still lies flat."""
    piece = bench.garment.piece(placement.piece)
    upper, panel = Term(piece.name), _panels(piece)
    strips = {one.piece for one in bench.garment.placements if one.use is Use.INSERTION}
    beneath = _beneath(bench, piece)
    over_seam = any(name in strips or len(bench.garment.piece(name).part.laid_on) > 1 for name in beneath)
    count = int((placement.figures or {}).get("motifs", 1.0))
    first = say("applique.cluster", count=count) if count > 1 else ""
    twice = say("applique.twice") if piece.part.quantity > 1 else ""
    words = (
        say("applique", upper=upper, panel=panel),
        say("applique.do", upper=upper, panel=panel, first=first, twice=twice),
    )
    flat = tuple(sorted(key for key in bench.sewable if key.partition("/")[0] in piece.part.laid_on and not over_seam))
    yield _sewn_on(bench, piece, words, free=flat)


def _sewn_on(
    bench: Bench,
    piece: Piece,
    words: tuple[str, str],
    *,
    free: tuple[str, ...] = (),
    closed: tuple[str, ...] = (),
    stage: int = stages.LACE,
    behind: str = "",
) -> Operation:
    """The operation that sews a laid piece down along all its edges; ``words`` are title and text."""
    mark = _mark(bench, piece)
    edges = tuple(f"{piece.name}/{edge.name}" for edge in piece.edges if edge.finish != "fold")
    caught = tuple(
        target for edge in piece.edges if edge.finish != "fold" and (target := edge.sewn_to) and target in bench.sewable
    )
    sewn = Pass(LOCKSTITCH, say("setting.laid straight")) if mark.straight else Pass(ZIGZAG, say("setting.lap"))
    cut = behind or say("trim.cut away" if mark.cut_away else "laid.keep")
    over = pieces_of(edge for seam in bench.seams_like(SeamKind.JOIN) for edge in seam.edges)
    beneath = piece.part.laid_on
    joins = bench.seam_edges(SeamKind.JOIN) if sum(name in over for name in beneath) > 1 else ()
    return Operation(
        f"laid {piece.name}",
        stage,
        *words,
        closes=edges,
        free=tuple(dict.fromkeys((*caught, *(key for key in free if key not in joins)))),
        closed=(*closed, *joins),
        after=tuple(f"laid {name}" for name in _beneath(bench, piece)),
        pieces=(piece.name, *beneath),
        sewn=sewn,
        seam_class=LAPPED,
        care=Care("", cut, say("press.lace")),
    )


def _mark(bench: Bench, piece: Piece) -> Laid:
    """How the piece lies on the first of its panels."""
    hosts = (bench.garment.piece(name) for name in piece.part.laid_on)
    return next(one for host in hosts for one in host.part.laid if one.name == piece.name)


def _beneath(bench: Bench, piece: Piece) -> tuple[str, ...]:
    """Names of the laid pieces that this one lies on: laid before it, and sharing some of its place."""
    found: list[str] = []
    for name in piece.part.laid_on:
        laid = bench.garment.piece(name).part.laid
        place = next(i for i, one in enumerate(laid) if one.name == piece.name)
        found += [one.name for one in laid[:place] if one.name != piece.name and _share(one, laid[place])]
    return tuple(dict.fromkeys(found))


def _share(one: Laid, other: Laid) -> bool:
    areas = [shapely.make_valid(shapely.polygons(coordinates(laid.ring))) for laid in (one, other)]
    return bool(shapely.area(shapely.intersection(*areas)) > 1.0)
