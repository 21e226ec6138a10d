"""Motifs are placed clear of seams, grow together where they overlap, and take from the stretch of their courses."""

import math
from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from galloon.checks import Evidence, judge
from galloon.checks.applique import largest_scale
from galloon.checks.courses import rings_of, worst_course
from galloon.defaults import MOTIF_CLEAR
from galloon.design import Drops, LaceUse, Motif, Style, Use
from galloon.findings import Status
from galloon.workflow import reckon_design
from galloon.workflow.reckon import make_garment
from tests.support.designs import design
from tests.support.laid import area, assert_laid
from tests.support.sound import wearers

LEAF = ((0.0, -20.0), (12.0, -5.0), (9.0, 12.0), (0.0, 22.0), (-9.0, 12.0), (-12.0, -5.0))
USE = LaceUse(Use.APPLIQUE, "heron", ("front", "back"))
LOW = Style(waist_drop=Drops.level(40.0))


def block(wide, high):
    return ((-wide / 2, -high / 2), (wide / 2, -high / 2), (wide / 2, high / 2), (-wide / 2, high / 2))


def made(*motifs, use=USE, style=LOW, **changes):
    return make_garment(design(uses=[use], style=style, motifs=motifs, **changes))


def findings(garment, name):
    return [found for found in judge(Evidence(garment)) if found.name == name]


def laid_pieces(garment):
    return [piece for piece in garment.pieces if piece.part.laid_on]


@st.composite
def motifs(draw):
    reach = draw(st.lists(st.floats(4.0, 40.0), min_size=3, max_size=9))
    turns = [2.0 * math.pi * i / len(reach) for i in range(len(reach))]
    ring = tuple((r * math.cos(t), r * math.sin(t)) for r, t in zip(reach, turns, strict=True))
    at = draw(st.none() | st.tuples(st.floats(-200.0, 200.0), st.floats(-280.0, -20.0)))
    panel = draw(st.sampled_from(["front", "back"]))
    return Motif(ring, panel, "", at, draw(st.floats(-180.0, 180.0)), draw(st.booleans()), draw(st.booleans()))


@given(wearers(), st.lists(motifs(), min_size=1, max_size=4), st.booleans(), st.sampled_from(["", "straight"]))
@settings(max_examples=60, deadline=None)
def test_any_motifs_can_be_cut_and_sewn_or_say_why_not(wearer, some, seam, stitch):
    style = Style(waist_drop=Drops.level(40.0), centre_back_seam=seam)
    garment = make_garment(design(wearer, uses=[replace(USE, stitch=stitch)], style=style, motifs=tuple(some)))
    assert_laid(garment)
    assert len(laid_pieces(garment)) <= 2 * len(some)


def test_a_motif_lies_where_the_maker_puts_it():
    garment = made(Motif(LEAF, "front", at=(80.0, -120.0), turn=90.0))
    piece = garment.piece("front motif")
    wanted = [complex(x, y) * 1j + complex(80.0, -120.0) for x, y in LEAF]
    assert shapely.symmetric_difference(area(piece.stitch), area(wanted)).area < 1.0
    assert piece.part.quantity == 1
    assert {one.half for one in garment.piece("front").part.laid} == {"right"}


def test_mirrored_it_is_cut_twice_and_lies_on_both_halves():
    garment = made(Motif(LEAF, "front", at=(80.0, -120.0), mirrored=True))
    piece = garment.piece("front motif")
    assert (piece.part.quantity, piece.part.mirrored) == (2, True)
    assert [one.half for one in garment.piece("front").part.laid] == ["both"]


def test_on_the_centre_line_one_that_is_its_own_mirror_image_is_cut_whole():
    piece = made(Motif(LEAF, "front", at=(0.0, -120.0), mirrored=True)).piece("front motif")
    assert (piece.part.quantity, piece.part.fold) == (1, None)
    assert np.ptp(piece.stitch.real) == pytest.approx(24.0)


def test_overlapping_motifs_make_one_solid_piece():
    one, other = (Motif(LEAF, "front", at=at) for at in ((80.0, -120.0), (90.0, -130.0)))
    garment = made(one, other)
    piece = garment.piece("front motif")
    assert len(laid_pieces(garment)) == 1
    shapes = [area([complex(x, y) + complex(*m.at) for x, y in LEAF]) for m in (one, other)]
    assert area(piece.stitch).area == pytest.approx(shapely.union_all(shapes).area, rel=1e-6)
    assert garment.placements[0].figures["motifs"] == 2.0


def test_without_a_place_they_are_arranged_clear_of_seams_edges_and_each_other():
    garment = made(*(Motif(LEAF, "back", mirrored=True) for _ in range(3)))
    back, pieces = garment.piece("back"), laid_pieces(garment)
    shapes = [area(piece.stitch) for piece in pieces]
    assert len(shapes) == 3
    for edge in back.edges:
        if edge.name == back.part.fold:
            continue
        line = shapely.LineString([(z.real, z.imag) for z in back.edge_points(edge.name)])
        least = MOTIF_CLEAR + abs(edge.allowance)
        assert min(shapely.distance(line, shape) for shape in shapes) >= least - 0.2
    apart = [shapely.distance(a, b) for i, a in enumerate(shapes) for b in shapes[:i]]
    assert min(apart) >= MOTIF_CLEAR - 0.1


