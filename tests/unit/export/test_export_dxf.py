"""DXF comes out as one block a page, on numbered layers, in millimetres."""

import pytest

from galloon.drawing import Matrix, Path, Pen, Picture, RecordingCanvas, TextStyle
from galloon.errors import BadValue, CannotMake
from galloon.export import D6673_LAYERS, to_dxf
from tests.support.golden import assert_golden
from tests.support.sketch import small_sheet

LAYERS = {"cut line": 1, "stitch line": 14, "lace": 8, "text": 15}


def text_of(drawing, layers=LAYERS):
    return to_dxf(drawing, layers=layers).decode("cp1252")


def pages(*names, words="x"):
    canvas = RecordingCanvas()
    for name in names:
        canvas.begin_page(100.0, 50.0, name=name)
        canvas.layer("text")
        canvas.text(words, (1.0, 1.0), style=TextStyle(5.0))
        canvas.end_page()
    return canvas.drawing()


def words_of(text):
    pairs = list(zip(*[iter(text.splitlines())] * 2, strict=True))
    start = pairs.index(("  2", "BLOCKS"))
    return next(value for code, value in pairs[start:] if code == "  1")


def test_a_page_as_dxf_reads_as_kept():
    assert_golden(text_of(small_sheet(), {"lace": 8, "text": 15}), "drawing/sketch.dxf")


def test_the_file_says_its_unit_and_claims_no_conformity():
    text = text_of(small_sheet())
    assert "$INSUNITS\n 70\n4\n" in text
    assert "UNITS: MILLIMETRES" in text
    assert text.count("from memory; no conformity claimed") + text.count("FROM MEMORY, NO CONFORMITY CLAIMED") == 2


def test_a_layer_the_table_leaves_out_is_left_out():
    assert "POLYLINE" not in text_of(small_sheet(), {"text": 15})


def test_blocks_have_plain_names_each_once():
    text = text_of(pages("Back & side", "back & side", "שלום", "x" * 60))
    names = [line for before, line in zip(text.splitlines(), text.splitlines()[1:], strict=False) if before == "  2"]
    blocks = [name for name in names if name.startswith(("BACK", "PAGE", "XXX"))][:4]
    assert blocks == ["BACK___SIDE", "BACK___SIDE_2", "PAGE", "X" * 24]


def test_letters_outside_the_code_page_are_spelt_by_number():
    assert words_of(text_of(pages("p", words="Łódź ½"))) == "\\U+0141ód\\U+017A ½"


@pytest.mark.parametrize(("words", "kept"), [("100 %", "100 %"), ("5%%d", "5%%%%%%d"), ("a\\P", "a\\U+005CP")])
def test_words_cannot_start_a_control_code(words, kept):
    assert words_of(text_of(pages("p", words=words))) == kept


def test_a_dot_is_a_point():
    canvas = RecordingCanvas()
    canvas.begin_page(10.0, 10.0)
    canvas.layer("notches")
    canvas.stroke(Path.dot((3.0, 4.0)), Pen("n", 0.3))
    canvas.end_page()
    assert "  0\nPOINT\n  8\n4\n 10\n3\n 20\n4\n" in text_of(canvas.drawing(), D6673_LAYERS)


def test_a_picture_on_a_wanted_layer_is_refused():
    canvas = RecordingCanvas()
    canvas.begin_page(10.0, 10.0)
    canvas.layer("lace")
    canvas.image(Picture(1, 1, b"abc"), Matrix())
    canvas.end_page()
    with pytest.raises(CannotMake, match="cannot hold a picture"):
        text_of(canvas.drawing())
    assert "POLYLINE" not in text_of(canvas.drawing(), {"text": 15})


@pytest.mark.parametrize("number", [-1, 256, 1.5])
def test_a_layer_number_out_of_range_is_refused(number):
    with pytest.raises(BadValue, match="0 to 255"):
        text_of(small_sheet(), {"cut line": number})


def test_the_standard_table_has_each_number_once_and_leaves_twelve_blank():
    assert sorted(D6673_LAYERS.values()) == [*range(1, 12), 13, 14, 15]
