"""Shows which step is under way, on a terminal only and only when it takes a while."""

from __future__ import annotations

import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Final, TextIO

#: A step shorter than this many seconds shows nothing.
PATIENCE: Final = 1.0
_CLEAR: Final = "\r\x1b[2K"


@contextmanager
def progress(stream: TextIO | None = None, *, patience: float = PATIENCE) -> Iterator[Callable[[str], None]]:
    """Yields ``step(name)``, to be called as each step begins; the line is wiped at the end.

    Writes to ``stream`` (stderr unless given) and stays silent where that is no terminal.
    """
    out = stream or sys.stderr
    if not out.isatty():
        yield lambda name: None
        return
    line = _Line(out, patience)
    painter = threading.Thread(target=line.paint, daemon=True)
    painter.start()
    try:
        yield line.step
    finally:
        line.done.set()
        painter.join()
        line.wipe()


class _Line:
    """The one line being painted; the step is set by the worker and read by the painter."""

    def __init__(self, out: TextIO, patience: float) -> None:
        self.out = out
        self.patience = patience
        self.done = threading.Event()
        self.current = ("", time.monotonic())
        self.painted = False

    def step(self, name: str) -> None:
        """A new step begins."""
        self.current = (name, time.monotonic())

    def paint(self) -> None:
        """Repaints until done."""
        while not self.done.wait(self.patience / 5):
            name, since = self.current
            seconds = time.monotonic() - since
            if name and seconds >= self.patience:
                self.out.write(f"{_CLEAR}{name} … {seconds:.0f} s")
                self.out.flush()
                self.painted = True

    def wipe(self) -> None:
        """Leaves the line empty."""
        if self.painted:
            self.out.write(_CLEAR)
            self.out.flush()
