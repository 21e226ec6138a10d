"""Sews the steps over again on paper: is every edge there and open when it is needed, and closed exactly once at the
end.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from galloon.findings import Finding, Status
from galloon.pieces import Garment
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
            yield _fault(step, f"is numbered {step.step} but stands at place {place}")
        for need in step.needs:
            if not 0 < need < step.step:
                yield _fault(step, f"needs step {need}, which does not come before it")
        for name in step.pieces:
            if name not in pieces:
                yield _fault(step, f"names a piece that is not there: {name}")
        yield from _edge_faults(step, there, closed)
        for edge in (*step.free, *step.begins):
            if edge in begun:
                yield _fault(step, f"needs the edge {edge}, which step {begun[edge]} has begun")
        begun.update(dict.fromkeys(step.begins, step.step))
        closed.update(dict.fromkeys(step.edges, step.step))
    for edge in sorted(there - set(closed)):
        says = f"The edge {edge} is never sewn or finished."
        yield Finding("sewing order", Status.FAIL, says, about=edge)


def _edge_faults(step: Step, there: set[str], closed: dict[str, int]) -> Iterator[Finding]:
    if len(set(step.edges)) < len(step.edges):
        yield _fault(step, "closes the same edge twice")
    for edge in (*step.edges, *step.free):
        if edge not in there:
            yield _fault(step, f"needs the edge {edge}, which is not there")
        elif edge in closed:
            yield _fault(step, f"needs the edge {edge}, which step {closed[edge]} has closed")
    for edge in step.closed:
        if edge not in closed:
            yield _fault(step, f"needs the edge {edge} sewn before it")


def _fault(step: Step, what: str) -> Finding:
    return Finding("sewing order", Status.FAIL, f"Step {step.step} ({step.title}) {what}.", about=f"step {step.step}")
