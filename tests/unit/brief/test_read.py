"""A brief's text to a design."""

from __future__ import annotations

import pytest

from galloon.brief import read_brief
from galloon.design import SHAPES, Coverage, Drops, FinishKind, GussetPlan, Lie, Meet, Shape, Use
from galloon.errors import BadInput
from galloon.materials import Edges, Kind, SecondEdge
from tests.support.briefs import FULL, LEAST, changed


def design_of(text: str):
    return read_brief(text, file="b.toml").design


def with_style(line: str):
    return design_of(f"{LEAST}[style]\n{line}\n").style


def test_seams_lapped_round_the_motifs_are_named_one_or_several():
    assert with_style('lapped = "side"').lapped == ("side",)
    assert with_style('lapped = ["side", "centre back"]').lapped == ("side", "centre back")
    assert with_style("").lapped == ()
    with pytest.raises(BadInput, match="lapped"):
        with_style('lapped = "hem"')


@pytest.mark.parametrize(("upper", "sound"), [("14 mm", False), ("15 mm", True), ("40 mm", True), ("41 mm", False)])
def test_a_lapped_lace_seam_takes_15_to_40_mm_of_its_upper_layer(upper, sound):
    """Common practice, no source."""
    text = f'{LEAST}[allowance]\nlapped_upper = "{upper}"\n'
    if sound:
        assert design_of(text).allowances.lapped_upper == float(upper.split()[0])
    else:
        with pytest.raises(BadInput, match="lapped_upper"):
            design_of(text)


def test_every_figure_of_a_full_brief_arrives_in_millimetres_and_fractions():
    design = design_of(FULL)
    heron, mesh = design.cloths["heron"], design.cloths["mesh"]
    assert (design.title, design.units) == ("Heron hipster", "cm")
    assert design.wearer.measurements() == {
        "waist": 740.0, "top_hip": 900.0, "hip": 1010.0, "thigh": 590.0, "height": 1690.0,
        "waist_to_hip": 210.0, "crotch_length": 730.0,
    }  # fmt: skip
    assert design.block.side == 230.0
    assert (heron.kind, heron.width, heron.on_hand, heron.price) == (Kind.LACE, 240.0, 1500.0, 9.5)
    assert (heron.stretch_length, heron.stretch_width, heron.stretch_bias, heron.recovery) == (0.55, 0.15, 0.4, 0.92)
    assert heron.lace is not None
    assert (heron.lace.edges, heron.lace.repeat, heron.lace.second_edge) == (Edges.DOUBLE, 84.0, SecondEdge.MIRROR)
    assert (heron.lace.first.pitch, heron.lace.second.depth) == (42.0, 11.0)
    assert (mesh.shrink_length, mesh.shrink_width, mesh.opacity) == (0.03, 0.02, 0.6)
    assert (mesh.pull_tests[0].strip, mesh.pull_tests[0].load_g, mesh.pull_tests[0].stretch) == (50.0, 500.0, 0.32)
    assert dict(design.panels.items()) == {"front": "mesh", "back": "heron", "gusset": "mesh", "gusset_lining": "mesh"}
    assert design.style.waist_drop is None
    assert (design.style.leg_raise, design.style.side_forward, design.style.centre_back_seam) == (15.0, 0.0, True)
    assert design.finishes.waist.elastic.width == 10.0
    assert design.finishes.back_leg.kind is FinishKind.SCALLOP
    assert design.allowances.seam == 6.0
    use = design.lace[0]
    assert (use.use, use.panels, use.lie, use.meet) == (Use.SCALLOPED_LEG, ("back",), Lie.ALONG_LEG, Meet.VALLEY)
    motif = design.motifs[0]
    assert (motif.outline, motif.at) == (((0.0, 0.0), (30.0, 5.0), (22.0, 30.0)), (30.0, -120.0))


def test_a_sound_brief_has_nothing_unusual_to_tell():
    assert read_brief(FULL, file="b.toml").findings == ()


