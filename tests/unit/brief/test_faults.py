"""What is wrong with a brief is told all at once, each with file, line, key, value and rule."""

from __future__ import annotations

import pytest

from galloon.brief import read_brief
from galloon.errors import BadInput, BadValue
from tests.support.briefs import FULL, LEAST, changed, line_holding


def faults_in(text: str, **more):
    with pytest.raises(BadInput) as caught:
        read_brief(text, file="b.toml", **more)
    return caught.value.faults


@pytest.mark.parametrize(
    ("old", "new", "key", "rule"),
    [
        ("waist = 74\n", "waist = -74\n", "wearer.waist", "must lie between 35 and 250 cm"),
        ("waist = 74\n", "waist = 0\n", "wearer.waist", "must lie between"),
        ("waist = 74\n", "waist = nan\n", "wearer.waist", "must be a finite number"),
        ("waist = 74\n", "waist = inf\n", "wearer.waist", "must be a finite number"),
        ("waist = 74\n", "waist = 1e9\n", "wearer.waist", "must lie between"),
        ("waist = 74\n", "waist = 1e300\n", "wearer.waist", "sensible size"),
        ("waist = 74\n", "waist = true\n", "wearer.waist", "must be a number or text"),
        ("waist = 74\n", 'waist = "74 furlongs"\n', "wearer.waist", "unit that is not known"),
        ("waist = 74\n", 'waist = "wide"\n', "wearer.waist", "must read like"),
        ("waist = 74\n", "waist = [74]\n", "wearer.waist", "must be a number or text"),
        ("crotch_length = 73", "crotch_length = 41", "wearer.crotch_length", "longer than twice the way"),
        ("side = 23", "side = 900", "block.side", "must lie between 1 and 150 cm"),
        ("width = 24\n", "width = 2\n", "cloth.heron.width", "must exceed the depths of its scallops"),
        ("width = 24\n", "width = -2\n", "cloth.heron.width", "must lie between 3 and 5000 mm"),
        ("scallop_pitch = 4.2", "scallop_pitch = 0", "cloth.heron.scallop_pitch", "must lie between 2 and 1000 mm"),
        ("second_depth = 1.1", "second_depth = 99", "cloth.heron.second_depth", "must lie between 0.1 and 300 mm"),
        ("repeat = 8.4", "repeat = 9.9", "cloth.heron.repeat", "whole number of times scallop_pitch"),
        ("stretch_bias = 40", "stretch_bias = 900", "cloth.heron.stretch_bias", "between 0 and 500 %"),
        ("recovery = 92", "recovery = 120", "cloth.heron.recovery", "between 0 and 100 %"),
        ("openness = 0.45", "openness = 45", "cloth.heron.openness", "between 0 and 1"),
        ("price = 9.5", "price = -1", "cloth.heron.price", "must lie between"),
        ("on_hand = 150", "on_hand = -150", "cloth.heron.on_hand", "must lie between"),
        ("length = 3,", "length = 300,", "cloth.mesh.shrink.length", "between -10 and 50 %"),
        ("load_g = 500", "load_g = 0", "cloth.mesh.pull_test.load_g", "must lie between 1 and 100000 g"),
        ('along = "width"', 'along = "sideways"', "cloth.mesh.pull_test.along", "must be one of"),
        ("stretch = 90", "stretch = 0", "elastic.soft picot 10 mm.stretch", "between 1 and 500 %"),
        ("waist = 0.88,", "waist = 8.8,", "elastic.soft picot 10 mm.ratio.waist", "must lie between 0.3 and 1.2"),
        ("leg_raise = 1.5", "leg_raise = 150", "style.leg_raise", "must lie between"),
        ('side_seam = "side"', "side_seam = -1", "style.side_seam", "moves forward by 0 to 30 cm"),
        ('waist_drop = "auto"', "waist_drop = -3", "style.waist_drop", "must lie between 0 and 100 cm"),
        ('waist_drop = "auto"', "waist_drop = { front = 1, side = 2 }", "style.waist_drop.back", "is missing"),
        ("centre_back_seam = true", 'centre_back_seam = "yes"', "style.centre_back_seam", "true or false"),
        ('seam = "6 mm"', 'seam = "60 mm"', "allowance.seam", "must lie between 0 and 4 cm"),
        ("[2.2, 3]]", "[2.2, 3, 1]]", "motif[1].outline[3]", "too many items"),
        ("[2.2, 3]]", "[2.2, 3]" + ", [1, 1]" * 100_000 + "]", "motif[1].outline", "too many items"),
        ("[3, 0.5], [2.2, 3]]", "[3, 0.5]]", "motif[1].outline", "needs 3 to 5000 points"),
        ("[2.2, 3]]", "[1e9, 3]]", "motif[1].outline[3][1]", "within 300 cm of the origin"),
        ("turn = 0", "turn = nan", "motif[1].turn", "finite number"),
        ('title = "Heron hipster"', 'title = "two\\nlines"', "title", "one line without control characters"),
        ('title = "Heron hipster"', 'title = "turned \\u202e round"', "title", "one line without control characters"),
        ('title = "Heron hipster"', 'title = "Heron 🧵"', "title", "it has 🧵 (U+1F9F5 SPOOL OF THREAD)"),
        ('title = "Heron hipster"', 'title = "بجع"', "title", "U+0628 ARABIC LETTER BEH"),
        ('title = "Heron hipster"', f'title = "{"x" * 81}"', "title", "at most 80 characters"),
        ('units = "cm"', 'units = "ell"', "units", "must be one of mm, cm, in"),
        ('units = "cm"\n', "", "units", "is missing"),
        ("hip = 101\n", "", "wearer.hip", "is missing"),
        ("waist_to_hip = 21\n", "", "wearer.waist_to_hip", "is missing"),
        ('front = "mesh"\n', "", "panels.front", "is missing"),
        ('gusset = "mesh"\n', "", "panels.gusset", "is missing"),
        ("scallop_depth = 1.1\n", "", "cloth.heron.scallop_depth", "is missing"),
    ],
)  # fmt: skip
def test_a_fault_stands_at_its_key_and_line_with_its_rule(old, new, key, rule):
    text = changed(old, new)
    faults = faults_in(text)
    assert [fault.key for fault in faults] == [key]
    assert rule in faults[0].rule
    assert faults[0].file == "b.toml"
    assert faults[0].line == line_holding(_mark(key, new, rule), text)
    assert bool(faults[0].seen) == (rule != "is missing")


