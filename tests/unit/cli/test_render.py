"""Tables and sentences on a terminal line up, wrap, and cannot be steered by a name."""

import pytest

from galloon.cli.render import places, plain, sentence, table


def test_columns_line_up_under_their_header_and_numbers_are_set_right():
    assert table(["piece", "mm²"], [["front", "9"], ["gusset", "1234"]], right=[1], width=80).splitlines() == [
        "piece    mm²",
        "------  ----",
        "front      9",
        "gusset  1234",
    ]


def test_the_last_column_wraps_to_the_width_and_the_others_stay_blank_beside_it():
    lines = table(["check", "says"], [["waist", "open the waist by cutting it lower down"]], width=40).splitlines()
    assert all(len(line) <= 40 for line in lines)
    assert lines[2:] == ["waist  open the waist by cutting it", "       lower down"]


def test_an_empty_table_is_its_header():
    assert table(["a", "b"], [], width=80).splitlines() == ["a  b", "-  -"]


@pytest.mark.parametrize(("text", "wide"), [("abc", 3), ("é", 1), ("e\u0301", 1), ("花", 2), ("פרח", 3), ("🌸", 2)])
def test_places_counts_what_a_terminal_shows(text, wide):
    assert places(text) == wide


def test_wide_names_keep_the_columns_in_line():
    rows = table(["lace", "width"], [["花", "24"], ["heron", "24"]], width=80).splitlines()[2:]
    assert [places(row) for row in rows] == [9, 9]


@pytest.mark.parametrize("ch", ["\x1b", "\n", "\r", "\x07", "\u202e", "\u2066", "\x00"])
def test_a_name_cannot_steer_the_terminal(ch):
    assert ch not in plain(f"her{ch}on")
    assert ch not in table([f"a{ch}"], [[f"b{ch}"]], width=80).replace("\n", "", 2)
    assert ch not in sentence(f"one{ch}two")


def test_a_sentence_wraps_with_its_indent():
    assert sentence("the back governs the drop", indent="  ", width=14) == "  the back\n  governs the\n  drop"
