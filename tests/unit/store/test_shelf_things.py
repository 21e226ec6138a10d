"""Things are added, listed, shown, changed and removed, held to the brief's own rules, and found by briefs."""

import pytest

from galloon.brief import read_brief
from galloon.errors import BadInput
from galloon.store import ShelfLookup, ShelfOnDemand, add, change, list_things, open_shelf, remove, show_thing

LACE = {
    "units": "cm", "kind": "lace", "edges": "double scallop", "width": 24, "scallop_pitch": 4.2, "scallop_depth": 1.1,
    "stretch_length": 55, "stretch_width": 15, "on_hand": 150,
}  # fmt: skip
IMKE = {"units": "cm", "waist": 74, "hip": 101, "waist_to_hip": 21, "crotch_length": 73}
SQUARE = [[0, 0], [100, 0], [100, 100], [0, 100]]
HOSTILE = [
    "'; DROP TABLE thing; --", "../../etc/passwd", "%00",
    "<script>alert(1)</script>", "heron\u0301 § דנטל", "shelf", "a" * 80,
]  # fmt: skip


@pytest.fixture
def shelf(tmp_path):
    with open_shelf(tmp_path / "shelf.sqlite") as opened:
        yield opened


def test_a_thing_is_kept_in_millimetres_and_found_again_when_the_file_is_opened_again(tmp_path):
    path = tmp_path / "folder not there" / "s%?#.sqlite"
    with open_shelf(path) as shelf:
        add(shelf, "cloth", "heron", LACE)
    with open_shelf(path) as shelf:
        found = show_thing(shelf, "cloth", "heron").data
    assert (found["width"], found["scallop_pitch"], found["on_hand"]) == (240, 42, 1500)


def test_a_brief_takes_wearer_cloth_elastic_and_block_from_the_shelf(shelf):
    add(shelf, "cloth", "heron", LACE)
    add(shelf, "wearer", "Imke", IMKE)
    add(shelf, "elastic", "soft picot", {"width": "10 mm", "stretch": 90})
    add(shelf, "block", "mine", {"units": "cm", "side": 23})
    text = """
units = "in"
wearer = "Imke"
block = "mine"
[cloth.lace]
shelf = "heron"
on_hand = 10
[elastic]
"soft picot" = "shelf"
[panels]
front = "lace"
back = "lace"
gusset = "lace"
[finish]
waist = "soft picot"
"""
    design = read_brief(text, file="b.toml", shelf=ShelfLookup(shelf)).design
    assert design.wearer.waist == pytest.approx(740.0)
    assert design.block.side == pytest.approx(230.0)
    assert design.cloths["lace"].width == pytest.approx(240.0)
    assert design.cloths["lace"].on_hand == pytest.approx(254.0), "the brief's own figure wins, in the brief's own unit"
    assert design.finishes.waist.elastic.width == pytest.approx(10.0)


def test_a_shelf_named_on_the_command_line_must_be_there_and_is_not_made_by_looking(tmp_path):
    with pytest.raises(BadInput, match="is not there"):
        ShelfOnDemand(tmp_path / "none.sqlite").cloth("heron")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("kind", "data", "rule"),
    [
        ("wearer", {**IMKE, "waist": 1}, "must lie between 35 and 250 cm"),
        ("wearer", {"units": "cm", "waist": 74}, "is missing"),
        ("wearer", {**IMKE, "units": "ells"}, "must be one of mm, cm, in"),
        ("cloth", {**LACE, "width": 0}, "must lie between"),
        ("cloth", {**LACE, "colour": "ivory"}, "is not a key that is known here"),
        ("cloth", {**LACE, "on_hand": -1}, "must lie between"),
        ("elastic", {"width": 10, "stretch": "much"}, "must be a number"),
        ("block", {"side": float("nan")}, "finite"),
        ("brief", {"units": "cm"}, "is missing"),
    ],
)
def test_what_a_brief_would_refuse_the_shelf_refuses_and_keeps_nothing(shelf, kind, data, rule):
    with pytest.raises(BadInput, match=rule):
        add(shelf, kind, "it", data)
    assert list_things(shelf) == []


