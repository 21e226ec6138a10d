"""Classical instances of strip packing (sources beside the data): our layouts pass another engine's check, and what is
said to be a lower bound is under every layout that anybody has found.
"""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from galloon.cutting import Cloth, ClothPiece, ClothRules, bound_cloth, plan_cloth
from tests.support.clipper import outside, rectangle, too_near

FOLDER = Path(__file__).resolve().parents[2] / "data" / "nest"
#: Name, turns allowed, best known density in percent; those that turn by quarters are not for cloth.
KNOWN = [
    (name, turns, float(density))
    for name, turns, density in re.findall(
        r"^\| (\w+) \| \d+ \| ([\d/]+) \|[^|]*\|[^|]*\| ([\d.]+) \|", (FOLDER / "SOURCES.md").read_text(), re.M
    )
    if "90" not in turns.split("/")
]
RULES = ClothRules(clearance=0.0, tries=2)


def order(name):
    data = json.loads((FOLDER / f"{name}.json").read_text())
    scale = 1000.0 / data["strip_height"]
    return [
        ClothPiece(str(item["id"]), tuple((x * scale, y * scale) for x, y in item["shape"]["data"]), item["demand"])
        for item in data["items"]
    ]


@pytest.mark.parametrize(("name", "turns", "density"), KNOWN, ids=[name for name, *_ in KNOWN])
def test_the_lower_bound_lies_under_the_best_layout_known(name, turns, density):
    pieces, cloth = order(name), Cloth(1000.0, nap=turns == "0")
    area = sum(area_of(piece.outline) * piece.copies for piece in pieces)
    best_known = area / 1000.0 / (density / 100.0)
    assert bound_cloth(cloth, pieces, RULES) <= best_known * 1.0001


@pytest.mark.parametrize("name", ["albano", "shapes0"])
def test_another_engine_finds_no_overlap_in_our_layouts(name):
    pieces = order(name)
    plan = plan_cloth(Cloth(1000.0, nap=name == "shapes0"), pieces, RULES)
    outlines = [placed.outline for placed in plan.placed]
    assert len(outlines) == sum(piece.copies for piece in pieces)
    assert too_near(outlines, 0.0) == []
    assert outside(outlines, rectangle(plan.length, 1000.0)) == []


def area_of(ring):
    return abs(sum(x * v - u * y for (x, y), (u, v) in zip(ring, (*ring[1:], ring[0]), strict=True))) / 2
