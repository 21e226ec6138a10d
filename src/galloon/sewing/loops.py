"""The open edges of a garment as loops round the body, and the runs of each that share one elastic."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from galloon.body import leg_line_on_body
from galloon.design import Design, Finish, FinishKind
from galloon.pieces import Garment, Piece, PieceEdge
from galloon.sewing.seams import SeamKind, seams_of

#: Zones of a loop in the order they are walked, and the seam that joins each to the next.
_LOOPS = {
    "waist": (
        ("wrap_waist", SeamKind.SIDE),
        ("front_waist", SeamKind.SIDE),
        ("side_waist", SeamKind.SIDE),
        ("back_waist", SeamKind.SIDE),
    ),
    "leg": (
        ("front_leg", SeamKind.FRONT_GUSSET),
        ("gusset_leg", SeamKind.BACK_GUSSET),
        ("back_leg", SeamKind.SIDE),
        ("side_leg", SeamKind.SIDE),
    ),
    "side": (
        ("front_side", SeamKind.SIDE),
        ("back_side", SeamKind.SIDE),
    ),
}
_STRETCHED = frozenset({FinishKind.ELASTIC, FinishKind.FOLD_OVER, FinishKind.LACE_TRIM, FinishKind.STRAP})


@dataclass(frozen=True)
class Span:
    """The open edges of one zone (front_waist, back_waist, front_leg, gusset_leg, back_leg; front_side and back_side
    where the sides are open).

    ``length`` is what the loop runs through there: both halves at the waist, one leg at the leg, one side at the side.
    """

    zone: str
    edges: tuple[str, ...]
    length: float
    word: str
    finish: Finish

    @property
    def stretched(self) -> bool:
        """Whether something is stretched on to it: an elastic, a trim, or a soft elastic behind a scallop."""
        return self.finish.kind in _STRETCHED or (
            self.finish.kind is FinishKind.SCALLOP and self.finish.elastic is not None
        )


@dataclass(frozen=True)
class Loop:
    """One opening: its spans as they follow one another, and the seam after each (None where the cloth runs on).

    ``body`` is how long the body is beneath its spans (mm). The edges of an open side go as a loop of their own.
    """

    name: str
    spans: tuple[Span, ...]
    joints: tuple[SeamKind | None, ...]
    body: float

    @property
    def length(self) -> float:
        """Length round it on the stitch lines (mm)."""
        return sum(span.length for span in self.spans)


@dataclass(frozen=True)
class Run:
    """Neighbouring spans with one and the same finish; ``before`` and ``after`` are the seams at its ends, None in a
    closed ring or where the cloth runs on.
    """

    loop: Loop
    spans: tuple[Span, ...]
    inner: tuple[SeamKind | None, ...]
    closed: bool
    before: SeamKind | None = None
    after: SeamKind | None = None

    @property
    def finish(self) -> Finish:
        """The finish of all its spans."""
        return self.spans[0].finish

    @property
    def edges(self) -> tuple[str, ...]:
        """Every edge it finishes."""
        return tuple(edge for span in self.spans for edge in span.edges)

    @property
    def length(self) -> float:
        """Length on the stitch line (mm)."""
        return sum(span.length for span in self.spans)


def zone_of(piece: Piece, edge: PieceEdge) -> str:
    """The zone of an open edge, or "" for a seam, a fold, or an edge that is none of the body's openings."""
    inside = edge.sewn_to is not None or edge.finish in ("seam", "fold") or bool(piece.part.laid_on)
    return "" if inside else piece.part.zone_of(edge.name)


def loops_of(garment: Garment) -> tuple[Loop, ...]:
    """Waist and leg, and the edges of open sides, as loops; one without any open edge is left out."""
    kinds = {seam.kind for seam in seams_of(garment)}
    apart = {SeamKind.SIDE} if garment.design.open_side is not None else set()
    found = []
    for name, order in _LOOPS.items():
        spans, joints = [], []
        for zone, joint in order:
            span = _span(garment, zone)
            if span is None:
                continue
            spans.append(span)
            joints.append(SeamKind.OPEN_SIDE if joint in apart else joint if joint in kinds else None)
        if spans:
            found.append(Loop(name, tuple(spans), tuple(joints), _on_body(garment, name, spans)))
    return tuple(found)


def runs_of(loop: Loop) -> tuple[Run, ...]:
    """The loop cut where its finish changes and at open sides; one closed run where it is cut nowhere."""
    spans, count = loop.spans, len(loop.spans)
    breaks = [i for i in range(count) if not _alike(spans[i - 1], spans[i]) or loop.joints[i - 1] is SeamKind.OPEN_SIDE]
    if not breaks:
        return (Run(loop, spans, loop.joints[:-1], closed=True),)
    runs = []
    for start, stop in zip(breaks, [*breaks[1:], breaks[0] + count], strict=True):
        places = [i % count for i in range(start, stop)]
        inner = tuple(loop.joints[i] for i in places[:-1])
        before, after = loop.joints[start - 1], loop.joints[places[-1]]
        if loop.name == "side":
            before = after = None
        runs.append(Run(loop, tuple(spans[i] for i in places), inner, False, before, after))
    return tuple(runs)


def _alike(one: Span, other: Span) -> bool:
    return one.word == other.word and one.finish == other.finish


def _span(garment: Garment, zone: str) -> Span | None:
    edges, length, word = [], 0.0, ""
    for piece in garment.outer:
        for edge in piece.edges:
            if zone_of(piece, edge) == zone:
                edges.append(f"{piece.name}/{edge.name}")
                length += edge.length * (2.0 if edge.name == "waist" and both_halves(piece) else 1.0)
                word = edge.finish
    return Span(zone, tuple(edges), length, word, _finish(garment.design, zone, word)) if edges else None


def both_halves(piece: Piece) -> bool:
    """Whether the drawn piece stands for half of a symmetrical whole."""
    return piece.part.fold is not None or piece.part.mirrored or piece.part.quantity > 1


def _finish(design: Design, zone: str, word: str) -> Finish:
    """The design's finish of a zone, unless a lace has put its own edge there."""
    finish = design.finishes.of(zone) or design.finishes.back_leg
    if word == "scallop" and finish.kind is not FinishKind.SCALLOP:
        return Finish(FinishKind.SCALLOP)
    return finish


def _on_body(garment: Garment, loop: str, spans: Sequence[Span]) -> float:
    """The body's own length (mm) where the loop lies, gaps left out: the girth by the side curve, the leg line by its
    height; for the edges of an open side what they measure lengthwise.
    """
    frame, draft, cut, side = garment.frame, garment.draft, garment.reductions, garment.design.open_side
    if loop == "side":
        return sum(span.length for span in spans) / (1.0 - cut.length)
    if loop == "waist":
        girth = garment.design.wearer.hip - 4.0 * frame.side.inset_at(draft.side_drop) / (1.0 - cut.girth)
        return girth - (2.0 * side.waist if side is not None else 0.0)
    leg = leg_line_on_body(garment.design.wearer, (frame.side.hip - draft.leg) / (1.0 - cut.length))
    return leg - (side.leg if side is not None else 0.0)
