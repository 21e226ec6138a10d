"""A lace too narrow to cover is let in as a V: where its point lies, what it covers, how it is sewn."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from galloon.checks import Evidence, judge
from galloon.checks.girth import hip_bands
from galloon.design import Drops, LaceUse, Panels, Style, Use
from galloon.findings import Status
from galloon.lace import workable
from galloon.workflow.reckon import make_garment
from tests.support.designs import LARGE, MEDIUM, design, galloon, scalloped
from tests.support.sound import assert_sound, wearers


def inset(**keys):
    return LaceUse(Use.V_INSET, "heron", keys.pop("panels", ("back",)), upper_cloth="mesh", **keys)


def v_design(width=150.0, drop=60.0, wearer=MEDIUM, **changes):
    use = changes.pop("use", inset())
    style = changes.pop("style", Style(waist_drop=Drops.level(drop)))
    return design(wearer, uses=[use], lace=galloon(width), style=style, **changes)


def finding(garment, name):
    return next(found for found in judge(Evidence(garment)) if found.name == name)


@given(wearers(), st.floats(90.0, 330.0), st.floats(0.0, 120.0), st.floats(0.0, 60.0), st.booleans())
@settings(max_examples=60, deadline=None)
def test_every_v_inset_can_be_cut_and_sewn_or_says_why_not(wearer, width, drop, up, seam):
    style = Style(waist_drop=Drops.level(drop), leg_raise=up, centre_back_seam=seam)
    assert_sound(make_garment(v_design(width, wearer=wearer, style=style)))


def test_the_lace_ends_in_a_v_whose_point_is_where_the_far_line_crosses_the_centre():
    garment = make_garment(v_design(150.0))
    lace = garment.piece("back")
    leg = lace.edge_points("leg")
    slope = (leg[-1].imag - leg[0].imag) / (leg[-1].real - leg[0].real)
    point = leg[0].imag - slope * leg[0].real + 150.0 * math.hypot(1.0, slope)
    placement = garment.placements[0]
    assert placement.figures["v_depth"] == pytest.approx(-60.0 - point, abs=1e-6)
    assert complex(lace.edge_points("inset")[-1]) == pytest.approx(complex(0.0, point), abs=1e-6)


def test_lace_and_cloth_together_cover_what_the_panel_covered():
    garment = make_garment(v_design(150.0))
    rings = [[(z.real, z.imag) for z in garment.piece(name).stitch] for name in ("back", "upper back")]
    lace, cloth = (shapely.Polygon(ring) for ring in rings)
    whole = [
        z
        for edge in garment.draft.panels["back"].edges
        for piece in edge.curve
        for z in map(piece.at, np.linspace(0, 1, 50))
    ]
    panel = shapely.Polygon([(z.real, z.imag) for z in whole])
    assert lace.area + cloth.area == pytest.approx(panel.area, rel=1e-3)
    assert shapely.intersection(lace, cloth).area < 1.0
    assert garment.placements[0].figures["lace_share"] == pytest.approx(lace.area / panel.area, abs=1e-3)


def test_the_waist_need_not_drop_for_a_lace_let_in():
    garment = make_garment(v_design(150.0, style=Style()))
    assert garment.draft.back_drop == 0.0
    assert garment.needs == ()


@pytest.mark.parametrize("lap", [None, 5.0, 14.0])
def test_the_cloth_laps_under_the_scallops_by_the_lap(lap):
    garment = make_garment(v_design(150.0, use=inset(lap=lap)))
    lace, cloth = garment.piece("back"), garment.piece("upper back")
    assert (lace.edge("inset").finish, lace.edge("inset").allowance) == ("lapped", 0.0)
    assert cloth.edge("inset").allowance == (8.0 if lap is None else lap)
    across = ((cloth.cut - lace.strip.origin) / lace.strip.along).imag
    assert across.min() == pytest.approx(150.0 - cloth.edge("inset").allowance, abs=0.01)


def test_the_far_scallops_stand_up_over_the_cloth():
    lace = make_garment(v_design(150.0)).piece("back")
    across = ((lace.cut - lace.strip.origin) / lace.strip.along).imag
    assert 150.0 + 9.0 < across.max() <= 161.0 + 1e-6


def test_a_front_side_seam_is_marked_where_the_lace_ends():
    garment = make_garment(v_design(150.0))
    front = garment.piece("front")
    assert front.edge("side").sewn_to == "back/side"
    assert front.edge("upper side").sewn_to == "upper back/side"
    assert any(notch.edge == "upper side" for notch in front.notches)


def test_the_upper_back_is_cut_on_the_fold_unless_a_centre_seam_was_asked():
    plain = make_garment(v_design(150.0)).piece("upper back").part
    assert (plain.fold, plain.quantity) == ("centre back", 1)
    style = Style(waist_drop=Drops.level(60.0), centre_back_seam=True)
    seamed = make_garment(v_design(150.0, style=style)).piece("upper back")
    assert (seamed.part.fold, seamed.part.quantity) == (None, 2)
    assert seamed.edge("centre back").sewn_to == "upper back/centre back"


def test_a_lining_stays_whole_behind_lace_and_cloth():
    garment = make_garment(v_design(150.0, panels=Panels("mesh", "mesh", "mesh", back_lining="mesh")))
    lining = garment.piece("back lining")
    assert lining.edge("side").length == pytest.approx(garment.piece("back").edge("side").length, abs=0.05)
    assert lining.edge("upper side").sewn_to == "front/upper side"


def test_lace_and_cloth_share_the_hip_as_the_v_divides_it():
    garment = make_garment(v_design(110.0, style=Style(waist_drop=Drops.level(20.0))))
    bands = {band.name: band for band in hip_bands(garment, "back")}
    assert set(bands) == {"back", "upper back"}
    assert sum(band.width for band in bands.values()) == pytest.approx(2.0 * garment.frame.back_hip, abs=0.05)
    lace = garment.piece("back")
    edge = lace.edge_points("inset")
    level = -garment.frame.side.hip
    crosses = np.interp(level, edge.imag[::-1], edge.real[::-1])
    assert bands["upper back"].width == pytest.approx(2.0 * crosses, abs=0.05)


def test_worn_the_back_of_two_cloths_takes_up_its_half_of_the_hip():
    """The reduction was reckoned with both cloths: at equal tension front and back together come to the hip girth."""
    from galloon.materials.tension import tension_at

    garment = make_garment(v_design(110.0, style=Style(waist_drop=Drops.level(20.0))))
    tension = tension_at(hip_bands(garment), MEDIUM.hip)
    back = sum(band.width * (1.0 + band.cloth.strain(tension)) for band in hip_bands(garment, "back"))
    assert back == pytest.approx(MEDIUM.hip / 2.0, rel=0.01)


def test_a_lace_that_cannot_meet_at_the_centre_is_refused_with_the_width_it_would_take():
    garment = make_garment(v_design(60.0))
    refused = finding(garment, "V inset")
    assert refused.status is Status.FAIL
    assert "too narrow" in refused.says
    assert [piece.name for piece in garment.covering("back")] == ["back"]
    needed = float(refused.says.split("it would have to be ")[1].split(" cm")[0]) * 10.0
    assert finding(make_garment(v_design(needed + 1.0)), "V inset").status is Status.PASS


def test_a_lace_wide_enough_to_cover_makes_no_v_and_says_so():
    garment = make_garment(v_design(420.0))
    assert finding(garment, "V inset").status is Status.WARN
    assert "scalloped leg" in finding(garment, "V inset").says
    assert garment.piece("back").part.cloth == "heron"


def test_a_v_without_a_cloth_above_is_refused():
    use = LaceUse(Use.V_INSET, "heron", ("back",))
    garment = make_garment(v_design(150.0, use=use, panels=Panels("mesh", "heron", "mesh")))
    assert "upper_cloth" in finding(garment, "V inset").says


def test_the_panels_own_cloth_or_the_upper_back_serves_where_the_use_names_none():
    use = LaceUse(Use.V_INSET, "heron", ("back",))
    own = make_garment(v_design(150.0, use=use, panels=Panels("mesh", "mesh", "mesh")))
    named = make_garment(v_design(150.0, use=use, panels=Panels("mesh", "heron", "mesh", upper_back="mesh")))
    assert own.piece("upper back").part.cloth == named.piece("upper back").part.cloth == "mesh"


def test_a_v_in_front_and_back_divides_each_side_seam_for_both():
    garment = make_garment(v_design(140.0, wearer=LARGE, use=inset(panels=("front", "back"))))
    assert_sound(garment)
    assert {"front", "upper front", "back", "upper back"} <= {piece.name for piece in garment.pieces}


def test_the_seat_is_covered_by_lace_and_cloth_together():
    garment = make_garment(v_design(150.0))
    let_in = finding(garment, "coverage")
    assert let_in.status is Status.PASS
    sides = [garment.piece(name).edge("side").length for name in ("back", "upper back")]
    assert let_in.value == pytest.approx(sum(sides), abs=0.05)


def test_two_uses_that_both_make_the_back_are_named_and_only_the_first_is_made():
    uses = (inset(), scalloped("back"))
    kept, found = workable(uses)
    assert kept == uses[:1]
    assert found[0].status is Status.FAIL
    assert "V inset of heron" in found[0].says
    assert "scalloped leg of heron" in found[0].says
    garment = make_garment(design(uses=uses, lace=galloon(150.0)))
    assert "lace uses go together" in [note.name for note in garment.notes]
