"""A large page in sheets shows all of it, on as few sheets as the paper allows, under nothing."""

import math

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from galloon.drawing import (
    A0,
    A3,
    A4,
    LETTER,
    Page,
    Path,
    RecordingCanvas,
    TextStyle,
    TileSettings,
    listing,
    paper,
    plan_tiles,
    tile,
)
from galloon.errors import BadValue, CannotMake
from tests.support.golden import assert_golden
from tests.support.sketch import large_page, small_sheet, square, wavy_ring

A4_TILES = TileSettings(A4)


@settings(max_examples=40, deadline=None)
@given(st.floats(1.0, 1500.0), st.floats(1.0, 1500.0), st.sampled_from([A4, LETTER, A3]))
def test_every_point_of_the_drawing_is_on_a_sheet(width, height, sheet):
    ring = wavy_ring(300.0, 200.0, width / 2.0)
    page = large_page(ring, Path.line((-50.0, 200.0), (-50.0 + width, 200.0 + height)))
    plan = plan_tiles(page, TileSettings(sheet))
    windows = shapely.union_all([shapely.box(*each.window) for each in plan.tiles])
    inside = shapely.Polygon(ring.flat())
    assert windows.buffer(1e-6).covers(inside)
    assert windows.buffer(1e-6).covers(shapely.LineString([(-50.0, 200.0), (-50.0 + width, 200.0 + height)]))


@settings(max_examples=40, deadline=None)
@given(st.floats(1.0, 1200.0), st.floats(1.0, 1200.0))
def test_neighbours_share_just_the_overlap(width, height):
    plan = plan_tiles(large_page(Path.rectangle(0.0, 0.0, width, height)), A4_TILES)
    for each in plan.tiles:
        if beside := plan.at(each.row, each.column + 1):
            assert each.window[2] - beside.window[0] == pytest.approx(10.0)
        if below := plan.at(each.row + 1, each.column):
            assert below.window[3] - each.window[1] == pytest.approx(10.0)


@pytest.mark.parametrize(("width", "height"), [(180.0, 250.0), (250.0, 160.0), (500.0, 300.0), (700.0, 500.0)])
def test_the_paper_lies_the_way_that_needs_fewer_sheets(width, height):
    page = large_page(Path.rectangle(0.0, 0.0, width, height))
    counts = []
    for w, h in ((190.0, 261.0), (277.0, 174.0)):  # windows on A4 with 10 mm margins and 16 mm for the footer
        counts.append(math.prod(math.ceil((s + 4.4 - 10) / (side - 10)) for s, side in ((width, w), (height, h))))
    assert len(plan_tiles(page, A4_TILES).tiles) == min(counts)


def test_sheets_without_anything_on_them_are_left_out():
    plan = plan_tiles(large_page(square(0, 0, 30), square(600, 600, 30)), A4_TILES)
    assert [each.label for each in plan.tiles] == [f"A{plan.columns}", f"{'ABCDEFG'[plan.rows - 1]}1"]


def test_a_sheet_within_an_outline_is_kept_since_its_paper_is_cut_too():
    plan = plan_tiles(large_page(square(0, 0, 800)), A4_TILES)
    assert len(plan.tiles) == plan.rows * plan.columns


def test_an_open_line_does_not_keep_the_sheets_it_goes_round():
    horseshoe = Path.polyline([(0, 0), (0, 900), (900, 900), (900, 0)])
    plan = plan_tiles(large_page(horseshoe), A4_TILES)
    assert len(plan.tiles) < plan.rows * plan.columns


def test_a_line_that_only_an_overlap_shows_asks_for_no_sheet_of_its_own():
    plan = plan_tiles(large_page(square(0, 0, 10), Path.dot((400.0, 0.0))), A4_TILES)
    for each in plan.tiles:
        assert plan.at(each.row, each.column) is each
    assert len(plan.tiles) == 2


@pytest.mark.parametrize(("row", "letters"), [(0, "A"), (25, "Z"), (26, "AA"), (27, "AB")])
def test_rows_are_lettered_like_columns_of_a_table(row, letters):
    column = large_page(Path.rectangle(0.0, 0.0, 100.0, 30 * 251.0), height=8000.0)
    labels = [each.label for each in plan_tiles(column, A4_TILES).tiles]
    assert labels[row] == f"{letters}1"


def test_every_sheet_has_the_size_of_the_paper_and_its_label_for_a_name():
    drawing = tile(large_page(Path.rectangle(0, 0, 300, 300)), A4_TILES, title="T")
    assert drawing.pages[0].name == "first"
    assert {each.name for each in drawing.pages[1:]} == {"A1", "A2", "B1", "B2"}
    assert {tuple(sorted((each.width, each.height))) for each in drawing.pages} == {(210.0, 297.0)}


