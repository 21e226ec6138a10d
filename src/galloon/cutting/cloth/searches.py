"""Searches of the strip packing library, each seed in a process of its own."""

from __future__ import annotations

import contextlib
import json
import queue
import subprocess
import sys
import threading
from pathlib import Path
from typing import Any, Self

#: One search with two threads. Two with a thread each came out worse in 60 s on two cores, quiet, one run each: swim by
#: 2.7 points, shirts by 0.9.
_SEEDS = (3,)
#: Longest wait for news, s.
_WAIT = 0.1


class Searches:
    """The searches for one task (see ``worker``), which gives no seed; used in a ``with``, which ends them all."""

    def __init__(self, task: dict[str, Any]) -> None:
        self._news: queue.Queue[tuple[int, str | None]] = queue.Queue()
        self._running: dict[int, subprocess.Popen[str]] = {}
        for seed in _SEEDS:
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
        """The newest layout of each search that found one since the last time, after a short wait."""
        found = {}
        for seed, line in self._waiting():
            if line is not None:
                found[seed] = json.loads(line)
            else:
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
