import math
from itertools import pairwise

import pytest
from shapely import unary_union
from shapely.geometry import Polygon

from galloon.cutting import Cloth, ClothPiece, ClothRules, clashes
from galloon.cutting.cloth.compact import compacted
from galloon.cutting.cloth.convex import convex_parts
from galloon.cutting.cloth.fill import Spot, best_fill, grid_of, length_of
from galloon.cutting.cloth.items import items_of
from galloon.cutting.cloth.press import pressed
from galloon.cutting.outlines import checked_ring, shifted

from .shapes import BACK, FRONT, INSET, PEG, SIDE

WAVE = (*((10.0 * n, 20.0 * math.sin(n)) for n in range(20)), (190.0, 90.0), (0.0, 90.0))
STAR = tuple((r * math.cos(k * math.pi / 5), r * math.sin(k * math.pi / 5)) for k, r in enumerate([100.0, 40.0] * 5))
BOX = ((0, 0), (50, 0), (100, 0), (100, 100), (0, 100))
#: With its long side on the selvedge the next one begins where it ends; further across it begins sooner.
WEDGE = ((0, 0), (200, 0), (0, 100))


def grid(pieces, width, clearance=2.0, **cloth):
    rules = ClothRules(clearance=clearance)
    lying = Cloth(width, **cloth)
    return grid_of(items_of(lying, tuple(pieces), rules), lying.lying, rules.clearance)


def laid(made, spots):
    return [shifted(item.poses[s.pose].outline, s.x, s.y) for item, s in zip(made.items, spots, strict=True)]


def good(made, spots):
    outlines = laid(made, spots)
    return clashes(outlines, made.clearance) == [] and all(
        x > -1e-6 and -1e-6 < y < made.width + 1e-6 for ring in outlines for x, y in ring
    )


@pytest.mark.parametrize("shape", [BACK, FRONT, INSET, PEG, SIDE, WAVE, STAR, BOX])
def test_convex_parts_fill_the_outline_and_do_not_overlap(shape):
    ring = checked_ring("shape", shape)
    parts = [Polygon(part) for part in convex_parts(ring)]
    assert all(part.exterior.is_ccw and part.convex_hull.area == pytest.approx(part.area) for part in parts)
    assert sum(part.area for part in parts) == pytest.approx(Polygon(ring).area)
    assert unary_union(parts).symmetric_difference(Polygon(ring)).area < 1e-6


def test_a_convex_outline_is_one_part_and_a_star_no_more_than_it_must_be():
    assert len(convex_parts(checked_ring("box", BOX))) == 1
    assert len(convex_parts(checked_ring("star", STAR))) <= 6


def test_pieces_in_a_row_end_up_at_the_blades_clearance():
    made = grid([ClothPiece("box", BOX, copies=3)], 100)
    spots = compacted(made, [Spot(0, 150.0 * n, 0.0) for n in range(3)])
    assert length_of(made, spots) == pytest.approx(304.0, abs=0.01)
    assert [b.x - a.x for a, b in pairwise(spots)] == pytest.approx([102.0, 102.0], abs=1e-6)
    assert good(made, spots)


def test_pieces_move_across_where_sliding_along_gains_nothing():
    made = grid([ClothPiece("wedge", WEDGE, copies=2)], 130, clearance=0.0, nap=True)
    start = pressed(made, (Spot(0, 0.0, 0.0), Spot(0, 250.0, 0.0)))
    spots = compacted(made, start)
    assert length_of(made, start) == pytest.approx(400.0)
    assert length_of(made, spots) == pytest.approx(340.0, abs=0.02)  # 30 across, at a slope of 1 in 2
    assert good(made, spots)


@pytest.mark.parametrize("width", [300, 450, 700])
def test_every_compacted_layout_is_clear_never_longer_and_turns_nothing(width):
    pieces = [ClothPiece(f"p{n}", shape, copies=2) for n, shape in enumerate((BACK, FRONT, INSET, SIDE, WAVE, STAR))]
    made = grid(pieces, width)
    start = pressed(made, best_fill(made, 3, 0.0))
    spots = compacted(made, start)
    assert good(made, spots)
    assert length_of(made, spots) <= length_of(made, start) + 1e-6
    assert [s.pose for s in spots] == [s.pose for s in start]


def test_a_trace_of_overlap_is_repaired():
    made = grid([ClothPiece("box", BOX, copies=4)], 200, clearance=0.0)
    start = tuple(Spot(0, x, y) for x in (0.0, 99.95) for y in (0.0, 99.9))
    spots = compacted(made, start)
    assert not good(made, start)
    assert good(made, spots)
    assert length_of(made, spots) == pytest.approx(200.0, abs=1e-4)


def test_a_half_piece_stays_on_the_fold():
    half = ClothPiece("half front", FRONT, copies=2, on_fold=True)
    made = grid([half, ClothPiece("side", SIDE, copies=4)], 900, folded=True)
    spots = compacted(made, pressed(made, best_fill(made, 3, 0.0)))
    assert [s.y for s, item in zip(spots, made.items, strict=True) if item.fold] == [0.0, 0.0]
    assert good(made, spots)


def test_no_round_is_begun_once_asked_to_stop():
    made = grid([ClothPiece("box", BOX, copies=2)], 100)
    start = (Spot(0, 0.0, 0.0), Spot(0, 300.0, 0.0))
    assert compacted(made, start, stop=lambda: True) == start