@pytest.mark.parametrize(
    ("written", "mm"),
    [
        ("74", 740.0),
        ("740.5", 7405.0),
        ('"27 1/2 in"', 698.5),
        ('"70 cm"', 700.0),
        ("'29\"'", 736.6),
        ('"0.74 m"', 740.0),
    ],
)
def test_a_length_takes_its_own_unit_or_the_brief_s(written, mm):
    text = changed("waist = 74\n", f"waist = {written}\n").replace("hip = 101\n", 'hip = "1010 mm"\n')
    if mm > 2500.0:
        text = text.replace('units = "cm"', 'units = "mm"')
        mm = 740.5
        text = LEAST.replace("cm", "mm", 1).replace("waist = 74\n", f"waist = {written}\n").replace("101", "1010")
        text = text.replace("= 21", "= 210").replace("= 73", "= 730")
    assert design_of(text).wearer.waist == pytest.approx(mm)


def test_percent_may_carry_its_sign_and_a_share_may_be_percent():
    text = changed("recovery = 92", 'recovery = "92 %"').replace("openness = 0.45", 'openness = "45 %"')
    heron = design_of(text).cloths["heron"]
    assert (heron.recovery, heron.openness) == (0.92, 0.45)


def test_pull_tests_may_be_a_list():
    listed = '[{ along = "width", strip = 5, load_g = 500, stretch = 32 }, ' \
        '{ along = "length", strip = 5, load_g = 800, stretch = 20 }]'  # fmt: skip
    text = changed('{ along = "width", strip = 5, load_g = 500, stretch = 32 }', listed)
    assert [test.along for test in design_of(text).cloths["mesh"].pull_tests] == ["width", "length"]


# --- defaults ---------------------------------------------------------------------------------------------------------
def test_the_least_brief_is_a_full_brief_with_picot_elastic_all_round():
    design = design_of(LEAST)
    assert (design.style.shape, design.style.side_forward) == (Shape.BRIEF, 0.0)
    assert design.style.waist_drop == Drops.level(SHAPES[Shape.BRIEF].waist_drop)
    assert {finish.name for _, finish in design.finishes} == {"picot elastic 8 mm"}
    assert design.allowances.seam == 6.0


@pytest.mark.parametrize("shape", list(Shape))
def test_a_shape_s_name_gives_its_figures_and_figures_of_its_own_win(shape):
    preset = SHAPES[shape]
    style = with_style(f'shape = "{shape}"')
    assert (style.waist_drop.back, style.leg_raise, style.coverage) == (
        preset.waist_drop,
        preset.leg_raise,
        preset.coverage,
    )
    own = with_style(f'shape = "{shape}"\nwaist_drop = 1\nleg_raise = 3\nseat_coverage = "low"')
    assert (own.waist_drop, own.leg_raise, own.coverage) == (Drops.level(10.0), 30.0, Coverage.LOW)


def test_a_drop_left_out_is_automatic_where_a_lace_limits_it():
    assert design_of(changed('waist_drop = "auto"\n', "")).style.waist_drop is None


def test_a_drop_may_differ_front_side_and_back():
    assert with_style("waist_drop = { front = 6, side = 5, back = '2 in' }").waist_drop == Drops(60.0, 50.0, 50.8)


@pytest.mark.parametrize(("written", "forward"), [('"side"', 0.0), ('"none"', None), ("3", 30.0), ('"1 in"', 25.4)])
def test_a_side_seam_is_at_the_side_moved_forward_or_gone(written, forward):
    assert with_style(f"side_seam = {written}").side_forward == forward


def test_two_strips_along_the_back_legs_need_a_centre_back_seam_unless_told_otherwise():
    assert design_of(changed("centre_back_seam = true\n", "")).style.centre_back_seam
    assert not design_of(LEAST).style.centre_back_seam
    assert with_style('side_seam = "none"').centre_back_seam