@pytest.mark.parametrize(
    ("outline", "holes", "rule"),
    [
        ([[0, 0], [100, 100], [100, 0], [0, 100]], [], "must not cross"),
        ([[0, 0], [100, 0], [200, 0]], [], "must not cross|must enclose"),
        ([[0, 0], [1, 1]], [], "at least three"),
        ([[0, 0], [float("inf"), 1], [1, 1]], [], "finite"),
        (SQUARE, [[[50, 50], [150, 50], [150, 60]]], "inside the outline"),
        (SQUARE, [[[10, 10], [30, 10], [30, 30]], [[20, 10], [40, 10], [40, 40]]], "apart from each other"),
        (SQUARE, "none", "must be a list"),
        ("square", [], "must be a list of points"),
        ([[0, 0]] * 5001, [], "at most 5000"),
    ],
)
def test_a_leftover_whose_outline_is_not_sound_is_refused(shelf, outline, holes, rule):
    add(shelf, "cloth", "heron", LACE)
    with pytest.raises(BadInput, match=rule):
        add(shelf, "leftover", "bit", {"cloth": "heron", "outline": outline, "holes": holes})
    assert list_things(shelf, "leftover") == []


def test_a_leftover_knows_its_area_less_its_holes_and_keeps_its_cloth_on_the_shelf(shelf):
    add(shelf, "cloth", "heron", LACE)
    data = {"units": "mm", "cloth": "heron", "outline": SQUARE, "holes": [[[10, 10], [20, 10], [20, 20], [10, 20]]]}
    assert add(shelf, "leftover", "bit", data).data["area"] == pytest.approx(9900.0)
    with pytest.raises(BadInput, match="while leftovers of it"):
        remove(shelf, "cloth", "heron")
    remove(shelf, "leftover", "bit")
    remove(shelf, "cloth", "heron")
    assert list_things(shelf) == []


def test_a_change_keeps_the_other_keys_and_none_takes_a_key_out(shelf):
    add(shelf, "cloth", "heron", {**LACE, "price": 9})
    changed = change(shelf, "cloth", "heron", {"units": "in", "on_hand": 10, "price": None}).data
    assert changed["on_hand"] == pytest.approx(254.0)
    assert changed["width"] == 240
    assert "price" not in changed


def test_a_change_that_would_not_be_sound_changes_nothing(shelf):
    before = add(shelf, "cloth", "heron", LACE)
    with pytest.raises(BadInput, match="must lie between"):
        change(shelf, "cloth", "heron", {"stretch_length": 9000})
    assert show_thing(shelf, "cloth", "heron") == before


@pytest.mark.parametrize("name", HOSTILE)
def test_a_name_of_odd_characters_is_only_a_name(shelf, name):
    add(shelf, "cloth", name, LACE)
    assert [thing.name for thing in list_things(shelf)] == [name]
    remove(shelf, "cloth", name)
    assert list_things(shelf) == []


@pytest.mark.parametrize("name", ["", " ", " heron", "a\nb", "a\x1b[2J", "\u202eabc", "a" * 81, "\ud800"])
def test_a_name_that_no_brief_could_hold_is_refused(shelf, name):
    with pytest.raises(BadInput):
        add(shelf, "cloth", name, LACE)
    with pytest.raises(BadInput, match="is not on the shelf"):
        show_thing(shelf, "cloth", name)
    assert list_things(shelf) == []


def test_a_name_is_taken_once_for_each_kind(shelf):
    add(shelf, "cloth", "heron", LACE)
    add(shelf, "wearer", "heron", IMKE)
    with pytest.raises(BadInput, match="is on the shelf already"):
        add(shelf, "cloth", "heron", LACE)
