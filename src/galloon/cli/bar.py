"""A progress bar on one line of a terminal, shown only once the work takes a while."""

from __future__ import annotations

import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final, TextIO

#: Work shorter than this many seconds shows nothing; the bar is painted this often.
PATIENCE: Final = 1.0
_EVERY: Final = 0.1
_WIDTH: Final = 24
_CLEAR: Final = "\r\x1b[2K"

Told = Callable[[str, int, int], None]


@contextmanager
def bar(stream: TextIO | None = None, *, patience: float = PATIENCE) -> Iterator[Told]:
    """Yields ``told(step, done, count)``, to be called often; the line is wiped at the end.

    Writes to ``stream`` (stderr unless given) and stays silent where that is no terminal.
    """
    out = stream or sys.stderr
    if not out.isatty():
        yield lambda step, done, count: None
        return
    due, painted = time.monotonic() + patience, False

    def told(step: str, done: int, count: int) -> None:
        nonlocal due, painted
        now = time.monotonic()
        if now >= due:
            out.write(f"{_CLEAR}{drawn(step, done, count)}")
            out.flush()
            due, painted = now + _EVERY, True

    try:
        yield told
    finally:
        if painted:
            out.write(_CLEAR)
            out.flush()


def drawn(step: str, done: int, count: int) -> str:
    """The bar as text: ``Reckoning designs [######......] 120 of 480``."""
    full = round(_WIDTH * done / max(1, count))
    return f"{step} [{'#' * full}{'.' * (_WIDTH - full)}] {done} of {count}"