def _mark(key: str, new: str, rule: str) -> str:
    """What stands on the line of the fault: the new value, or the head of the table in which a key is missing."""
    around = key.rpartition(".")[0]
    if rule != "is missing":
        return new.strip()
    return {"": "title", "style.waist_drop": "waist_drop"}.get(around, f"[{around}]")


@pytest.mark.parametrize(
    ("old", "new", "suggested"),
    [
        ("thigh = 59", "thihg = 59", "thigh"),
        ("[allowance]", "[alowance]", "allowance"),
        ("scallop_pitch = 4.2", "scallop_pich = 4.2", "scallop_pitch"),
        ("strip = 5", "stripe = 5", "strip"),
        ('kind = "lace"', 'kind = "lase"', "lace"),
        ('shape = "hipster"', 'shape = "hipstr"', "hipster"),
        ('use = "scalloped leg"', 'use = "scaloped leg"', "scalloped leg"),
        ('back = "heron"', 'back = "herron"', "heron"),
        ('cloth = "heron"', 'cloth = "hern"', "heron"),
        ('waist = "picot elastic 10 mm"', 'waist = "piccot elastic 10 mm"', "picot elastic"),
        ('waist = "picot elastic 10 mm"', 'waist = "soft picott 10 mm"', "soft picot 10 mm"),
        ('back_leg = "scallop"', 'back_leg = "lace trim heon"', "heron"),
    ],
)
def test_a_word_that_is_not_known_gets_the_nearest_one_suggested(old, new, suggested):
    faults = faults_in(changed(old, new))
    assert f"Did you mean {suggested}?" in [fault.hint for fault in faults]


