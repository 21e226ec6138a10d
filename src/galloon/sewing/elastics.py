"""How long every elastic is cut: ratio by zone on the stitch line, bounded by its own stretch, with marks for the
pins.
"""

from __future__ import annotations

import cmath
import math
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Final

from galloon import defaults
from galloon.design import FinishKind
from galloon.drafting import Edge
from galloon.geometry import unit
from galloon.materials import off_axis_stretch
from galloon.pieces import Garment
from galloon.said import Said, Term, listed, said
from galloon.sewing.loops import Run, Span, loops_of, runs_of
from galloon.sewing.model import ElasticRow, ElasticZone, Mark, Reach
from galloon.sewing.seams import SeamKind
from galloon.sewing.straps import strap_reach, strap_rows
from galloon.sewing.words import say, zone_words
from galloon.styling import asked_ratio, edge_allowance, finish_row
from galloon.units import format_length

#: The zone that comes before one on the waist, whose far end is the seam it begins at.
_BEFORE: Final = {"front_waist": "back_waist", "back_waist": "front_waist"}


def cut_length(zones: Sequence[tuple[float, float]], ends: float) -> float:
    """Sum of edge length × ratio over ``zones`` (mm, ratio), and ``ends`` (mm): common practice."""
    return sum(length * ratio for length, ratio in zones) + ends


def elastic_rows(garment: Garment) -> tuple[ElasticRow, ...]:
    """Every elastic to cut, waist first, straps last; laid-on trims count as elastics, binding, hems and bare scallops
    do not.
    """
    edges = (elastic_row(garment, run) for loop in loops_of(garment) for run in runs_of(loop) if run.spans[0].stretched)
    return (*edges, *strap_rows(garment))


def elastic_reach(garment: Garment, rows: Sequence[ElasticRow]) -> Mapping[str, Reach]:
    """By opening, how far it goes: each elastic to its own stretch, what is left bare to that of its cloth."""
    found = {}
    for loop in loops_of(garment):
        mine = [row for row in rows if row.opening == loop.name]
        if not mine or loop.name == "side":
            continue
        bare = sum(_bare_reach(garment, span) for span in loop.spans if not span.stretched)
        found[loop.name] = Reach(
            sum(row.reach for row in mine) + bare + strap_reach(garment, loop.name), _kinds(garment, mine)
        )
    return MappingProxyType(found)


def _kinds(garment: Garment, rows: Sequence[ElasticRow]) -> Said:
    """The names of the elastics of an opening, straps too."""
    side = garment.design.open_side
    kinds = [*(row.kind for row in rows), *([Term(side.elastic.name)] if side is not None else [])]
    return listed(list(dict.fromkeys(kinds)))


def _bare_reach(garment: Garment, span: Span) -> float:
    """Span length (mm) at the stretch of its cloth along the edge."""
    name, _, edge = span.edges[0].partition("/")
    piece = garment.piece(name)
    cloth = garment.design.cloths[piece.part.cloth]
    along = piece.part.greatest_stretch + (0.0 if cloth.stretches_most == "length" else 90.0)
    chord = _chord(piece.part.edge(edge))
    return span.length * (1.0 + off_axis_stretch(cloth, math.degrees(cmath.phase(chord)) - along))


def _chord(edge: Edge) -> complex:
    return unit(edge.end - edge.start)


def elastic_row(garment: Garment, run: Run) -> ElasticRow:
    """The elastic of one run that is stretched on."""
    stretch, loop = _stretch(run), run.loop
    share = run.length / loop.length
    body = loop.body * share
    asked = [asked_ratio(run.finish, _zone_name(span)) for span in run.spans]
    scale = _bound([span.length for span in run.spans], asked, body / (1.0 + defaults.ELASTIC_WORN_SHARE * stretch))
    zones = tuple(
        ElasticZone(span.zone, span.length, ratio * scale, ratio) for span, ratio in zip(run.spans, asked, strict=True)
    )
    ends = finish_row(run.finish).overlap if run.closed else _ends(garment, run)
    cut = cut_length([(zone.edge_length, zone.ratio) for zone in zones], ends)
    return ElasticRow(
        Term(loop.name) if run.closed else zone_words(tuple(span.zone for span in run.spans)),
        _kind(run),
        run.length,
        cut,
        loop.name,
        zones,
        ends,
        run.closed,
        1 if loop.name == "waist" else 2,
        stretch,
        body / (cut - ends) - 1.0,
        _marks(run, zones, ends),
        _says(garment, scale),
    )


def _zone_name(span: Span) -> str:
    return "waist" if span.zone.endswith("waist") else span.zone


