"""Classical irregular strip packing instances: density reached in a given time, beside the best known.

Run: python bench/nest.py FOLDER [--seconds 60] [--only swim shirts albano]. FOLDER holds the instances with SOURCES.md,
from which the best known densities are read. Instances that turn pieces by quarter turns are left out: a garment piece
keeps its direction. Lengths are scaled so that the strip is 1000 mm wide.
"""

from __future__ import annotations

import argparse
import json
import re
import time
from pathlib import Path

from galloon.cutting import Cloth, ClothPiece, ClothRules, Plan, clashes, plan_cloth, plan_cloth_longer

RULES = ClothRules(clearance=0.0)


def load(path: Path) -> tuple[Cloth, list[ClothPiece]]:
    """An instance as cloth and pieces."""
    data = json.loads(path.read_text())
    scale = 1000.0 / data["strip_height"]
    turns = {tuple(item["allowed_orientations"]) for item in data["items"]}
    pieces = [
        ClothPiece(f"{item['id']}", tuple((x * scale, y * scale) for x, y in item["shape"]["data"]), item["demand"])
        for item in data["items"]
    ]
    return Cloth(1000.0, nap=turns == {(0.0,)}), pieces


def best_known(folder: Path) -> dict[str, float]:
    """Density in percent by instance, from the table in SOURCES.md; quarter-turn instances left out."""
    rows = re.findall(
        r"^\| (\w+) \| \d+ \| ([\d/]+) \|[^|]*\|[^|]*\| ([\d.]+) \|", (folder / "SOURCES.md").read_text(), re.M
    )
    return {name: float(density) for name, turns, density in rows if "90" not in turns.split("/")}


def show(name: str, kind: str, plan: Plan, best: float, seconds: float) -> None:
    wrong = clashes([placed.outline for placed in plan.placed], RULES.clearance)
    print(
        f"{name:8} {kind:8} density {100 * plan.use:.2f} %, best known {best:.2f} %, "
        f"behind {best - 100 * plan.use:.2f} points, clashes {len(wrong)}, {seconds:.1f} s",
        flush=True,
    )


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--seconds", type=float, default=60.0)
    parser.add_argument("--only", nargs="+")
    parser.add_argument("--longer", action="store_true", help="leave out the default plan")
    options = parser.parse_args()
    for name, best in best_known(options.folder).items():
        if options.only and name not in options.only:
            continue
        cloth, pieces = load(options.folder / f"{name}.json")
        for kind, plan in (
            ("default", lambda c, p: plan_cloth(c, p, RULES)),
            ("longer", lambda c, p: plan_cloth_longer(c, p, RULES, seconds=options.seconds)),
        ):
            if options.longer and kind == "default":
                continue
            begun = time.perf_counter()
            made = plan(cloth, pieces)
            show(name, kind, made, best, time.perf_counter() - begun)


if __name__ == "__main__":
    main()
