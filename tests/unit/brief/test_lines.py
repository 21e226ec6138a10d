"""The line of each key."""

from __future__ import annotations

import pytest

from galloon.brief.lines import key_lines, line_of

TEXT = '''\
title = "a # [not.a.table]"  # = comment
'quoted key'.inner = 1
"with \\"marks\\"" = """
[wearer]
waist = 3
"""
points = [
  [1, 2],  # ]
  [3,
   4],
]
drop = { front = 1, side.deep = [1, 2], "back" = '}' }

[cloth.heron]
width = 3
[ cloth . "b.c" ]
width = 4

[[lace]]
use = 1
[[lace]]
use = 2
[lace.more]
lap = 3
[[lace.part]]
at = 1
[[lace.part]]
at = 2
'''


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("title",), 1),
        (("quoted key",), 2),
        (("quoted key", "inner"), 2),
        (('with "marks"',), 3),
        (("points",), 7),
        (("points", 0), 8),
        (("points", 1), 9),
        (("points", 1, 1), 10),
        (("drop",), 12),
        (("drop", "side"), 12),
        (("drop", "side", "deep"), 12),
        (("drop", "back"), 12),
        (("cloth",), 14),
        (("cloth", "heron"), 14),
        (("cloth", "heron", "width"), 15),
        (("cloth", "b.c"), 16),
        (("cloth", "b.c", "width"), 17),
        (("lace",), 19),
        (("lace", 0, "use"), 20),
        (("lace", 1), 21),
        (("lace", 1, "use"), 22),
        (("lace", 1, "more", "lap"), 24),
        (("lace", 1, "part", 1, "at"), 28),
    ],
)
def test_each_key_is_found_on_its_line(path, line):
    assert key_lines(TEXT)[path] == line


def test_nothing_inside_text_counts_as_a_key():
    assert ("wearer",) not in key_lines(TEXT)
    assert ("not",) not in key_lines(TEXT)


def test_what_has_no_line_gets_the_line_of_what_it_lies_in():
    found = key_lines(TEXT)
    assert line_of(found, ("cloth", "heron", "height")) == 14
    assert line_of(found, ("cloth", "heron", "shrink", "length")) == 14
    assert line_of(found, ("absent",)) == 1
    assert line_of({}, ()) is None


def test_lines_end_as_on_any_machine():
    assert key_lines("a = 1\r\nb = 2\r\n") == {("a",): 1, ("b",): 2}


@pytest.mark.parametrize("text", ["a = [1, [2", "[a", "= 3", 'a = "open', "a = {b = 1", "[[a]\nb = 1", "a = [" * 5000])
def test_broken_text_gives_the_keys_before_the_break(text):
    assert isinstance(key_lines("first = 1\n" + text), dict)
    assert key_lines("first = 1\n" + text)[("first",)] == 1