def _kind(run: Run) -> str:
    finish = run.finish
    if finish.trim is not None:
        return said("lace trim {lace}", lace=Term(finish.trim.name))
    return Term(finish.elastic.name if finish.elastic is not None else finish.name)


def _stretch(run: Run) -> float:
    finish = run.finish
    if finish.trim is not None:
        return finish.trim.stretch_length
    return finish.elastic.stretch if finish.elastic is not None else 0.0


def _bound(lengths: Sequence[float], asked: Sequence[float], least: float) -> float:
    """What all ratios grow by so that the elastic is no shorter than ``least`` mm; it is never laid on longer than the
    edge for that.
    """
    usual, flat = cut_length(list(zip(lengths, asked, strict=True)), 0.0), sum(lengths)
    return max(1.0, min(least, flat) / usual)


def _ends(garment: Garment, run: Run) -> float:
    """What an open run takes at its two ends: caught in a seam that is sewn after it, else turned under."""
    if run.finish.kind is FinishKind.STRAP:
        return finish_row(run.finish).overlap
    return sum(
        _caught_in(garment, seam) if caught(garment, seam) else float(defaults.ELASTIC_TURNED_END)
        for seam in (run.before, run.after)
    )


def _caught_in(garment: Garment, seam: SeamKind | None) -> float:
    """How much of an end (mm) lies in a seam, or in the edge of an open side."""
    side = garment.design.finishes.side
    if seam is SeamKind.OPEN_SIDE and side is not None:
        return max(0.0, edge_allowance(side))
    return garment.design.allowances.seam


def caught(garment: Garment, seam: SeamKind | None) -> bool:
    """Whether a run that ends at ``seam`` is caught in it. A gusset with a lining is closed at both ends before its
    leg edge can be sewn, so there the end is turned under instead; and so it is where a strip is let in over the side
    seam, which must be closed for that.
    """
    if seam is SeamKind.SIDE and any(piece.part.laid_on and piece.part.covers == "side" for piece in garment.pieces):
        return False
    if seam in (SeamKind.FRONT_GUSSET, SeamKind.BACK_GUSSET):
        return not any(piece.part.lining and piece.part.covers == "gusset" for piece in garment.pieces)
    return seam is not None


def _marks(run: Run, zones: Sequence[ElasticZone], ends: float) -> tuple[Mark, ...]:
    """Pins at every seam and centre the run passes, and in the middle of long zones. The first end's share comes
    before 0.
    """
    on_edge, on_elastic = 0.0, ends if run.closed else ends / 2.0
    marks = [Mark(_first_mark(run), 0.0, on_elastic)]
    joints = (*run.inner, run.loop.joints[-1] if run.closed else run.after)
    for zone, joint in zip(zones, joints, strict=True):
        for share in _shares(zone):
            place = _after(zone.zone, joint) if share == 1.0 else _within(zone.zone, share)
            marks.append(
                Mark(place, on_edge + share * zone.edge_length, on_elastic + share * zone.edge_length * zone.ratio)
            )
        on_edge += zone.edge_length
        on_elastic += zone.edge_length * zone.ratio
    return tuple(marks)


def _first_mark(run: Run) -> str:
    if run.closed:
        return _after(run.spans[-1].zone, run.loop.joints[-1])
    if run.before is None:
        return say("mark.end")
    before = _BEFORE.get(run.spans[0].zone) if run.before is SeamKind.SIDE else None
    return _after(before, run.before) if before else say("mark.seam", seam=run.before.one)


def _after(zone: str, joint: SeamKind | None) -> str:
    """What lies at the end of a zone: a seam, an open side, or a dot on the pattern where the cloth runs on."""
    if joint is SeamKind.OPEN_SIDE:
        return say("mark.seam", seam=joint.one)
    return say(f"mark.after.{zone}" if joint is not None or zone.endswith("waist") else f"mark.dot.{zone}")


def _within(zone: str, share: float) -> str:
    return say(f"mark.middle.{zone}") if share == 0.5 else say("mark.quarter")


def _shares(zone: ElasticZone) -> tuple[float, ...]:
    if zone.zone == "wrap_waist":
        return (0.25, 0.5, 0.75, 1.0)
    halved = zone.zone.endswith("waist") or zone.edge_length > defaults.MARK_EVERY
    return (0.5, 1.0) if halved else (1.0,)


def _says(garment: Garment, scale: float) -> str:
    if scale <= 1.0 + 1e-9:
        return ""
    return say("elastic.bounded", share=scale - 1.0)


def row_words(row: ElasticRow, unit: str) -> str:
    """One elastic in a sentence of its lengths."""
    return say(
        "elastic.row",
        kind=row.kind,
        edge=row.edge,
        cut=format_length(row.cut_length, unit),
        length=format_length(row.edge_length, unit),
    )
