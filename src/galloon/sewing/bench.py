"""The work bench: what the builders of operations look at, and the operation they give."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cached_property
from typing import Final, NamedTuple

from galloon.materials import Cloth, Kind
from galloon.pieces import Garment, Piece, PieceEdge
from galloon.said import Said, Term, in_a_row
from galloon.sewing.loops import Loop, Run, loops_of, runs_of
from galloon.sewing.seams import Seam, SeamKind, lining_edges, seams_of, sewable
from galloon.sewing.stops import LaceStop, lace_stops, stop_words
from galloon.sewing.words import say
from galloon.styling import Pass
from galloon.styling.finish_table import OVERLOCK, ZIGZAG
from galloon.units import format_length


class Care(NamedTuple):
    """What goes with a row of stitching: allowance, trimming and pressing, in words."""

    allowance: str = ""
    trimming: str = ""
    pressing: str = ""


#: Work at the table, with nothing stitched.
UNSEWN: Final = Pass("", "")
NO_CARE: Final = Care()


@dataclass(frozen=True)
class Operation:
    """One operation before it has its place.

    ``stage`` breaks ties: lower first. ``closes`` are the edges it finishes for good, ``begins`` those it sews on to
    for a later one to close; ``free`` edges must still be untouched by both when it is done, ``closed`` edges must be
    sewn before; ``works`` are the edges it works along where it closes none; ``after`` names operations that must
    come first.
    """

    key: str
    stage: int
    title: str
    do: str
    closes: tuple[str, ...] = ()
    begins: tuple[str, ...] = ()
    free: tuple[str, ...] = ()
    closed: tuple[str, ...] = ()
    works: tuple[str, ...] = ()
    spots: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    pieces: tuple[str, ...] = ()
    sewn: Pass = UNSEWN
    seam_class: str = ""
    care: Care = NO_CARE


@dataclass(frozen=True)
class Bench:
    """A garment laid out for sewing; looked up again and again by the builders."""

    garment: Garment

    @cached_property
    def seams(self) -> tuple[Seam, ...]:
        """Every seam."""
        return seams_of(self.garment)

    @cached_property
    def loops(self) -> tuple[Loop, ...]:
        """Every opening."""
        return loops_of(self.garment)

    @cached_property
    def runs(self) -> tuple[Run, ...]:
        """Every run of one finish."""
        return tuple(run for loop in self.loops for run in runs_of(loop))

    def stop_words(self, run: Run) -> tuple[Said, ...]:
        """Where the run's elastic stops and lace begins, if it does."""
        stops = (stop for stop in self._stops if stop.run.edges == run.edges)
        return tuple(stop_words(stop, self.garment.design.units) for stop in stops)

    @cached_property
    def _stops(self) -> tuple[LaceStop, ...]:
        return lace_stops(self.garment)

    @cached_property
    def sewable(self) -> frozenset[str]:
        """Every edge that is no fold."""
        return frozenset(sewable(self.garment))

    def seams_like(self, *kinds: SeamKind) -> tuple[Seam, ...]:
        """Seams of these kinds."""
        return tuple(seam for seam in self.seams if seam.kind in kinds)

    def seam_edges(self, *kinds: SeamKind | None) -> tuple[str, ...]:
        """All edges of the seams of these kinds, linings too; of open sides the edges that the straps are caught in."""
        opened = self.open_sides if SeamKind.OPEN_SIDE in kinds else ()
        return (*(edge for seam in self.seams if seam.kind in kinds for edge in seam.all_edges), *opened)

    @cached_property
    def open_sides(self) -> tuple[str, ...]:
        """The edges of open sides, linings too."""
        edges = (edge for loop in self.loops if loop.name == "side" for span in loop.spans for edge in span.edges)
        return self.with_linings(edges)

    def edge(self, key: str) -> tuple[Piece, PieceEdge]:
        """Piece and edge of "piece/edge"; KeyError where there is none."""
        name, _, edge = key.partition("/")
        piece = self.garment.piece(name)
        return piece, piece.edge(edge)

    def cloth(self, key: str) -> Cloth:
        """The cloth an edge is cut from."""
        return self.garment.design.cloths[self.edge(key)[0].part.cloth]

    def is_lace(self, keys: Iterable[str]) -> bool:
        """Whether any of these edges is lace."""
        return any(self.cloth(key).kind is Kind.LACE for key in keys)

    def lining_of(self, covers: str) -> tuple[Piece, ...]:
        """Linings of front, back or gusset."""
        return tuple(p for p in self.garment.pieces if p.part.lining and p.part.covers == covers)

    def with_linings(self, keys: Iterable[str]) -> tuple[str, ...]:
        """The edges and those of the linings under them."""
        keys = tuple(keys)
        return (*keys, *lining_edges(self.garment, keys))

    def small(self, mm: float) -> str:
        """A small length as a maker reads it: mm, or inches where the brief is in inches."""
        return format_length(mm, "in" if self.garment.design.units == "in" else "mm")

    def length(self, mm: float) -> str:
        """A length in the brief's unit."""
        return format_length(mm, self.garment.design.units)

    def allowance(self, keys: Iterable[str]) -> str:
        """The allowances of these edges in words: one figure where all are alike."""
        found = {key: self.edge(key)[1].allowance for key in keys}
        if len(set(found.values())) == 1:
            return self._beyond(next(iter(found.values())))
        each = [in_a_row(" ", [Term(key.partition("/")[0]), self._beyond(value)]) for key, value in found.items()]
        return in_a_row(", ", list(dict.fromkeys(each)))

    def _beyond(self, allowance: float) -> str:
        return self.small(allowance) if allowance >= 0.0 else say("allowance.short", short=self.small(-allowance))

    def seam_pass(self, keys: Iterable[str]) -> Pass:
        """How a plain seam is sewn: narrow zigzag where lace is in it, which does not ravel; else overlock, or zigzag
        without.
        """
        if self.is_lace(keys):
            return Pass(ZIGZAG, say("setting.lace seam"))
        return Pass(OVERLOCK, say("setting.seam"))

    def seam_care(self, seam: Seam) -> Care:
        """Allowance, trimming and pressing of a plain seam."""
        lace = self.is_lace(seam.edges)
        return Care(
            self.allowance(seam.edges),
            say("trim.lace seam" if lace else "trim.seam"),
            say("press.lace" if lace else "press.cloth"),
        )


#: Looks at the bench and gives operations, none where this design needs none.
Builder = Callable[[Bench], Iterable[Operation]]


def pieces_of(keys: Iterable[str]) -> tuple[str, ...]:
    """Names of the pieces whose edges these are, each once."""
    return tuple(dict.fromkeys(key.partition("/")[0] for key in keys))
