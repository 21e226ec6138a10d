"""Spreads work over the cores: this process works along, the answers come back in the order of the items."""

from __future__ import annotations

import multiprocessing
import os
import signal
from collections.abc import Callable, Mapping, Sequence
from concurrent.futures import Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from multiprocessing.reduction import ForkingPickler
from types import MappingProxyType
from typing import Any, Generic, TypeVar

T = TypeVar("T")
R = TypeVar("R")
Span = tuple[int, int]

#: What a worker process holds: the work and all its items, sent once.
_held: tuple[Callable[[Any], Any], Sequence[Any]] = (lambda item: item, ())


def _frozen(table: dict[Any, Any]) -> Mapping[Any, Any]:
    return MappingProxyType(table)


def _as_dict(table: MappingProxyType[Any, Any]) -> tuple[Any, ...]:
    return _frozen, (dict(table),)


# Designs hold read-only tables, which Python does not send to another process by itself.
ForkingPickler.register(MappingProxyType, _as_dict)


def _hold(work: Callable[[Any], Any], items: Sequence[Any]) -> None:
    """A worker begins; an interrupt is for the process that gives out the work."""
    global _held
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _held = (work, items)


def _span(span: Span) -> list[Any]:
    work, items = _held
    return [work(item) for item in items[span[0] : span[1]]]


def cores() -> int:
    """How many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


class Spread(Generic[T, R]):
    """``work`` done on every item; ``told(done)`` is called now and then, ``cancelled()`` asked as often.

    ``work`` is a plain function of a module; items and answers can be sent to another process. Where no process can
    be started this one does it all.
    """

    def __init__(
        self,
        work: Callable[[T], R],
        items: Sequence[T],
        *,
        told: Callable[[int], None],
        cancelled: Callable[[], bool],
    ) -> None:
        self._work, self._items = work, items
        self._told, self._cancelled = told, cancelled
        self._done: dict[int, R] = {}

    def run(self, *, processes: int, chunk: int) -> dict[int, R]:
        """Answers by place of the item; all of them, unless cancelled."""
        spans = [(start, min(start + chunk, len(self._items))) for start in range(0, len(self._items), chunk)]
        if processes < 2 or len(spans) < 2:
            self._here((0, len(self._items)))
            return self._done
        context = multiprocessing.get_context("spawn")
        pool = ProcessPoolExecutor(processes - 1, context, _hold, (self._work, self._items))
        try:
            self._share(pool, spans)
        except BrokenProcessPool:
            self._here((0, len(self._items)))
        finally:
            pool.shutdown(wait=False, cancel_futures=True)
        return self._done

    def _share(self, pool: ProcessPoolExecutor, spans: Sequence[Span]) -> None:
        given = {pool.submit(_span, span): span for span in spans}
        for future, span in reversed(given.items()):
            if self._cancelled() or not future.cancel():
                break
            self._here(span, given)
        waiting = {future for future in given if not future.cancelled()}
        while waiting and not self._cancelled():
            waiting = wait(waiting, timeout=0.1).not_done
            self._take(given)

    def _here(self, span: Span, given: Mapping[Future[list[R]], Span] = MappingProxyType({})) -> None:
        """Works through a span in this process, those that are done already left out."""
        for place in range(*span):
            if self._cancelled():
                return
            if place not in self._done:
                self._done[place] = self._work(self._items[place])
                self._take(given)

    def _take(self, given: Mapping[Future[list[R]], Span]) -> None:
        for future, span in given.items():
            if span[0] not in self._done and future.done() and not future.cancelled():
                self._done.update(zip(range(*span), future.result(), strict=True))
        self._told(len(self._done))
