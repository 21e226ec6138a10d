"""Operations at the open edges: each run of one finish, flat where its end is caught in a seam, else in the round."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final

from galloon import defaults
from galloon.design import FinishKind
from galloon.said import Said, Term, in_a_row, listed
from galloon.sewing.bench import UNSEWN, Bench, Care, Operation, pieces_of
from galloon.sewing.elastics import caught
from galloon.sewing.loops import Run
from galloon.sewing.operations import stages
from galloon.sewing.seams import SeamKind
from galloon.sewing.words import say, zone_words
from galloon.styling import Pass, finish_row, trim_lap
from galloon.styling.finish_table import ZIGZAG


@dataclass(frozen=True)
class _Edge:
    """A run with what every one of its operations shares."""

    bench: Bench
    run: Run

    @property
    def name(self) -> Said:
        if self.run.closed:
            return say(f"edge.{self.run.loop.name}")
        return zone_words(tuple(span.zone for span in self.run.spans))

    @property
    def ends(self) -> tuple[tuple[SeamKind | None, bool], ...]:
        """The seams at both ends of an open run, and whether it is caught in them."""
        if self.run.closed:
            return ()
        garment = self.bench.garment
        return tuple(dict.fromkeys((seam, caught(garment, seam)) for seam in (self.run.before, self.run.after)))

    @property
    def closed(self) -> tuple[str, ...]:
        """Edges that must be sewn first: seams it runs across, seams it ends at without being caught, seams in its
        panels.
        """
        run = self.run
        across = run.loop.joints if run.closed else run.inner
        turned = tuple(seam for seam, is_caught in self.ends if not is_caught)
        names = pieces_of(run.edges)
        covers = {str(self.bench.garment.piece(name).part.covers) for name in names}
        return (*self.bench.seam_edges(*across, *turned), *self._within(covers))

    def _within(self, covers: set[str]) -> tuple[str, ...]:
        """Seams inside the panels it runs along."""
        kinds = [SeamKind.JOIN]
        if self.run.loop.name == "waist":
            kinds += [SeamKind.CENTRE_FRONT, SeamKind.CENTRE_BACK]
        return tuple(
            edge
            for seam in self.bench.seams_like(*kinds)
            if self.bench.garment.piece(seam.edges[0].partition("/")[0]).part.covers in covers
            for edge in seam.all_edges
        )

    @property
    def free(self) -> tuple[str, ...]:
        """Edges that must still be open: the seams that catch its ends."""
        return self.bench.seam_edges(*(seam for seam, is_caught in self.ends if is_caught))

    @property
    def after(self) -> tuple[str, ...]:
        """The basting of gusset and lining, which a leg edge is sewn over."""
        return ("gusset legs",) if self.run.loop.name == "leg" else ()

    @property
    def stage(self) -> int:
        if any(is_caught for _, is_caught in self.ends):
            return stages.FLAT_EDGE
        return stages.WAIST if self.run.loop.name == "waist" else stages.LEG

    @property
    def how(self) -> Said:
        """Ring or flat, in words."""
        if self.run.closed:
            return say("edge.ring", overlap=self.bench.small(finish_row(self.run.finish).overlap))
        flat = say("edge.flat", ends=in_a_row("; ", [self._end(*end) for end in self.ends]))
        return in_a_row(" ", [flat, *self.bench.stop_words(self.run)])

    def _end(self, seam: SeamKind | None, is_caught: bool) -> Said:
        turned = self.bench.small(float(defaults.ELASTIC_TURNED_END))
        if self.run.loop.name == "side":
            return say("edge.flat.corner", turned=turned)
        if seam is None:
            return say("edge.flat.free", turned=turned)
        if seam is SeamKind.OPEN_SIDE:
            return say("edge.flat.open")
        key = "edge.flat.caught" if is_caught else "edge.flat.turned"
        return say(key, seam=seam.one, turned=turned)

    @property
    def _straps(self) -> tuple[Said, ...]:
        """What the last row along the edge of an open side catches."""
        side = self.bench.garment.design.open_side
        if self.run.loop.name != "side" or side is None:
            return ()
        end, zone = self.bench.small(float(defaults.STRAP_END)), self.run.spans[0].zone
        first = say("strap.ends.front" if zone == "front_side" else "strap.ends.back", count=side.straps)
        return (say("strap.ends", ends=first, strap=Term(side.elastic.name), end=end),)

    def passes(self, *keys: str, care: Care, **fields: object) -> Iterator[Operation]:
        """One operation per row of stitching; the last closes the edges."""
        row = finish_row(self.run.finish)
        edges = self.bench.with_linings(self.run.edges)
        for number, (key, sewn) in enumerate(zip(keys, row.passes, strict=True)):
            first, last = number == 0, number == len(keys) - 1
            yield Operation(
                f"{self.run.edges[0]} {key}",
                self.stage,
                say(key, edge=self.name),
                in_a_row(" ", [say(f"{key}.do", how=self.how, **fields), *(self._straps if last else ())]),
                closes=edges if last else (),
                begins=edges if first and not last else (),
                free=(*edges, *self.free) if first and not last else self.free,
                closed=self.closed,
                works=edges,
                after=(f"{self.run.edges[0]} {keys[number - 1]}",) if number else self.after,
                pieces=pieces_of(edges),
                sewn=sewn,
                seam_class=row.seam_class,
                care=care,
            )


def edge_operations(bench: Bench) -> Iterator[Operation]:
    """Every run of every opening."""
    for run in bench.runs:
        yield from _BY_KIND[run.finish.kind](_Edge(bench, run))


def _care(edge: _Edge) -> Care:
    return Care(edge.bench.allowance(edge.run.edges), say("trim.elastic"), say("press.elastic"))


def _elastic_name(edge: _Edge) -> str:
    finish = edge.run.finish
    return Term(finish.elastic.name if finish.elastic is not None else finish.name)


def _turned(edge: _Edge) -> Iterator[Operation]:
    yield from edge.passes("turned.1", "turned.2", care=_care(edge), elastic=_elastic_name(edge), pins=say("edge.pins"))


def _fold_over(edge: _Edge) -> Iterator[Operation]:
    yield from edge.passes("fold-over", care=_care(edge), elastic=_elastic_name(edge), pins=say("edge.pins"))


def _trim(edge: _Edge) -> Iterator[Operation]:
    finish, small = edge.run.finish, edge.bench.small
    trim = finish.trim
    name = say("trim.named", lace=Term(trim.name)) if trim is not None else Term("lace")
    care = Care(edge.bench.allowance(edge.run.edges), say("trim.lap"), say("press.lace"))
    pins = say("edge.pins")
    if finish.band_lap is not None:
        yield from edge.passes("band", care=care, elastic=name, pins=pins, lap=small(finish.band_lap))
        return
    slit = say("trim.slit", galloon=finish.slit_from, wide=small(trim.width)) if finish.slit_from and trim else ""
    yield from edge.passes("trim", care=care, elastic=name, pins=pins, lap=small(trim_lap(finish)), slit=slit)


def _strap(edge: _Edge) -> Iterator[Operation]:
    end = edge.bench.small(float(defaults.STRAP_END))
    yield from edge.passes("strap", care=_care(edge), elastic=_elastic_name(edge), end=end, pins=say("edge.pins"))


def _hem(edge: _Edge) -> Iterator[Operation]:
    wide = edge.run.finish.wide
    care = Care(edge.bench.allowance(edge.run.edges), "", say("press.cloth"))
    fields = {"wide": edge.bench.small(wide), "inside": edge.bench.small(max(2.0, wide - 2.0))}
    yield from edge.passes("hem", care=care, **fields)


def _binding(edge: _Edge) -> Iterator[Operation]:
    wide = edge.run.finish.wide
    overlap = finish_row(edge.run.finish).overlap
    long = edge.run.length * defaults.BINDING_RATIO + 2.0 * overlap
    fields = {"strip": edge.bench.small(4.0 * wide), "wide": edge.bench.small(wide), "long": edge.bench.length(long)}
    care = Care(edge.bench.allowance(edge.run.edges), "", say("press.cloth"))
    yield from edge.passes("binding.1", "binding.2", care=care, **fields)


def _scallop(edge: _Edge) -> Iterator[Operation]:
    if edge.run.spans[0].stretched:
        care = Care("", "", say("press.lace"))
        yield from edge.passes("soft", care=care, elastic=_elastic_name(edge), pins=say("edge.pins"))
        return
    edges = edge.bench.with_linings(edge.run.edges)
    linings = [Term(name) for name in pieces_of(edges) if name not in pieces_of(edge.run.edges)]
    care = Care("", say("trim.lining edge") if linings else "", say("press.lace"))
    yield Operation(
        f"{edge.run.edges[0]} bare",
        stages.BARE,
        say("bare.lined" if linings else "bare", edge=edge.name),
        say("bare.lined.do", lining=listed(linings)) if linings else say("bare.do"),
        closes=edges,
        closed=edge.bench.seam_edges(*(seam for seam, _ in edge.ends), *edge.run.inner),
        pieces=pieces_of(edges),
        sewn=Pass(ZIGZAG, say("setting.lining edge")) if linings else UNSEWN,
        seam_class="2.01" if linings else "",
        care=care,
    )


_BY_KIND: Final[Mapping[FinishKind, Callable[[_Edge], Iterator[Operation]]]] = {
    FinishKind.ELASTIC: _turned,
    FinishKind.FOLD_OVER: _fold_over,
    FinishKind.LACE_TRIM: _trim,
    FinishKind.STRAP: _strap,
    FinishKind.HEM: _hem,
    FinishKind.BINDING: _binding,
    FinishKind.SCALLOP: _scallop,
}
