"""Measures every row of ``bench/*_bench.py`` and prints one table; a miss is printed, the exit status stays 0.

A new row: put ``ROWS = [Row(name, measures, goal, unit, measure)]`` (see ``rows.py``) into ``bench/NAME_bench.py``.
Each file runs in a process of its own, so that no row warms or swells another.
"""

from __future__ import annotations

import argparse
import importlib
import json
import os
import platform
import subprocess
import sys
from dataclasses import asdict
from pathlib import Path

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent))

from bench.rows import Result, result_of  # noqa: E402
from galloon.cli.render import table  # noqa: E402


def discovered(only: str) -> list[str]:
    """Names of the files with rows, those containing ``only``."""
    return [path.stem for path in sorted(HERE.glob("*_bench.py")) if only in path.stem]


def measured_here(name: str) -> list[Result]:
    """The rows of one file, measured in this process."""
    return [result_of(row) for row in importlib.import_module(f"bench.{name}").ROWS]


def measured_apart(name: str) -> list[Result]:
    """The rows of one file, measured in a process of their own."""
    command = [sys.executable, str(Path(__file__)), "--one", name]
    done = subprocess.run(command, stdout=subprocess.PIPE, text=True, check=False)
    if done.returncode:
        reason = f"the process ended with status {done.returncode}"
        return [Result(name, "the rows of this file", 0.0, "", "median", (), reason)]
    return [Result(**{**row, "samples": tuple(row["samples"])}) for row in json.loads(done.stdout.splitlines()[-1])]


def figure(value: float, unit: str) -> str:
    """A figure to three significant places with its unit."""
    return f"{value:.3g} {unit}".rstrip()


def printed(results: list[Result]) -> str:
    """The table."""
    header = ["row", "verdict", "goal", "median", "p95", "n", "what is measured"]
    rows = [
        [
            each.name,
            each.verdict,
            f"{each.statistic} ≤ {figure(each.goal, each.unit)}",
            figure(each.median, each.unit) if each.samples else "-",
            figure(each.p95, each.unit) if each.samples else "-",
            str(len(each.samples)),
            each.reason or each.measures,
        ]
        for each in results
    ]
    return table(header, rows, right=[3, 4, 5], width=150)


def main() -> None:
    """Reads the arguments, measures, prints."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("only", nargs="?", default="", help="measure only files whose name contains this")
    parser.add_argument("--one", help=argparse.SUPPRESS)
    asked = parser.parse_args()
    if asked.one:
        print(json.dumps([asdict(each) for each in measured_here(asked.one)]))
        return
    load = os.getloadavg()[0]
    print(f"Python {platform.python_version()}, {os.cpu_count()} cores, load {load:.1f} at the start")
    results = [each for name in discovered(asked.only) for each in measured_apart(name)]
    print(printed(results))
    missed = sum(each.verdict == "MISS" for each in results)
    unmeasured = sum(not each.samples for each in results)
    print(f"{len(results) - missed - unmeasured} reached, {missed} missed, {unmeasured} not measured")


if __name__ == "__main__":
    main()
