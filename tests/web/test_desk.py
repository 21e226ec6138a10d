"""Changes of plain data, undo and redo, and what is on the shelf after each."""

import pytest

from galloon.errors import BadInput
from galloon.web.desk import Desk, changed


@pytest.fixture
def desk(tmp_path):
    desk = Desk(tmp_path / "shelf.sqlite")
    desk.start("One")
    return desk


def on_shelf(tmp_path):
    return Desk(tmp_path / "shelf.sqlite").document("One").data


def test_a_change_makes_the_tables_on_its_way_and_leaves_the_old_data_alone():
    old = {"style": {"shape": "brief"}, "lace": [{"use": "panel"}]}
    new = changed(old, [(("finish", "waist"), "hem"), (("lace", 0, "meet"), "peak"), (("style", "shape"), None)])
    assert new == {"style": {}, "lace": [{"use": "panel", "meet": "peak"}], "finish": {"waist": "hem"}}
    assert old == {"style": {"shape": "brief"}, "lace": [{"use": "panel"}]}


def test_every_kept_change_is_on_the_shelf_at_once(desk, tmp_path):
    for title in ("A", "B", "C"):
        desk.keep("One", [(("title",), title)])
        assert on_shelf(tmp_path)["title"] == title


def test_undo_and_redo_go_all_the_way_and_are_kept(desk, tmp_path):
    first = desk.document("One").data
    for number in range(60):
        desk.keep("One", [(("style", "leg_raise"), f"{number} mm")])
    last = desk.document("One").data
    for _ in range(70):
        desk.undo("One")
    assert desk.document("One").data == first == on_shelf(tmp_path)
    for _ in range(70):
        desk.redo("One")
    assert desk.document("One").data == last == on_shelf(tmp_path)


def test_a_new_change_after_undo_ends_what_could_be_redone(desk):
    desk.keep("One", [(("title",), "A")])
    desk.undo("One")
    desk.keep("One", [(("title",), "B")])
    desk.redo("One")
    assert desk.document("One").data["title"] == "B"


def test_a_change_that_makes_no_brief_changes_nothing(desk, tmp_path):
    before = desk.document("One").data
    with pytest.raises(BadInput):
        desk.keep("One", [(("wearer", "hip"), -3)])
    assert desk.document("One").data == before == on_shelf(tmp_path)
    assert desk.document("One").version == 1


def test_changes_from_two_windows_both_stand(desk):
    """Each sends only what it changed, laid on the newest data."""
    desk.keep("One", [(("style", "leg_raise"), "33 mm")])
    desk.keep("One", [(("title",), "Both")])
    data = desk.document("One").data
    assert (data["style"]["leg_raise"], data["title"]) == ("33 mm", "Both")
