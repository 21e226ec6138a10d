"""Sorts operations so that none needs an edge that is already closed, always in the same way."""

from __future__ import annotations

import heapq
from collections.abc import Sequence

from galloon.errors import CannotMake
from galloon.sewing.bench import Operation


def in_order(operations: Sequence[Operation]) -> tuple[tuple[Operation, tuple[int, ...]], ...]:
    """Operations in sewing order, each with the numbers (from 1) of those it directly needs.

    An operation comes after those it names, after those that close what it needs closed, and before those that begin
    or close what it needs free; among what is ready, the lower stage first, then by the order given. Raises CannotMake
    where that goes round in a circle.
    """
    needs = _needs(operations)
    waiting = {index: set(before) for index, before in needs.items()}
    ready = [(operations[index].stage, index) for index, before in waiting.items() if not before]
    heapq.heapify(ready)
    done: list[int] = []
    while ready:
        _, index = heapq.heappop(ready)
        done.append(index)
        for other, before in waiting.items():
            if index in before:
                before.discard(index)
                if not before:
                    heapq.heappush(ready, (operations[other].stage, other))
    if len(done) < len(operations):
        stuck = [operation.key for index, operation in enumerate(operations) if index not in done]
        raise CannotMake("sewing order", "goes round in a circle", ", ".join(stuck))
    number = {index: place for place, index in enumerate(done, 1)}
    direct = _direct(needs, done)
    return tuple((operations[i], tuple(sorted(number[before] for before in direct[i]))) for i in done)


def _direct(needs: dict[int, set[int]], order: Sequence[int]) -> dict[int, set[int]]:
    """Needs without those that another need already brings along."""
    reached: dict[int, set[int]] = {}
    direct = {}
    for index in order:
        behind = set().union(*(reached[before] for before in needs[index]))
        direct[index] = needs[index] - behind
        reached[index] = needs[index] | behind
    return direct


def _needs(operations: Sequence[Operation]) -> dict[int, set[int]]:
    closer = {edge: index for index, operation in enumerate(operations) for edge in operation.closes}
    starter = {edge: index for index, operation in enumerate(operations) for edge in operation.begins}
    named = {operation.key: index for index, operation in enumerate(operations)}
    needs: dict[int, set[int]] = {index: set() for index in range(len(operations))}
    for index, operation in enumerate(operations):
        needs[index] |= {closer[edge] for edge in operation.closed if edge in closer}
        needs[index] |= {named[key] for key in operation.after if key in named}
        for edge in operation.free:
            for later in (closer.get(edge, index), starter.get(edge, index)):
                if later != index:
                    needs[later].add(index)
        needs[index].discard(index)
    return needs
