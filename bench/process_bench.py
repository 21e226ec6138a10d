"""Whole processes as the maker starts them: time on the wall clock, peak memory of that process alone."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from functools import cache
from pathlib import Path

from bench.rows import NotMeasured, Row

ROOT = Path(__file__).resolve().parents[1]
GALLOON = Path(sys.executable).with_name("galloon")
BRIEF = ROOT / "examples" / "heron-hipster.toml"
LOAD_MAKE = "import galloon.cli.make, galloon.workflow"


def run(command: list[str], allowed: tuple[int, ...] = (0,)) -> tuple[float, float]:
    """Seconds and peak MB (resident) of one process, from the kernel's account of that child."""
    start = time.perf_counter()
    child = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    assert child.stderr
    said = child.stderr.read().decode(errors="replace").strip()
    _, status, usage = os.wait4(child.pid, 0)
    seconds = time.perf_counter() - start
    child.stderr.close()
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode not in allowed:
        raise NotMeasured(f"status {child.returncode}: {said.splitlines()[-1] if said else 'it said nothing'}")
    return seconds, usage.ru_maxrss / 1024


def runs(command: list[str], times: int, allowed: tuple[int, ...] = (0,)) -> list[tuple[float, float]]:
    """``times`` runs after one unmeasured one, which fills the file caches."""
    run(command, allowed)
    return [run(command, allowed) for _ in range(times)]


def help_seconds() -> list[float]:
    """`galloon --help`."""
    return [seconds for seconds, _ in runs([str(GALLOON), "--help"], 20)]


def start_seconds() -> list[float]:
    """Python started and everything loaded that `galloon make` loads before it works."""
    return [seconds for seconds, _ in runs([sys.executable, "-c", LOAD_MAKE], 12)]


@cache
def demo_runs() -> list[tuple[float, float]]:
    """The demo brief made into a new folder each time; status 3 (a check failed) is a whole run too."""
    if not BRIEF.is_file():
        raise NotMeasured(f"{BRIEF.relative_to(ROOT)} is not there")
    with tempfile.TemporaryDirectory() as folder:
        return runs([str(GALLOON), "make", str(BRIEF), "--out", f"{folder}/out"], 9, allowed=(0, 3))


ROWS = [
    Row("galloon --help", "the whole process", 0.15, "s", help_seconds),
    Row("make: start-up", "Python and all that `galloon make` loads before it works", 0.3, "s", start_seconds),
    Row("make: the demo", "the whole process, every file", 2.5, "s", lambda: [sec for sec, _ in demo_runs()]),
    Row("make: memory", "peak resident memory of that process", 250, "MB", lambda: [mb for _, mb in demo_runs()]),
]