def test_the_leg_of_a_scalloped_panel_is_the_scallop_itself_and_the_gusset_follows_the_front():
    design = design_of(changed('back_leg = "scallop"\ngusset_leg = "picot elastic 8 mm"\n', ""))
    assert design.finishes.back_leg.kind is FinishKind.SCALLOP
    assert design.finishes.gusset_leg == design.finishes.front_leg
    bare = changed('front_leg = "picot elastic 8 mm"\n', 'front_leg = "scallop"\n')
    assert design_of(bare.replace('gusset_leg = "picot elastic 8 mm"\n', "")).finishes.gusset_leg.name == (
        "picot elastic 8 mm"
    )


@pytest.mark.parametrize(("plan", "cloth"), [("on front", "mesh"), ("on back", "heron"), ("centre seam", "heron")])
def test_a_gusset_grown_on_to_a_panel_is_cut_from_its_cloth(plan, cloth):
    text = changed('gusset = "mesh"\n', "").replace("[style]\n", f'[style]\ngusset = "{plan}"\n')
    design = design_of(text)
    assert design.panels.gusset == cloth
    assert design.style.gusset is GussetPlan(plan)


@pytest.mark.parametrize(
    ("use", "panels"),
    [("V inset", ("back",)), ("edge trim", ("front", "back")), ("waistband", ("front", "back"))],
)
def test_uses_that_go_to_one_place_need_not_say_where(use, panels):
    text = changed('use = "scalloped leg"\ncloth = "heron"\npanel = "back"\n', f'use = "{use}"\ncloth = "heron"\n')
    assert design_of(text).lace[0].panels == panels


# --- estimates --------------------------------------------------------------------------------------------------------
def test_lengths_not_measured_are_estimated_when_the_brief_allows_it_and_each_is_told():
    text = LEAST.replace("waist_to_hip = 21\ncrotch_length = 73\n", "height = 168\nestimate = true\n")
    brief = read_brief(text, file="b.toml")
    wearer = brief.design.wearer
    assert set(wearer.estimated) == {"waist_to_hip", "crotch_length"}
    assert wearer.waist_to_hip == pytest.approx(210.0)
    assert {finding.about for finding in brief.findings} == {"wearer waist_to_hip", "wearer crotch_length"}


def test_an_estimate_never_takes_the_place_of_a_measurement():
    text = LEAST.replace("[wearer]\n", "[wearer]\nestimate = true\nheight = 168\n")
    assert design_of(text).wearer.estimated == {}


# --- what is odd but possible -----------------------------------------------------------------------------------------
def test_unusual_measurements_are_told_and_not_refused():
    brief = read_brief(changed("hip = 101\n", "hip = 125\n"), file="b.toml")
    assert {finding.status for finding in brief.findings} == {"warn"}


def test_a_lace_shorter_than_its_repeat_is_told_by_name():
    findings = read_brief(changed("on_hand = 150", "on_hand = 6"), file="b.toml").findings
    assert [finding.about for finding in findings] == ["cloth heron"]
    assert "repeat" in findings[0].says


def test_a_share_given_for_percent_is_asked_about():
    findings = read_brief(changed("recovery = 92", "recovery = 0.92"), file="b.toml").findings
    assert "write 92" in findings[0].says


@pytest.mark.parametrize(
    "name",
    ["<b>heron</b>", "../../etc/passwd", "דנטל", "Łódź ő ș Ứ", "Ολυμπία", "Кружево", "e\u0301toile", 'quo"te', "a.b"],
)
def test_odd_names_are_data_like_any_other(name):
    quoted = name.replace('"', '\\"')
    text = FULL.replace("[cloth.heron]", f'[cloth."{quoted}"]').replace('= "heron"', f'= "{quoted}"')
    assert design_of(text).panels.back == name


def test_words_may_be_written_with_any_case():
    assert with_style('shape = "High  Leg"').shape is Shape.HIGH_LEG