def test_every_fault_is_told_at_once_in_the_order_of_the_lines():
    text = FULL
    for old, new in [
        ("waist = 74\n", "waist = -74\n"),
        ("thigh = 59", "thihg = 59"),
        ("width = 24\n", "width = 2\n"),
        ("recovery = 92", "recovery = 920"),
        ("load_g = 500", "load_g = -5"),
        ('back = "heron"', 'back = "herron"'),
        ('shape = "hipster"', 'shape = "hipstr"'),
        ("leg_raise = 1.5", "leg_raise = 150"),
        ('waist = "picot elastic 10 mm"', 'waist = "rope"'),
        ('seam = "6 mm"', 'seam = "60 mm"'),
        ("turn = 0", "turn = inf"),
    ]:
        text = changed(old, new, text)
    faults = faults_in(text)
    assert [fault.key for fault in faults] == [
        "wearer.waist", "wearer.thihg", "cloth.heron.width", "cloth.heron.recovery", "cloth.mesh.pull_test.load_g",
        "panels.back", "style.shape", "style.leg_raise", "finish.waist", "allowance.seam",
        "motif[1].turn",
    ]  # fmt: skip
    assert [fault.line for fault in faults] == sorted(fault.line for fault in faults)


def test_two_faults_in_one_table_are_both_told():
    keys = {
        fault.key for fault in faults_in(LEAST.replace("waist = 74", "waist = -1").replace("hip = 101", "hip = -1"))
    }
    assert {"wearer.waist", "wearer.hip"} <= keys


def test_a_message_shows_the_value_as_it_was_written_with_its_unit():
    assert faults_in(changed("width = 24\n", "width = 2\n"))[0].seen == "2 cm"
    assert faults_in(changed("recovery = 92", "recovery = 920"))[0].seen == "920 %"
    assert faults_in(changed("waist = 74\n", 'waist = "4 in"\n'))[0].seen == "4 in"


def test_a_length_that_may_be_estimated_says_how():
    faults = faults_in(LEAST.replace("waist_to_hip = 21\n", ""))
    assert "estimate = true" in faults[0].hint
    faults = faults_in(LEAST.replace("waist_to_hip = 21\n", "estimate = true\n"))
    assert "needs the height" in faults[0].hint


@pytest.mark.parametrize(
    ("kind", "line", "key"),
    [
        ("knit", "scallop_pitch = 3", "scallop_pitch"),
        ("knit", "mirror_across = true", "mirror_across"),
        ("rigid", "edges = 'straight'", "edges"),
        ("lace", "edges = 'straight'\nscallop_depth = 1", "scallop_depth"),
        ("lace", "edges = 'single scallop'\nscallop_pitch = 3\nscallop_depth = 1\nsecond_pitch = 3", "second_pitch"),
        ("lace", "", "edges"),
        ("rigid", "stretch_bias = 3", "kind"),
    ],
)
def test_keys_that_this_kind_of_cloth_has_no_use_for_are_refused(kind, line, key):
    flat = "" if kind == "rigid" else "stretch_width = 10\nstretch_length = 10\n"
    faults = faults_in(f"{LEAST}[cloth.tern]\nkind = '{kind}'\nwidth = 20\n{flat}{line}\n")
    assert [fault.key for fault in faults] == [f"cloth.tern.{key}"]


def test_a_stretching_cloth_must_say_how_far():
    faults = faults_in(LEAST.replace("stretch_width = 70\n", ""))
    assert (faults[0].key, faults[0].rule) == ("cloth.mesh.stretch_width", "is missing")


def test_a_panel_cut_from_lace_names_that_lace_in_panels():
    faults = faults_in(changed('back = "heron"', 'back = "mesh"'))
    assert faults[0].key == "lace[1].cloth"
    assert "[panels]" in faults[0].hint


def test_an_overlay_must_say_where_it_goes():
    text = changed('use = "scalloped leg"\ncloth = "heron"\npanel = "back"\n', 'use = "overlay"\ncloth = "heron"\n')
    assert [(fault.key, fault.rule) for fault in faults_in(text)] == [("lace[1].panel", "is missing")]


def test_two_unlike_edges_are_no_mirror_of_each_other():
    text = changed("second_pitch = 4.2", "second_pitch = 2.1")
    assert [(fault.key, fault.line) for fault in faults_in(text)] == [
        ("cloth.heron.second_edge", line_holding("second_edge", text))
    ]


@pytest.mark.parametrize("use", ["scalloped leg", "V inset", "waistband"])
def test_a_lace_use_needs_a_lace(use):
    faults = faults_in(f"{LEAST}[[lace]]\nuse = '{use}'\ncloth = 'mesh'\npanel = 'back'\n")
    assert "must be a lace" in faults[0].rule


