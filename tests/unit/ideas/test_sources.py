"""A stock from a brief with or without panels, and from the shelf alone with its leftovers."""

from pathlib import Path

import pytest

from galloon.errors import BadInput
from galloon.ideas import Wish, find_ideas, from_brief, from_shelf
from galloon.store import ShelfOnDemand, add, open_shelf

DEMO = Path("examples/heron-hipster.toml")
IMKE = {"waist": 740, "hip": 1010, "waist_to_hip": 210, "crotch_length": 730}
MESH = {"kind": "mesh", "width": 1500, "stretch_width": 70, "stretch_length": 50, "on_hand": 2000}


def write(tmp_path, text):
    file = tmp_path / "stock.toml"
    file.write_text(text, encoding="utf-8")
    return str(file)


def without_panels():
    text = DEMO.read_text(encoding="utf-8")
    start, end = text.index("[panels]"), text.index("[style]")
    return text[:start] + text[end:].replace("[[lace]]", "#").split("#\nuse")[0]


@pytest.fixture
def shelf(tmp_path):
    with open_shelf(tmp_path / "shelf.db") as one:
        yield one


def test_a_brief_gives_its_wearer_its_cloths_and_the_style_she_asks():
    stock = from_brief(str(DEMO), ShelfOnDemand()).stock
    assert stock.asked
    assert [cloth.name for cloth in stock.laces] == ["heron"]
    assert [cloth.name for cloth in stock.cloths] == ["mesh", "lining"]
    assert stock.linings[0].name == "lining"
    assert stock.waist.name == "picot elastic 10 mm"


def test_a_brief_may_leave_out_the_panels(tmp_path):
    stock = from_brief(write(tmp_path, without_panels()), ShelfOnDemand()).stock
    assert not stock.asked
    assert stock.base.panels.front == "mesh"


def test_a_brief_with_faults_is_refused_with_their_lines(tmp_path):
    with pytest.raises(BadInput, match=r"stock.toml:\d+"):
        from_brief(write(tmp_path, without_panels().replace("hip = 101", "hip = 1")), ShelfOnDemand())


def test_the_shelf_gives_all_cloth_there_is_some_of_and_her_own_elastics(shelf):
    add(shelf, "wearer", "Imke", IMKE)
    add(shelf, "cloth", "mesh", MESH)
    add(shelf, "cloth", "gone", {**MESH, "on_hand": 0})
    add(shelf, "elastic", "soft", {"width": 11, "stretch": 90, "form": "plush"})
    add(shelf, "block", "Imke", {"side": 230})
    stock = from_shelf(shelf, None, buy=False).stock
    assert list(stock.base.cloths) == ["mesh"]
    assert stock.waist.name == "soft"
    assert stock.base.block.side == 230.0
    assert stock.base.units == "cm"
    assert set(from_shelf(shelf, "Imke", buy=True).stock.base.cloths) == {"gone", "mesh"}


def test_which_wearer_must_be_clear_and_some_cloth_there(shelf):
    with pytest.raises(BadInput, match="holds no wearer"):
        from_shelf(shelf, None, buy=False)
    add(shelf, "wearer", "Imke", IMKE)
    with pytest.raises(BadInput, match="holds no cloth"):
        from_shelf(shelf, None, buy=False)
    add(shelf, "wearer", "Odile", IMKE)
    with pytest.raises(BadInput, match=r"--wearer NAME.*Imke, Odile"):
        from_shelf(shelf, None, buy=False)
    with pytest.raises(BadInput, match="wearer Berta"):
        from_shelf(shelf, "Berta", buy=False)


def test_pieces_that_a_leftover_gives_are_named_and_counted(shelf):
    add(shelf, "wearer", "Imke", IMKE)
    add(shelf, "cloth", "mesh", MESH)
    wish = Wish(most=12, processes=1)
    bare = find_ideas(from_shelf(shelf, None, buy=False).stock, wish)
    assert not any(idea.fitted for idea in bare.found)
    assert bare.found[0].scores["leftovers"] == 0.0
    ring = [[0, 0], [300, 0], [300, 250], [0, 250]]
    add(shelf, "leftover", "mesh end", {"cloth": "mesh", "outline": ring})
    found = find_ideas(from_shelf(shelf, None, buy=False).stock, wish).found
    given = [one for idea in found for one in idea.fitted]
    assert given
    assert {one.leftover for one in given} == {"mesh end"}
    assert all(one.area <= 300.0 * 250.0 for one in given)
    assert all("gusset" in one.pieces or "gusset lining" in one.pieces for one in given)
    assert max(idea.scores["leftovers"] for idea in found) > 0.1
