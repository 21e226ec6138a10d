"""The strip packing library in a process of its own, so that a search can be ended at once.

Reads one JSON task from standard input: height, seconds, seed and items (id, shape, demand, orientations).
Writes one JSON line for every better layout: width, and for each placed outline id, rotation (degrees), x, y.
"""

from __future__ import annotations

import json
import os
import sys
import threading
from typing import Any


def main() -> None:
    """Solves the task; the last line is the final layout."""
    import spyrrow

    task = json.load(sys.stdin)
    items = [
        spyrrow.Item(i["id"], [(x, y) for x, y in i["shape"]], i["demand"], i["orientations"]) for i in task["items"]
    ]
    instance = spyrrow.StripPackingInstance("plan", task["height"], items)
    config = spyrrow.StripPackingConfig(
        early_termination=False,
        total_computation_time=task["seconds"],
        num_workers=2,
        seed=task["seed"],
    )
    queue, done, final = spyrrow.ProgressQueue(), threading.Event(), []

    def solve() -> None:
        final.append(instance.solve(config, queue))
        done.set()

    threading.Thread(target=solve, daemon=True).start()
    parent = os.getppid()
    while not done.wait(0.2):
        if os.getppid() != parent:  # whoever asked is gone
            return
        for kind, solution in queue.drain():
            if kind in (spyrrow.ReportType.ExplFeas, spyrrow.ReportType.CmprFeas):
                _write(solution)
    _write(final[0])


def _write(solution: Any) -> None:
    placed = [(p.id, p.rotation, p.translation[0], p.translation[1]) for p in solution.placed_items]
    print(json.dumps({"width": solution.width, "placed": placed}), flush=True)


if __name__ == "__main__":
    main()