def test_a_scalloped_leg_needs_a_scallop():
    straight = "[cloth.tern]\nkind = 'lace'\nedges = 'straight'\nwidth = 20\nstretch_width = 10\nstretch_length = 10\n"
    lace = "[[lace]]\nuse = 'scalloped leg'\ncloth = 'tern'\npanel = 'back'\n"
    faults = faults_in(LEAST.replace('back = "mesh"', "back = 'tern'") + straight + lace)
    assert "scalloped edge" in faults[0].rule


@pytest.mark.parametrize("key", ["cloth", "elastic", "wearer", "panels", "style", "lace", "motif", "split"])
def test_a_value_in_the_place_of_a_table_is_refused(key):
    text = f"{key} = 3\n" + LEAST if key not in ("wearer", "cloth", "panels") else f'{key} = 3\nunits = "cm"\n'
    assert key in [fault.key for fault in faults_in(text)]


def test_one_pair_of_brackets_for_a_list_of_tables_gets_told_how():
    faults = faults_in(changed("[[lace]]", "[lace]"))
    assert "[[lace]]" in faults[0].hint


# --- text that is no brief --------------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("text", "line"),
    [
        ("units = cm\n", 1),
        ('units = "cm"\nwaist == 3\n', 2),
        ('units = "cm"\n[wearer\n', 2),
        ('units = "cm"\nunits = "mm"\n', 2),
        ('a = """never\nclosed\n', 3),
        ("a = [1, 2\n", 2),
        ("a = 2021-13-45\n", 1),
    ],
)
def test_what_is_not_toml_is_told_with_its_line(text, line):
    faults = faults_in(text)
    assert faults[0].line in (line, None)
    assert len(faults) == 1


@pytest.mark.parametrize(
    "text",
    ["", "a" * 2_000_001, "a = " + "[" * 100_000, "a = " + "{b = " * 100_000, "a" + ".a" * 300_000 + " = 1",
     "a" + ' . "x"' * 100_000 + " = 1", "[" + "a." * 100_000 + "a]", "a = 0x" + "f" * 100_000,
     "a = " + "1" * 100_000],
)  # fmt: skip
def test_texts_made_to_exhaust_the_reader_are_refused(text):
    assert faults_in(text)


def test_thousands_of_faults_are_counted_not_listed():
    faults = faults_in(LEAST + "".join(f"[nonsense{number}]\n" for number in range(3000)))
    assert len(faults) == 61
    assert "2940 more" in faults[-1].rule


def test_no_message_holds_a_raw_control_character():
    for fault in faults_in('units = "cm"\n"\\u001b[31m" = 1\n[wearer]\nwaist = "\\u0007"\n'):
        assert str(fault).isprintable()


# --- motifs from files ------------------------------------------------------------------------------------------------
MOTIF = "[[motif]]\nsvg = '{}'\npanel = 'front'\n"


@pytest.mark.parametrize("name", ["/etc/passwd", "../leaf.svg", "a/../../leaf.svg", "C:\\leaf.svg", "..\\leaf.svg"])
def test_a_motif_file_outside_the_folder_is_refused_unread(name):
    def never(name):
        raise AssertionError("must not be read")

    faults = faults_in(LEAST + MOTIF.format(name), svg=never)
    assert "in the folder of the brief" in faults[0].rule


def test_a_motif_file_that_is_refused_becomes_a_fault_at_its_line():
    def refuses(name):
        raise BadValue("outline", "must be closed", name)

    text = LEAST + MOTIF.format("leaf.svg")
    faults = faults_in(text, svg=refuses)
    assert faults[0].rule == "must be closed"
    assert faults[0].line in (line_holding("svg =", text), line_holding("[[motif]]", text))


def test_a_motif_file_gives_the_outline():
    ring = ((0.0, 0.0), (30.0, 0.0), (0.0, 30.0))
    brief = read_brief(LEAST + MOTIF.format("motifs/leaf.svg"), file="b.toml", svg={"motifs/leaf.svg": ring}.get)
    assert brief.design.motifs[0].outline == ring


def test_a_motif_needs_one_outline_not_two_or_none():
    assert "either outline or svg" in faults_in(LEAST + "[[motif]]\npanel = 'front'\n")[0].rule
