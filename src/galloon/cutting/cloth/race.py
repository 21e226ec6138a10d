"""Searches of the strip packing library, from several seeds at once, of which the worst are ended as time goes by.

What a search finds depends on its seed as much as on twice the time, and after a few seconds the order of the searches
tells something of their order at the end.
"""

from __future__ import annotations

import contextlib
import json
import math
import queue
import subprocess
import sys
import threading
import time
from pathlib import Path
from typing import Any, Self

#: Seeds that begin, and how many searches go on after which share of the time: two at last, on two cores.
_SEEDS = (3, 1, 5, 2, 4, 6)
_GO_ON = ((0.15, 3), (0.35, 2))
#: With fewer seconds than this a race is not worth its start: two searches run to the end.
_LEAST = 15.0
#: Longest wait for news, s.
_WAIT = 0.1


class Race:
    """The searches for one task (see ``worker``), which gives no seed; used in a ``with``, which ends them all."""

    def __init__(self, task: dict[str, Any], seconds: float) -> None:
        seeds = _SEEDS if seconds >= _LEAST else _SEEDS[:2]
        self._begun, self._seconds = time.monotonic(), seconds
        self._news: queue.Queue[tuple[int, str | None]] = queue.Queue()
        self._shortest = dict.fromkeys(seeds, math.inf)
        self._running: dict[int, subprocess.Popen[str]] = {}
        for seed in seeds:
            self._running[seed] = _started({**task, "seed": seed})
            threading.Thread(target=self._read, args=(seed, self._running[seed]), daemon=True).start()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        for seed in list(self._running):
            self._end(seed)

    @property
    def running(self) -> int:
        """How many searches go on."""
        return len(self._running)

    def news(self) -> dict[int, dict[str, Any]]:
        """The newest layout of each search that found one since the last time, after a short wait.

        Ends the searches that fall behind.
        """
        found = {}
        for seed, line in self._waiting():
            if line is not None:
                found[seed] = json.loads(line)
                self._shortest[seed] = min(self._shortest[seed], found[seed]["width"])
            elif seed in self._running:
                self._end(seed)
        gone = time.monotonic() - self._begun
        keep = min((count for share, count in _GO_ON if gone > share * self._seconds), default=len(self._running))
        for seed in sorted(self._running, key=lambda one: self._shortest[one])[keep:]:
            self._end(seed)
        return found

    def _waiting(self) -> list[tuple[int, str | None]]:
        found = []
        with contextlib.suppress(queue.Empty):
            found.append(self._news.get(timeout=_WAIT))
            while True:
                found.append(self._news.get_nowait())
        return found

    def _read(self, seed: int, process: subprocess.Popen[str]) -> None:
        assert process.stdout is not None
        for line in process.stdout:
            self._news.put((seed, line))
        self._news.put((seed, None))

    def _end(self, seed: int) -> None:
        process = self._running.pop(seed)
        process.kill()
        process.wait()


def _started(task: dict[str, Any]) -> subprocess.Popen[str]:
    # By its file, not as a module of the package, so that nothing but the library is loaded.
    worker = Path(__file__).with_name("worker.py")
    process = subprocess.Popen(
        [sys.executable, "-P", str(worker)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    )
    assert process.stdin is not None
    process.stdin.write(json.dumps(task))
    process.stdin.close()
    return process
