"""Every name either prints rightly or is refused by the name of its character."""

import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from galloon.drawing import shorten, text_width, unprintable, wrap
from galloon.drawing.fonts import in_print_order, normal, require_printable
from galloon.errors import CannotMake

printable = st.text(st.characters(codec="cp1250", exclude_categories=("Cc", "Cf", "Zs")) | st.just(" "), max_size=40)


@pytest.mark.parametrize(
    "name",
    [
        "",
        "Heron hipster",
        "Łódź",
        "Zoë Ångström",
        "Đặng Thị Huệ",
        "Ольга",
        "Ελένη",
        "שירה",
        "½ in × 3 – “ok”",
        "<b>&amp;",
    ],
)
def test_names_of_many_alphabets_can_be_printed(name):
    assert unprintable(name) == ()
    require_printable(name)


@pytest.mark.parametrize(
    ("text", "named"),
    [
        ("sew 🧵", "🧵 (U+1F9F5 SPOOL OF THREAD)"),
        ("سارة", "س (U+0633 ARABIC LETTER SEEN)"),
        ("縫", "縫 (U+7E2B CJK UNIFIED IDEOGRAPH-7E2B)"),
        ("a\x00", "U+0000 control character"),
        ("two\nlines", "U+000A control character"),
        ("evil\u202egpj", "U+202E RIGHT-TO-LEFT OVERRIDE"),
        ("x\u0338", "U+0338 COMBINING LONG SOLIDUS OVERLAY"),
        ("hid\u200bden", "U+200B ZERO WIDTH SPACE"),
        ("\ud800", "U+D800 control character"),
        ("\ue000", "U+E000 control character"),
    ],
)
def test_what_cannot_be_printed_is_named(text, named):
    assert named in unprintable(text)
    with pytest.raises(CannotMake) as caught:
        require_printable(text)
    assert named in str(caught.value)
    assert str(caught.value).isprintable()


def test_each_refused_character_is_named_once_in_order():
    assert unprintable("🧵a🪡🧵") == ("🧵 (U+1F9F5 SPOOL OF THREAD)", "🪡 (U+1FAA1 SEWING NEEDLE)")


def test_letters_and_their_marks_are_melted_together():
    assert normal("e\u0301") == "é"
    assert unprintable("e\u0301") == ()
    assert text_width("e\u0301", 4.0) == text_width("é", 4.0)


@given(st.characters(exclude_categories=("Cs",)))
def test_a_character_that_is_let_through_has_a_glyph_and_a_width(char):
    if not unprintable(char):
        assert text_width(char, 1.0) > 0.0
        assert unicodedata.category(normal(char)[0])[0] in "LNPSZ"


def test_right_to_left_words_are_laid_out_from_the_left():
    assert in_print_order("for שלום 12") == "for 12 םולש"
    assert in_print_order("plain") == "plain"


@given(printable, st.floats(5.0, 200.0))
def test_shortened_words_fit_their_room(text, room):
    short = shorten(text, 4.0, room)
    assert text_width(short, 4.0) <= room or short == "…"
    if text_width(text, 4.0) <= room:
        assert short == text


@given(printable, st.floats(8.0, 200.0))
def test_wrapped_lines_fit_their_room_and_lose_no_letter(text, room):
    lines = wrap(text, 4.0, room)
    assert all(text_width(line, 4.0) <= room for line in lines)
    assert "".join("".join(lines).split()) == "".join(normal(text).split())


def test_lines_break_at_spaces():
    assert wrap("back and front and gusset", 4.0, 20.0) == ("back and", "front and", "gusset")


def test_no_words_are_one_empty_line():
    assert wrap("", 4.0, 20.0) == ("",)