def test_one_that_leaves_the_panel_is_refused_and_told_by_how_much():
    garment = made(Motif(block(60.0, 60.0), "front", at=(0.0, -30.0)))
    found = findings(garment, "applique")[0]
    assert found.status is Status.FAIL
    assert found.value == pytest.approx(40.0, abs=2.0)
    assert not laid_pieces(garment)


def test_one_across_a_centre_seam_is_refused():
    style = Style(waist_drop=Drops.level(40.0), centre_front_seam=True)
    found = findings(made(Motif(LEAF, "front", at=(3.0, -120.0)), style=style), "applique")[0]
    assert found.status is Status.FAIL
    assert "centre seam" in found.says


def test_one_too_large_to_arrange_is_told():
    found = findings(made(Motif(block(600.0, 300.0), "front")), "applique")[0]
    assert found.status is Status.FAIL
    assert "finds no room" in found.says


@pytest.mark.parametrize(
    ("stretches", "stitch", "rigid"),
    [(False, "zigzag", True), (True, "straight", True), (True, "zigzag", False), (True, "", False)],
)
def test_a_straight_stitch_or_a_rigid_motif_carries_no_strain(stretches, stitch, rigid):
    motif = Motif(block(40.0, 40.0), "front", at=(80.0, -120.0), stretches=stretches)
    laid = made(motif, use=replace(USE, stitch=stitch)).piece("front").part.laid[0]
    assert laid.rigid is rigid


def test_beside_a_motif_the_cloth_takes_all_of_the_strain():
    """Exact: on a course of one cloth at the same tension, girth B = W_r + (G - W_r)(1 + e)."""
    garment = made(Motif(block(100.0, 20.0), "front", at=(0.0, -150.0)))
    course = worst_course(garment, rings_of(garment, "front motif"), "front")
    bands = 2.0 * (2.0 * garment.frame.front_hip - 2.0 * garment.frame.side.inset_at(-course.level))
    body = garment.design.wearer.hip - 4.0 * garment.frame.side.inset_at(-course.level) / (
        1.0 - garment.reductions.girth
    )
    assert course.strain == pytest.approx((body - 100.0) / (bands - 100.0) - 1.0, rel=0.01)


def test_a_stretching_motif_takes_less_of_it_than_a_rigid_one():
    strains = []
    for stretches in (False, True):
        garment = made(Motif(block(200.0, 60.0), "front", at=(0.0, -150.0), stretches=stretches))
        strains.append(worst_course(garment, rings_of(garment, "front motif"), "front").strain)
    plain = made(Motif(block(4.0, 4.0), "front", at=(0.0, -150.0)))
    none = worst_course(plain, rings_of(plain, "front motif"), "front").strain
    assert none < strains[1] < strains[0]


def test_too_large_a_cluster_is_told_with_the_largest_that_still_passes():
    garment = made(Motif(block(130.0, 20.0), "front", at=(0.0, -200.0)))
    found = findings(garment, "applique leaves stretch")[0]
    assert found.status is not Status.PASS
    scale = largest_scale(garment, "front motif", "front")
    assert 0.0 < scale < 1.0
    assert f"{scale:.0%} of its size" in found.says
    smaller = made(Motif(block(0.99 * scale * 130.0, 0.99 * scale * 20.0), "front", at=(0.0, -200.0)))
    assert findings(smaller, "applique leaves stretch")[0].status is Status.PASS
    larger = made(Motif(block(1.03 * scale * 130.0, 1.03 * scale * 20.0), "front", at=(0.0, -200.0)))
    assert findings(larger, "applique leaves stretch")[0].status is not Status.PASS


def test_a_motif_of_its_own_cloth_needs_no_use():
    garment = make_garment(design(style=LOW, motifs=(Motif(LEAF, "back", "heron"),)))
    assert garment.piece("back motif").part.cloth == "heron"


def test_motifs_are_cut_from_their_lace_and_bought():
    everything = reckon_design(design(uses=[USE], style=LOW, motifs=(Motif(LEAF, "back", mirrored=True),)))
    rows = {row.cloth: row.plan for row in everything.cutting}
    assert [placed.piece for placed in rows["heron"].placed] == ["back motif"] * 2
    assert any(row.cloth == "heron" and row.need > 0.0 for row in everything.shopping)
    step = next(step for step in everything.sewing if step.key == "laid back motif")
    assert step.stitch == "304"
    assert "mirror-image" in step.do


def test_an_applique_without_motifs_is_told():
    assert findings(made(), "applique")[0].status is Status.FAIL
