"""A cut takes its length and puts leftovers worth keeping on the shelf, all or nothing; the last one can be undone."""

import pytest
import shapely

from galloon.errors import BadInput
from galloon.store import (
    Take,
    add,
    book_cut,
    change,
    find,
    list_bookings,
    list_things,
    open_shelf,
    remove,
    show_booking,
    show_thing,
    undo_last,
    worth_keeping,
)  # fmt: skip
from tests.support.shelf_lives import cloth, plan


@pytest.fixture
def shelf(tmp_path):
    with open_shelf(tmp_path / "shelf.sqlite") as opened:
        add(opened, "cloth", "tern", cloth(1000.0))
        add(opened, "cloth", "wren", cloth(500.0))
        yield opened


def on_hand(shelf, name):
    return show_thing(shelf, "cloth", name).data["on_hand"]


def test_a_booking_takes_the_length_of_every_cloth_and_keeps_leftovers_with_outlines(shelf):
    booking = book_cut(shelf, "a cut", [Take("tern", 410.0, plan()), Take("wren", 410.0, plan())])
    assert (on_hand(shelf, "tern"), on_hand(shelf, "wren")) == (590, 90)
    assert {one.cloth: one.taken for one in booking.takings} == {"tern": 410.0, "wren": 410.0}
    left = [show_thing(shelf, "leftover", name).data for name in booking.leftovers]
    assert sorted(one["cloth"] for one in left) == ["tern", "wren"]
    assert all(one["area"] == pytest.approx(shapely.Polygon(one["outline"], one["holes"]).area) for one in left)


def test_leftovers_lie_on_the_cloth_clear_of_every_piece_and_no_part_of_them_is_narrow():
    laid = plan(400.0, 600.0)
    cut = shapely.union_all([shapely.Polygon(one.outline) for one in laid.placed])
    for left in worth_keeping(laid, area=1000.0, width=60.0, clear=3.0):
        whole = shapely.Polygon(left.outline, left.holes)
        start = shapely.affinity.translate(whole, laid.length - whole.bounds[2])
        assert shapely.box(0, 0, laid.length, laid.width).buffer(1e-6).covers(start)
        assert cut.distance(start) >= 2.6
        assert whole.buffer(-29.0).area > 0.0
    assert worth_keeping(laid, area=1e9) == ()


def test_undoing_gives_lengths_back_and_takes_its_leftovers_off_and_keeps_the_record(shelf):
    before = [(one.kind, one.name, one.data) for one in list_things(shelf)]
    book_cut(shelf, "one", [Take("tern", 333.333, plan())])
    book_cut(shelf, "two", [Take("tern", 0.1, plan()), Take("wren", 0.2, plan())])
    assert undo_last(shelf).title == "two"
    assert undo_last(shelf).title == "one"
    assert [(one.kind, one.name, one.data) for one in list_things(shelf)] == before
    assert [one.undone is not None for one in list_bookings(shelf)] == [True, True]
    with pytest.raises(BadInput, match="no booking to undo"):
        undo_last(shelf)


def test_a_cut_longer_than_one_of_its_cloths_books_nothing_at_all(shelf):
    before = list_things(shelf)
    with pytest.raises(BadInput, match=r"50 cm on hand, and the cut needs 50\.1 cm"):
        book_cut(shelf, "long", [Take("tern", 501.0, plan()), Take("wren", 501.0, plan())])
    assert list_things(shelf) == before
    assert list_bookings(shelf) == []


def test_a_cut_of_nothing_or_of_a_cloth_that_is_not_there_is_refused(shelf):
    with pytest.raises(BadInput, match="takes nothing"):
        book_cut(shelf, "none", [])
    with pytest.raises(BadInput, match="is not on the shelf"):
        book_cut(shelf, "none", [Take("stilt", 1.0, plan())])


@pytest.mark.parametrize("spoil", ["leftover changed", "leftover removed", "cloth removed", "length forgotten"])
def test_an_undo_that_cannot_give_back_what_was_taken_is_refused_and_changes_nothing(shelf, spoil):
    (left,) = book_cut(shelf, "a cut", [Take("tern", 10.0, plan())]).leftovers
    if spoil == "leftover changed":
        change(shelf, "leftover", left, {"note": "a corner used"})
    elif spoil == "length forgotten":
        change(shelf, "cloth", "tern", {"on_hand": None})
    else:
        remove(shelf, "leftover", left)
        if spoil == "cloth removed":
            remove(shelf, "cloth", "tern")
    before = list_things(shelf)
    with pytest.raises(BadInput, match="cannot be undone"):
        undo_last(shelf)
    assert list_things(shelf) == before
    assert list_bookings(shelf)[0].undone is None


def test_a_cloth_of_unknown_length_is_booked_without_a_length(shelf):
    add(shelf, "cloth", "stilt", {key: value for key, value in cloth().items() if key != "on_hand"})
    booking = book_cut(shelf, "a cut", [Take("stilt", 10.0, plan())])
    assert booking.takings[0].taken == 0.0
    assert "on_hand" not in show_thing(shelf, "cloth", "stilt").data
    undo_last(shelf)
    assert find(shelf, "leftover", booking.leftovers[0]) is None


def test_a_leftover_name_is_never_used_again(shelf):
    first = book_cut(shelf, "a cut", [Take("tern", 10.0, plan())]).leftovers
    undo_last(shelf)
    second = book_cut(shelf, "a cut", [Take("tern", 10.0, plan())]).leftovers
    assert not set(first) & set(second)
    with pytest.raises(BadInput, match="is not on the shelf"):
        show_booking(shelf, 99)
