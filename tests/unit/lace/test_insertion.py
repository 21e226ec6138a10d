"""A strip let in over a seam follows it as far as it can be eased, and says how far that is."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from galloon.checks import Evidence, judge
from galloon.checks.girth import hip_bands
from galloon.defaults import EASE_SHARE
from galloon.design import Drops, LaceUse, Style, Use
from galloon.findings import Status
from galloon.geometry import length_of
from galloon.lace.seam_line import Flank, ease, flanks_of
from galloon.materials import Cloth, Edges, Kind, LaceEdges, Scallops, SecondEdge
from galloon.sewing import sewing_steps
from galloon.workflow import reckon_design
from galloon.workflow.reckon import make_garment
from tests.support.designs import design, scalloped
from tests.support.laid import area, assert_laid
from tests.support.sound import wearers


def strip_lace(width=50.0, stretch=0.5, *, scalloped=True):
    edge = Scallops(20.0, 6.0)
    edges = (
        LaceEdges(Edges.DOUBLE, edge, edge, 20.0, True, SecondEdge.MIRROR) if scalloped else LaceEdges(Edges.STRAIGHT)
    )
    whole = width + (12.0 if scalloped else 0.0)
    return Cloth("strip", Kind.LACE, whole, stretch, 0.2, recovery=0.92, lace=edges, openness=0.5)


def over(seam="side", **keys):
    return LaceUse(Use.INSERTION, "strip", ("front", "back"), over_seam=seam, **keys)


def made(use=None, cloth=None, style=None, **changes):
    style = style or Style(waist_drop=Drops.level(60.0), side_forward=50.0)
    return make_garment(design(uses=[use or over()], cloths=[cloth or strip_lace()], style=style, **changes))


def findings(garment, name):
    return [found for found in judge(Evidence(garment)) if found.name == name]


@given(
    wearers(),
    st.floats(15.0, 120.0),
    st.floats(0.0, 1.0),
    st.booleans(),
    st.sampled_from(["side", "centre front", "centre back"]),
    st.floats(0.0, 90.0),
    st.floats(0.0, 100.0),
    st.floats(0.0, 40.0),
)
@settings(max_examples=60, deadline=None)
def test_every_strip_can_be_cut_and_sewn_or_says_why_not(wearer, width, stretch, scallops, seam, forward, drop, shape):
    style = Style(
        waist_drop=Drops.level(drop),
        side_forward=forward,
        centre_back_seam=True,
        centre_front_seam=True,
        centre_back_shape=shape,
    )
    cloth = strip_lace(width, stretch, scalloped=scallops)
    garment = make_garment(design(wearer, uses=[over(seam)], cloths=[cloth], style=style))
    assert_laid(garment)
    laid = any(piece.part.laid_on for piece in garment.pieces)
    assert laid or any(found.status is Status.FAIL and "insertion" in found.name for found in garment.notes)


def test_the_strip_has_its_middle_on_the_seam_and_half_lies_on_each_side():
    garment = made()
    for name in ("front", "back"):
        piece = garment.piece(name)
        laid = piece.part.laid[0]
        seam = shapely.LineString([(z.real, z.imag) for z in piece.edge_points("side")])
        assert shapely.hausdorff_distance(shapely.boundary(area(laid.ring)), seam) < 60.0
        inner = [z for z in laid.ring if seam.distance(shapely.Point(z.real, z.imag)) > 24.0]
        assert max(seam.distance(shapely.Point(z.real, z.imag)) for z in inner) == pytest.approx(25.0, abs=1.0)
        assert laid.cut_away


def test_it_is_cut_once_for_each_side_with_both_scallops_beyond_its_edges():
    piece = made().piece("side insertion")
    assert (piece.part.quantity, piece.part.mirrored, piece.part.laid_on) == (2, True, ("front", "back"))
    assert np.ptp(piece.stitch.real) == pytest.approx(50.0, abs=1e-6)
    assert np.ptp(piece.cut.real) == pytest.approx(62.0, abs=0.2)


def test_its_ends_follow_waist_and_leg_and_take_their_allowances():
    piece = made().piece("side insertion")
    assert {edge.name for edge in piece.edges} == {
        "front leg", "back leg", "back", "back waist", "front waist", "front"
    }  # fmt: skip
    assert piece.edge("front leg").sewn_to == "front/leg"
    assert piece.edge("back waist").allowance == made().piece("back").edge("waist").allowance


def test_no_strip_is_longer_than_its_shortest_line_and_the_rest_is_stretched():
    garment = made()
    flanks = flanks_of("side", garment.parts)
    lengths = [flanks[0].length, *(length_of(flank.parallel(25.0)) for flank in flanks)]
    figures = garment.placements[0].figures
    assert figures["strip_length"] == pytest.approx(min(lengths), abs=1e-6)
    assert figures["seam_length"] == pytest.approx(flanks[0].length)


def arc(radius, degrees):
    turn = np.radians(np.linspace(0.0, degrees, 400))
    return radius * np.exp(1j * turn) - radius


@given(st.floats(60.0, 400.0), st.floats(5.0, 25.0))
@settings(max_examples=40, deadline=None)
def test_on_a_round_seam_the_edges_differ_as_the_radii_do(radius, half):
    """Exact: lines beside an arc of radius r are as long as their radii say, (r - h) : r."""
    flank = Flank("front", arc(radius, 60.0), 1.0, (), (None, None), (None, None))
    assert ease(flank, half) == pytest.approx(radius / (radius - half) - 1.0, rel=0.01)


def test_a_seam_too_curved_is_refused_with_the_most_curve_the_strip_can_take():
    garment = made(cloth=strip_lace(50.0, 0.1))
    found = findings(garment, "insertion follows the seam")[0]
    assert found.status is Status.FAIL
    assert found.limit == pytest.approx(100.0 * EASE_SHARE * 0.1)
    assert found.value > found.limit
    assert "a curve of 50 cm radius" in found.says
    assert not garment.placements


def test_a_straight_seam_takes_even_a_lace_that_does_not_stretch():
    style = Style(waist_drop=Drops.level(60.0), centre_front_seam=True)
    garment = made(over("centre front"), strip_lace(40.0, 0.0, scalloped=False), style)
    assert findings(garment, "insertion follows the seam")[0].status is Status.PASS
    piece = garment.piece("centre front insertion")
    assert (piece.part.quantity, piece.part.laid_on) == (1, ("front",))


@pytest.mark.parametrize(
    ("use", "cloth", "style", "told"),
    [
        (over("centre back"), None, Style(), "centre_back_seam = true"),
        (over("centre front"), None, Style(), "centre_front_seam = true"),
        (over(), strip_lace(400.0), None, "has room for beside the seam"),
        (over(), Cloth("strip", Kind.LACE, 900.0, 0.4, 0.2, lace=LaceEdges(Edges.NONE)), None, "no edges of its own"),
    ],
)
def test_a_strip_that_cannot_be_is_left_out_and_told(use, cloth, style, told):
    found = findings(made(use, cloth, style), "insertion")[0]
    assert found.status is Status.FAIL
    assert told in found.says


def test_two_strips_over_one_seam_are_named_and_only_the_first_is_made():
    garment = make_garment(design(uses=[over(), over(cut_away=False)], cloths=[strip_lace()], style=Style()))
    clash = findings(garment, "lace uses go together")[0]
    assert "both lie over the side seam" in clash.says
    assert len([piece for piece in garment.pieces if piece.part.laid_on]) == 1


@pytest.mark.parametrize(("away", "name"), [(True, "side insertion"), (False, "front with side insertion")])
def test_worn_the_strip_carries_alone_or_with_the_cloth_behind(away, name):
    bands = {band.name: band for band in hip_bands(made(over(cut_away=away)), "front")}
    alone = {band.name: band for band in hip_bands(made(), "front")}["side insertion"].cloth.stiffness
    assert bands[name].cloth.stiffness == pytest.approx(alone + (0.0 if away else 300.0 / 0.70), rel=1e-6)
    assert bands[name].width == pytest.approx(50.0, rel=0.1)


def test_the_seam_is_sewn_before_the_strip_and_the_strip_before_the_edges_it_ends_at():
    made_all = reckon_design(design(uses=[over(), scalloped()], cloths=[strip_lace()]))
    place = {step.key: step.step for step in made_all.sewing}
    legs = [step.step for step in made_all.sewing if "front/leg" in step.edges]
    assert place["side seams"] < place["laid side insertion"] < min(legs)
    assert sewing_steps(made_all.garment) == made_all.sewing


def test_the_strip_is_cut_from_its_lace():
    everything = reckon_design(design(uses=[over()], cloths=[strip_lace()], style=Style(waist_drop=Drops.level(60.0))))
    rows = {row.cloth: row.plan for row in everything.cutting}
    assert [placed.piece for placed in rows["strip"].placed] == ["side insertion"] * 2
