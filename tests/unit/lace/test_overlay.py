"""An overlay lies where it is asked, is trimmed to its panel, and carries alone only where the cloth is cut away."""

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from galloon.checks import Evidence, judge
from galloon.checks.girth import edge_bands, hip_bands
from galloon.design import Drops, LaceUse, Lie, Meet, Motif, Panels, Split, Style, Use
from galloon.findings import Status
from galloon.materials.tension import relaxed
from galloon.pieces import off_strip
from galloon.sewing import sewing_steps
from galloon.workflow.reckon import make_garment
from tests.support.designs import MEDIUM, design, galloon
from tests.support.laid import area, assert_laid
from tests.support.sound import wearers

TRIANGLE = ((60.0, -60.0), (270.0, -170.0), (270.0, -60.0))
LOW = Style(waist_drop=Drops.level(60.0))


def laid_over(**keys):
    given = {"corners": TRIANGLE, **keys}
    return LaceUse(Use.OVERLAY, "heron", given.pop("panels", ("front",)), **given)


def made(use=None, style=LOW, **changes):
    return make_garment(design(uses=[use or laid_over()], style=style, **changes))


def findings(garment, name):
    return [found for found in judge(Evidence(garment)) if found.name == name]


corners = st.lists(st.tuples(st.floats(-60.0, 320.0), st.floats(-330.0, 10.0)), min_size=3, max_size=3, unique=True)


@given(
    wearers(),
    corners,
    st.booleans(),
    st.booleans(),
    st.booleans(),
    st.sampled_from(["front", "back"]),
    st.sampled_from([0.0, 40.0, None]),
    st.floats(0.0, 90.0),
)
@settings(max_examples=60, deadline=None)
def test_any_triangle_on_any_panel_can_be_cut_and_sewn(wearer, ring, seam, twice, away, panel, forward, drop):
    doubled = abs(sum(x * (ring[i - 2][1] - ring[i - 1][1]) for i, (x, _) in enumerate(ring)))
    if doubled < 800.0:
        return
    style = Style(
        waist_drop=Drops.level(drop),
        centre_back_seam=seam or forward is None,
        centre_front_seam=seam and forward is not None,
        side_forward=forward,
    )
    use = laid_over(corners=tuple(ring), mirrored=twice, cut_away=away, panels=(panel,))
    assert_laid(make_garment(design(wearer, uses=[use], style=style, lace=galloon(400.0))))


def test_the_piece_is_the_triangle_trimmed_to_the_panel():
    garment = made()
    piece, front = garment.piece("front overlay"), garment.piece("front")
    wanted = shapely.intersection(shapely.Polygon(TRIANGLE), area(front.stitch))
    assert shapely.symmetric_difference(area(piece.stitch), wanted).area < 1.0
    assert (piece.part.quantity, piece.part.mirrored, piece.part.laid_on) == (2, True, ("front",))


def test_edges_along_the_panel_take_its_allowance_and_are_caught_with_it():
    piece = made().piece("front overlay")
    assert (piece.edge("side").sewn_to, piece.edge("side").allowance) == ("front/side", 6.0)
    assert piece.edge("waist").sewn_to == "front/waist"
    assert piece.edge("waist").finish == "elastic"
    assert (piece.edge("edge").finish, piece.edge("edge").allowance) == ("lapped", 0.0)


@pytest.mark.parametrize(("meet", "reads"), [(Meet.PEAK, 0.0), (Meet.VALLEY, 21.0), (None, 21.0)])
def test_the_longest_free_edge_is_the_scallop(meet, reads):
    piece = made(laid_over(meet=meet)).piece("front overlay")
    start, end = piece.edge_points("edge")[[0, -1]]
    across = np.array([piece.strip.place(complex(point)).imag for point in (start, end)])
    assert np.allclose(across, 0.0, atol=1e-6)
    assert piece.strip.phase == reads
    assert ((piece.cut - piece.strip.origin) / piece.strip.along).imag.min() == pytest.approx(-11.0, abs=0.2)


def test_an_upright_overlay_is_cut_from_inside_the_lace():
    assert made(laid_over(lie=Lie.UPRIGHT)).piece("front overlay").strip is None


def test_one_across_a_fold_is_cut_once_on_the_fold():
    ring = ((0.0, -150.0), (90.0, -150.0), (90.0, -90.0), (0.0, -90.0))
    piece = made(laid_over(corners=ring)).piece("front overlay")
    assert (piece.part.fold, piece.part.quantity) == ("centre front", 1)
    assert piece.strip is not None


def test_a_slanting_scallop_across_a_fold_is_told_and_left_out():
    ring = ((0.0, -200.0), (150.0, -90.0), (0.0, -90.0))
    garment = made(laid_over(corners=ring))
    assert garment.piece("front overlay").strip is None
    assert findings(garment, "overlay scallop")[0].status is Status.WARN


def test_an_overlay_on_one_side_only_is_cut_once_and_weighs_on_that_side():
    garment = made(laid_over(mirrored=False))
    piece = garment.piece("front overlay")
    assert (piece.part.quantity, piece.part.mirrored) == (1, False)
    assert {one.half for one in garment.piece("front").part.laid} == {"right"}
    both = {band.name: band.width for band in edge_bands(made(), "waist")}
    one = {}
    for band in edge_bands(garment, "waist"):
        one[band.name] = one.get(band.name, 0.0) + band.width
    assert one["front with front overlay"] == pytest.approx(both["front with front overlay"] / 2.0, rel=1e-6)
    assert sum(one.values()) == pytest.approx(sum(both.values()), rel=1e-9)


