"""Leftovers: how often pieces planted in a random remnant are found again, and how long it takes.

Run: python bench/remnants.py [--seeds 40] [--density 0.85] [--pieces 7]
"""

from __future__ import annotations

import argparse
import math
import random
import statistics
import time

from shapely.affinity import scale, translate
from shapely.geometry import LineString, Polygon
from shapely.ops import split

from galloon.cutting import ClothPiece, Remnant, RemnantRules, plan_remnant


def remnant_shape(rng: random.Random) -> Polygon:
    """A ragged leftover about 600 mm by 400 mm with one hole."""
    points = []
    for k in range(14):
        angle = 2 * math.pi * k / 14
        reach = rng.uniform(0.8, 1.1)
        points.append((300 + 300 * reach * math.cos(angle), 200 + 200 * reach * math.sin(angle)))
    hole = translate(Polygon([(0, 0), (70, 10), (60, 60), (5, 50)]), rng.uniform(220, 300), rng.uniform(150, 200))
    return Polygon(points).difference(hole)


def planted(rng: random.Random, count: int, density: float) -> tuple[Polygon, list[Polygon]]:
    """A remnant cut into ``count`` cells by random lines, each shrunk until they fill ``density`` of it."""
    while True:
        shape = remnant_shape(rng)
        cells = [shape]
        while len(cells) < count:
            cells.sort(key=lambda cell: -cell.area)
            cell = cells.pop(0)
            centre, angle = cell.representative_point(), rng.uniform(0, math.pi)
            centre = cell.centroid if cell.contains(cell.centroid) else centre
            dx, dy = 2000 * math.cos(angle), 2000 * math.sin(angle)
            line = LineString([(centre.x - dx, centre.y - dy), (centre.x + dx, centre.y + dy)])
            cells += [part for part in split(cell, line).geoms if part.area > 1]
        if any(cell.interiors for cell in cells):
            continue
        low, high = 0.0, 40.0
        for _ in range(40):
            middle = (low + high) / 2
            area = sum(cell.buffer(-middle, join_style="mitre").area for cell in cells)
            low, high = (middle, high) if area > density * shape.area else (low, middle)
        small = [cell.buffer(-low, join_style="mitre") for cell in cells]
        if all(isinstance(cell, Polygon) and cell.area > 400 for cell in small):
            return shape, small


def pieces_of(cells: list[Polygon], rng: random.Random) -> list[ClothPiece]:
    """The cells as pieces to cut, some drawn turned, so that nothing tells where they came from."""
    pieces = []
    for number, cell in enumerate(cells):
        turn = rng.random() < 0.5
        drawn = scale(cell, -1, -1, origin=(0, 0)) if turn else cell
        pieces.append(ClothPiece(f"piece {number}", tuple(drawn.exterior.coords)))
    rng.shuffle(pieces)
    return pieces


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seeds", type=int, default=40)
    parser.add_argument("--density", type=float, default=0.85)
    parser.add_argument("--pieces", type=int, default=7)
    options = parser.parse_args()
    times, found = [], 0
    for seed in range(options.seeds):
        rng = random.Random(seed)
        shape, cells = planted(rng, options.pieces, options.density)
        remnant = Remnant(tuple(shape.exterior.coords), tuple(tuple(hole.coords)[:-1] for hole in shape.interiors))
        begun = time.perf_counter()
        fit = plan_remnant(remnant, pieces_of(cells, rng), RemnantRules(clearance=0.0))
        times.append(time.perf_counter() - begun)
        found += fit.fits and times[-1] <= 5.0
        print(
            f"seed {seed}: {'found' if fit.fits else 'not found'} in {times[-1]:.2f} s, use {fit.use:.3f}", flush=True
        )
    print(
        f"found within 5 s: {found} of {options.seeds}; "
        f"median {statistics.median(times):.2f} s, most {max(times):.2f} s"
    )


if __name__ == "__main__":
    main()
