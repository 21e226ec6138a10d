"""A layout in whole numbers, its true length, and its turning into a plan with outlines."""

from __future__ import annotations

from dataclasses import dataclass

from galloon.cutting.limits import area_bound, longest
from galloon.cutting.model import Placed, Plan
from galloon.cutting.outlines import Ring, area, clashes, shifted
from galloon.cutting.strip.offsets import Offsets
from galloon.cutting.strip.problem import Problem, Spot
from galloon.errors import CannotMake
from galloon.tolerance import CUT_STEP


@dataclass(frozen=True)
class Lie:
    """Where one copy lies: the number of its spot and the step along the lace."""

    spot: int
    step: int


#: One Lie per copy, in the order of the problem's copies.
Layout = tuple[Lie, ...]


def spots_of(problem: Problem, layout: Layout) -> list[Spot]:
    """The spot each copy lies on."""
    return [copy.spots[lie.spot] for copy, lie in zip(problem.copies, layout, strict=True)]


def ends_of(problem: Problem, offsets: Offsets, layout: Layout) -> tuple[float, float]:
    """Where the first outline begins and the last one ends, mm on the lace's own phase scale."""
    spots = spots_of(problem, layout)
    first = min(offsets.starts[s.shape] + problem.unit * lie.step for s, lie in zip(spots, layout, strict=True))
    last = max(offsets.ends[s.shape] + problem.unit * lie.step for s, lie in zip(spots, layout, strict=True))
    return first, last


def length_of(problem: Problem, offsets: Offsets, layout: Layout) -> float:
    """Length of lace the layout takes, mm."""
    first, last = ends_of(problem, offsets, layout)
    return last - first


def outlines_of(problem: Problem, layout: Layout, begin: float) -> list[Ring]:
    """The outlines in cloth coordinates, with ``begin`` on the phase scale as x = 0."""
    return [
        shifted(problem.shapes[spot.shape], problem.unit * lie.step - begin, 0.0)
        for spot, lie in zip(spots_of(problem, layout), layout, strict=True)
    ]


def plan_of(problem: Problem, offsets: Offsets, layout: Layout, bound: float, says: str) -> Plan:
    """The plan of a layout, after checking it once more by true distances between the outlines."""
    first, last = ends_of(problem, offsets, layout)
    outlines = outlines_of(problem, layout, first)
    wrong = clashes(outlines, problem.rules.clearance)
    if wrong:
        raise CannotMake("the strip layout", "failed its own check for overlaps", wrong)
    length = last - first
    low = min(length, max(bound, area_bound(outlines, problem.lace.width), longest(outlines)))
    proven = low >= length - 2.5 * CUT_STEP
    binds = any(piece.matched or piece.on_edge for piece in problem.pieces)
    return Plan(
        width=problem.lace.width,
        length=length,
        lower_bound=length if proven else low,
        proven=proven,
        grid=problem.unit,
        use=sum(map(area, outlines)) / (problem.lace.width * length),
        placed=_placed(problem, layout, outlines),
        start=first % problem.lace.repeat if binds else None,
        says=says,
    )


def _placed(problem: Problem, layout: Layout, outlines: list[Ring]) -> tuple[Placed, ...]:
    placed = []
    for copy, spot, outline in zip(problem.copies, spots_of(problem, layout), outlines, strict=True):
        piece, way = problem.pieces[copy.piece], spot.way
        edge = ("upper" if way.upper else "lower") if piece.on_edge else "inside"
        placed.append(Placed(piece.name, copy.number, way.flip, edge, way.upper, outline, way.other_side))
    return tuple(placed)