@pytest.mark.parametrize(("away", "name"), [(True, "front overlay"), (False, "front with front overlay")])
def test_strain_is_reckoned_with_lace_alone_only_where_the_cloth_is_cut_away(away, name):
    ring = ((50.0, -260.0), (270.0, -260.0), (270.0, -60.0), (50.0, -60.0))
    garment = made(laid_over(cut_away=away, corners=ring, lie=Lie.UPRIGHT))
    bands = {band.name: band.cloth for band in hip_bands(garment, "front")}
    lace, cloth = 300.0 / 0.55, 300.0 / 0.70
    assert bands[name].stiffness == pytest.approx(lace if away else lace + cloth, rel=1e-9)
    assert bands[name].stretch == pytest.approx(0.55)
    assert bands["front"].stiffness == pytest.approx(cloth, rel=1e-9)


def test_the_part_between_two_style_lines_can_be_laid_over():
    style = Style(
        waist_drop=Drops.level(60.0), splits=(Split("front", ((0.0, -140.0), (280.0, -140.0)), cloth="mesh"),)
    )
    garment = made(laid_over(corners=(), between=("waist", "style line")), style)
    piece, upper = garment.piece("front overlay"), garment.piece("upper front")
    assert shapely.symmetric_difference(area(piece.stitch), area(upper.stitch)).area < 1.0
    assert piece.part.laid_on == ("upper front",)


def test_one_over_a_style_line_waits_until_that_is_sewn():
    style = Style(waist_drop=Drops.level(60.0), splits=(Split("front", ((0.0, -140.0), (280.0, -140.0))),))
    garment = made(laid_over(corners=((60.0, -200.0), (150.0, -200.0), (150.0, -100.0), (60.0, -100.0))), style)
    assert garment.piece("front overlay").part.laid_on == ("front", "upper front")
    steps = {step.key: step.step for step in sewing_steps(garment)}
    joined = next(number for key, number in steps.items() if key.startswith("join"))
    assert joined < steps["laid front overlay"]


def test_an_outline_beside_the_panel_is_refused_with_its_distance():
    garment = made(laid_over(corners=((400.0, -60.0), (500.0, -60.0), (500.0, -160.0))))
    found = findings(garment, "overlay")[0]
    assert found.status is Status.FAIL
    assert "lies beside the front" in found.says
    assert not any(piece.part.laid_on for piece in garment.pieces)


def test_a_lace_too_narrow_for_the_overlay_is_told():
    garment = made(lace=galloon(40.0))
    assert off_strip(garment.piece("front overlay")) > 1.0
    assert findings(garment, "piece lies on its lace")[0].status is Status.FAIL


def test_where_nothing_is_left_behind_two_laid_pieces_both_are_named():
    motif = Motif(((-20.0, -20.0), (20.0, -20.0), (20.0, 20.0), (-20.0, 20.0)), "front", at=(150.0, -90.0))
    uses = [laid_over(cut_away=True), LaceUse(Use.APPLIQUE, "heron", ("front",), cut_away=True)]
    found = findings(make_garment(design(uses=uses, style=LOW, motifs=(motif,))), "laid pieces go together")[0]
    assert found.status is Status.FAIL
    assert "front overlay" in found.says
    assert "front motif" in found.says


def test_a_straight_stitch_on_stretch_lace_is_warned_of():
    garment = made(laid_over(stitch="straight"))
    assert findings(garment, "stitch stretches with the lace")[0].status is Status.WARN


def test_a_lining_behind_an_overlay_carries_with_it():
    ring = ((0.0, -260.0), (270.0, -260.0), (270.0, -60.0), (0.0, -60.0))
    panels = Panels("mesh", "mesh", "mesh", "mesh", front_lining="mesh")
    use = laid_over(cut_away=True, corners=ring, lie=Lie.UPRIGHT)
    bare, lined = (hip_bands(made(use, **kind), "front")[0].cloth for kind in ({}, {"panels": panels}))
    assert lined.stiffness == pytest.approx(bare.stiffness + 300.0 / 0.70, rel=1e-6)
    assert relaxed(hip_bands(made(use), "front")) == pytest.approx(2.0 * made(use).frame.front_hip, rel=1e-3)


def test_the_back_of_a_wrap_takes_an_overlay_in_the_backs_own_measures():
    style = Style(waist_drop=Drops.level(60.0), side_forward=None, centre_back_seam=True)
    ring = ((30.0, -200.0), (110.0, -200.0), (110.0, -120.0), (30.0, -120.0))
    piece = made(laid_over(panels=("back",), corners=ring), style).piece("back overlay")
    frame = make_garment(design(MEDIUM, style=LOW)).frame
    wide = frame.front_hip + frame.back_hip
    assert piece.part.laid_on == ("wrap",)
    assert piece.stitch.real.max() == pytest.approx(wide - 30.0, abs=1.0)
    assert piece.stitch.real.min() == pytest.approx(wide - 110.0, abs=1.0)