def test_a_join_has_the_same_number_on_both_of_its_sheets():
    drawing = tile(large_page(Path.rectangle(0, 0, 300, 300)), A4_TILES)
    numbers = {
        page.name: {mark.words for mark in page.marks if mark.layer == "join marks" and hasattr(mark, "words")}
        for page in drawing.pages[1:]
    }
    assert numbers == {"A1": {"1", "2"}, "A2": {"1", "3"}, "B1": {"2", "4"}, "B2": {"3", "4"}}


def test_join_marks_lie_beneath_the_drawing_and_labels_outside_its_window():
    drawing = tile(large_page(Path.rectangle(0, 0, 300, 300)), A4_TILES, title="A title")
    for page in drawing.pages[1:]:
        assert page.layers == ("join marks", "cut line", "sheet labels")
        labels = [
            mark for mark in page.marks if mark.layer == "sheet labels" and getattr(mark, "pen", None) != frame(page)
        ]
        assert all(mark.bounds[3] <= 26.0 for mark in labels)
        assert all(mark.bounds[0] >= 9.8 and mark.bounds[2] <= page.width - 9.8 for mark in labels)
        assert all(mark.bounds[1] >= 10.0 for mark in labels)


def frame(page):
    return next(mark.pen for mark in page.marks if getattr(mark, "pen", None) and mark.pen.name == "frame")


def test_what_the_sheets_show_of_the_drawing_is_clipped_to_their_window():
    drawing = tile(large_page(Path.rectangle(0, 0, 300, 300)), A4_TILES)
    for page in drawing.pages[1:]:
        (shown,) = [mark for mark in page.marks if mark.layer == "cut line"]
        assert shown.clip[0][0].bounds == (10.0, 26.0, page.width - 10.0, page.height - 10.0)


@pytest.mark.parametrize("sheet", [A4, LETTER, A3, A0])
def test_the_first_sheet_has_both_squares_and_nothing_runs_off_it(sheet):
    first = tile(small_sheet().pages[0], TileSettings(sheet), title="T " * 300, notes=("note " * 900,)).pages[0]
    sides = [mark.path.bounds for mark in first.marks if getattr(mark, "pen", None) and mark.pen.name == "square"]
    assert sorted(round(right - left, 6) for left, _, right, _ in sides) == [100.0, 101.6]
    assert sorted(round(top - bottom, 6) for _, bottom, _, top in sides) == [100.0, 101.6]
    for mark in first.marks:
        left, bottom, right, top = mark.bounds
        assert left >= 9.0
        assert bottom >= 9.0
        assert right <= first.width - 9.0
        assert top <= first.height - 9.0


@pytest.mark.parametrize("sheet", [A4, LETTER, A3])
def test_the_first_sheet_keeps_every_word_of_two_long_notes(sheet):
    notes = ("pieces " * 40 + "first.", "lines " * 45 + "last.")
    first = tile(small_sheet().pages[0], TileSettings(sheet), title="Sheets", notes=notes).pages[0]
    words = " ".join(mark.words for mark in first.marks if getattr(mark, "words", ""))
    assert "first." in words
    assert "last." in words
    assert "…" not in words


def test_the_sheets_of_a_small_drawing_read_as_kept():
    canvas = RecordingCanvas("Two rings")
    canvas.begin_page(400.0, 200.0, name="rings")
    canvas.layer("cut line")
    for x in (60.0, 330.0):
        canvas.stroke(
            wavy_ring(x, 100.0, 50.0, points=12), frame(tile(large_page(square(0, 0, 300)), A4_TILES).pages[1])
        )
    canvas.layer("text")
    canvas.text("ring", (60.0, 100.0), style=TextStyle(6.0))
    canvas.end_page()
    drawing = canvas.drawing()
    sheets = tile(drawing.pages[0], A4_TILES, title="Two rings", notes=("A note.",))
    assert_golden(listing(sheets), "drawing/two_rings_a4.txt")


def test_an_empty_page_cannot_be_tiled():
    with pytest.raises(CannotMake, match="nothing on it"):
        plan_tiles(Page("bare", 100.0, 100.0), A4_TILES)


def test_a_drawing_of_absurd_size_is_refused_before_it_fills_the_tray():
    with pytest.raises(CannotMake, match="more than 400 sheets of A4"):
        plan_tiles(large_page(square(0, 0, 20_000)), A4_TILES)


def test_strips_that_leave_no_window_are_refused():
    with pytest.raises(BadValue, match="window"):
        TileSettings(A4, margin=100.0)
    with pytest.raises(BadValue, match="negative"):
        TileSettings(A4, overlap=-1.0)


@pytest.mark.parametrize("name", ["a4", "A4", " Letter ", "a0"])
def test_paper_is_found_by_its_name(name):
    assert paper(name).name.lower() == name.strip().lower()


def test_paper_that_is_not_known_is_refused_with_those_that_are():
    with pytest.raises(BadValue, match="a0, a1, a2, a3, a4, letter"):
        paper("foolscap")
