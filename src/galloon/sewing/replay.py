"""Sews the steps over again on paper: is every edge there and open when it is needed, and closed exactly once at the
end.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from galloon.findings import Finding, Status
from galloon.pieces import Garment
from galloon.said import Said, Term, said
from galloon.sewing.model import Step
from galloon.sewing.seams import sewable


def replay(garment: Garment, steps: Sequence[Step]) -> tuple[Finding, ...]:
    """Findings on what cannot be sewn in this order; empty where all can. Knows the garment and the steps, not how
    they came.
    """
    return tuple(_faults(garment, steps))


def _faults(garment: Garment, steps: Sequence[Step]) -> Iterator[Finding]:
    there = set(sewable(garment))
    pieces = {piece.name for piece in garment.pieces}
    closed: dict[str, int] = {}
    begun: dict[str, int] = {}
    for place, step in enumerate(steps, 1):
        if step.step != place:
            yield _fault(step, said("is numbered {number} but stands at place {place}", number=step.step, place=place))
        for need in step.needs:
            if not 0 < need < step.step:
                yield _fault(step, said("needs step {need}, which does not come before it", need=need))
        for name in step.pieces:
            if name not in pieces:
                yield _fault(step, said("names a piece that is not there: {piece}", piece=Term(name)))
        yield from _edge_faults(step, there, closed)
        for edge in (*step.free, *step.begins):
            if edge in begun:
                yield _fault(
                    step, said("needs the edge {edge}, which step {step} has begun", edge=Term(edge), step=begun[edge])
                )
        begun.update(dict.fromkeys(step.begins, step.step))
        closed.update(dict.fromkeys(step.edges, step.step))
    for edge in sorted(there - set(closed)):
        says = said("The edge {edge} is never sewn or finished.", edge=Term(edge))
        yield Finding("sewing order", Status.FAIL, says, about=edge)


def _edge_faults(step: Step, there: set[str], closed: dict[str, int]) -> Iterator[Finding]:
    if len(set(step.edges)) < len(step.edges):
        yield _fault(step, said("closes the same edge twice"))
    for edge in (*step.edges, *step.free):
        if edge not in there:
            yield _fault(step, said("needs the edge {edge}, which is not there", edge=Term(edge)))
        elif edge in closed:
            yield _fault(
                step, said("needs the edge {edge}, which step {step} has closed", edge=Term(edge), step=closed[edge])
            )
    for edge in step.closed:
        if edge not in closed:
            yield _fault(step, said("needs the edge {edge} sewn before it", edge=Term(edge)))


def _fault(step: Step, what: Said) -> Finding:
    says = said("Step {number} ({title}) {what}.", number=step.step, title=step.title, what=what)
    return Finding("sewing order", Status.FAIL, says, about=f"step {step.step}")
