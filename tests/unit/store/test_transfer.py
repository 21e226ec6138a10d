"""Everything goes out as one JSON file that another machine reads; old pattern versions stay as they were."""

import json

import pytest

from galloon.errors import BadInput
from galloon.store import (
    Take,
    add,
    book_cut,
    export_all,
    import_all,
    keep_version,
    list_bookings,
    list_things,
    list_versions,
    open_shelf,
    read_export,
    remove_version,
    show_version,
    undo_last,
)  # fmt: skip
from tests.support.shelf_lives import cloth, plan

BRIEF = {
    "title": "Tern", "units": "cm", "wearer": {"waist": 74, "hip": 101, "waist_to_hip": 21, "crotch_length": 73},
    "cloth": {"tern": {"kind": "knit", "width": 150, "stretch_width": 60, "stretch_length": 50}},
    "panels": {"front": "tern", "back": "tern", "gusset": "tern"},
}  # fmt: skip
DRAWING = {
    "pieces": {
        "front": {"outline": [[0, 0], [90, 0], [0, 50]], "edges": [{"name": "leg", "start": 0, "end": 3}]},
    }
}


@pytest.fixture
def shelf(tmp_path):
    with open_shelf(tmp_path / "one.sqlite") as opened:
        yield opened


@pytest.fixture
def other(tmp_path):
    with open_shelf(tmp_path / "two.sqlite") as opened:
        yield opened


def fill(shelf):
    add(shelf, "cloth", "tern", cloth(1000.0))
    add(shelf, "brief", "spelled out", BRIEF)
    add(shelf, "drawing", "old § lace", DRAWING)
    version = keep_version(shelf, "Tern", BRIEF, "outlines")
    book_cut(shelf, "one", [Take("tern", 10.0, plan())], version)
    book_cut(shelf, "two", [Take("tern", 20.0, plan())])
    undo_last(shelf)


def test_what_is_exported_and_imported_on_another_shelf_exports_the_same_again(shelf, other):
    fill(shelf)
    text = export_all(shelf)
    assert import_all(other, text, file="a.json") == 4
    assert export_all(other) == text
    assert undo_last(other).title == "one"


def test_importing_twice_adds_nothing(shelf, other):
    fill(shelf)
    import_all(other, export_all(shelf), file="a.json")
    assert import_all(other, export_all(shelf), file="a.json") == 0
    assert len(list_bookings(other)) == 2


def test_a_name_that_means_something_else_here_takes_nothing_in_unless_replaced(shelf, other):
    fill(shelf)
    add(other, "cloth", "tern", cloth(77.0))
    with pytest.raises(BadInput, match="is another; nothing was taken in"):
        import_all(other, export_all(shelf), file="a.json")
    assert [one.name for one in list_things(other)] == ["tern"]
    import_all(other, export_all(shelf), file="a.json", replace=True)
    assert export_all(other) == export_all(shelf)


@pytest.mark.parametrize(
    "spoil",
    [
        lambda document: document.pop("things"),
        lambda document: document["things"][0].pop("data"),
        lambda document: document["things"][0].update(kind="spell"),
        lambda document: document["things"][0]["data"].update(width=-1),
        lambda document: document["versions"][0].update(number="x"),
        lambda document: document["bookings"][0].update(title=None),
        lambda document: document["bookings"][0]["takings"][0].update(cloth="nowhere"),
        lambda document: document["bookings"][0].update(leftovers=3),
    ],
)
def test_an_export_that_was_meddled_with_is_refused_and_nothing_of_it_taken_in(shelf, other, spoil):
    fill(shelf)
    document = json.loads(export_all(shelf))
    spoil(document)
    with pytest.raises(BadInput):
        import_all(other, json.dumps(document), file="a.json")
    assert (list_things(other), list_versions(other), list_bookings(other)) == ([], [], [])


@pytest.mark.parametrize("text", ["", "{", "[]", "{}", '{"format": "galloon-shelf 2"}', "[" * 200_000])
def test_a_file_that_is_no_export_is_refused(other, text):
    with pytest.raises(BadInput, match=r"JSON|must be"):
        import_all(other, text, file="a.json")


def test_a_file_that_cannot_be_read_is_told(tmp_path):
    (tmp_path / "raw").write_bytes(b"\xff\xfe")
    for path in (tmp_path / "raw", tmp_path, tmp_path / "nowhere"):
        with pytest.raises(BadInput, match=r"UTF-8|cannot be read"):
            read_export(path)


def test_a_version_is_kept_once_for_the_same_pattern_and_counted_up_for_another(shelf):
    assert keep_version(shelf, "Tern", BRIEF, "outlines").number == 1
    assert keep_version(shelf, "Tern", BRIEF, "outlines").number == 1
    assert keep_version(shelf, "Tern", BRIEF, "other outlines").number == 2
    changed = {**BRIEF, "style": {"leg_raise": 1}}
    assert keep_version(shelf, "Tern", changed, "outlines").number == 3
    assert show_version(shelf, "Tern", 1).data == BRIEF
    assert show_version(shelf, "Tern").number == 3
    with pytest.raises(BadInput, match="Tern 1 to 3"):
        show_version(shelf, "Tern", 4)


def test_a_version_that_something_was_cut_from_cannot_be_removed(shelf):
    fill(shelf)
    with pytest.raises(BadInput, match="something was cut from it"):
        remove_version(shelf, "Tern", 1)
    keep_version(shelf, "Tern", BRIEF, "other")
    remove_version(shelf, "Tern", 2)
    assert [one.number for one in list_versions(shelf)] == [1]


@pytest.mark.parametrize(
    "edges",
    [
        [{"name": "leg", "start": 0, "end": 2}],
        [{"name": "leg", "start": 0, "end": 9}],
        [{"name": "leg", "start": 0}],
        [{"name": "leg", "start": True, "end": 3}],
        "leg",
    ],
)
def test_a_drawing_whose_edges_do_not_go_round_is_refused(shelf, edges):
    with pytest.raises(BadInput, match="edges"):
        add(shelf, "drawing", "old", {"pieces": {"front": {**DRAWING["pieces"]["front"], "edges": edges}}})
