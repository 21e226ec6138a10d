"""What holds for every brief."""

from __future__ import annotations

import math
import tomllib

from hypothesis import example, given, settings
from hypothesis import strategies as st

from galloon.brief import brief_from, dump_brief, read_brief, starter_brief, to_data
from galloon.brief.lines import key_lines
from galloon.errors import BadInput, Fault
from tests.support.brief_designs import assert_alike, designs


def faults_of(read) -> tuple[Fault, ...]:
    try:
        read()
    except BadInput as error:
        return error.faults
    return ()


words = st.text(st.characters(blacklist_categories=["Cs"]), max_size=12)
plain = words | st.booleans() | st.integers(-(2**63), 2**63 - 1) | st.floats(allow_nan=False) | st.dates() | st.times()
values = st.recursive(plain, lambda inner: st.lists(inner, max_size=4) | st.dictionaries(words, inner, max_size=4))
tables = st.dictionaries(st.sampled_from(["wearer", "cloth", "elastic", "lace", "title"]) | words, values, max_size=6)


@given(designs())
@settings(max_examples=150, deadline=None)
def test_a_design_written_as_a_brief_reads_back_as_the_same_design(design):
    text = dump_brief(to_data(design))
    assert_alike(read_brief(text, file="b.toml").design, design)


@given(tables)
@settings(max_examples=200, deadline=None)
def test_any_data_written_as_toml_is_read_back_exactly_by_the_standard_reader(data):
    assert tomllib.loads(dump_brief(data)) == data


@given(tables)
@settings(max_examples=150, deadline=None)
def test_every_key_is_found_on_a_line_that_holds_it(data):
    text = dump_brief(data)
    lines = text.split("\n")
    found = key_lines(text)
    for key, value in data.items():
        assert _holds(lines[found[(key,)] - 1], key)
        for inner in value if isinstance(value, dict) else ():
            assert _holds(lines[found[(key, inner)] - 1], inner)


def _holds(line: str, key: str) -> bool:
    return dump_brief({key: 1}).split(" = ")[0].strip() in line


@given(st.text(max_size=300) | st.binary(max_size=300).map(lambda raw: raw.decode("latin-1")))
@settings(max_examples=150, deadline=None)
@example("[" * 5000)
@example("a = " + "[" * 5000)
@example("a = " + "{b=" * 5000)
@example("a" + ".a" * 20000 + " = 1")
@example("a = 0x" + "f" * 9000)
@example("a = " + "9" * 9000)
@example("units = 0x" + "f" * 9000)
@example('"\\ud800" = 1')
@example("a = 2020-99-99")
@example("\x00")
@example("[wearer]\nwaist = 0x" + "f" * 9000)
def test_no_text_raises_anything_but_bad_input(text):
    key_lines(text)
    faults = faults_of(lambda: read_brief(text, file="junk.toml"))
    assert faults
    assert all(fault.file == "junk.toml" and fault.rule for fault in faults)


numbers = [-1, 0, 1e9, math.inf, -math.inf, math.nan, 10**400]
texts = ["", "\n", "../../x", "<b>", "1e9 cm", "shelf", "auto", "\u202e"]
monsters = st.sampled_from([*numbers, *texts, True, [], {}, [[1]], [{}], {"units": 3}])


@given(st.data())
@settings(max_examples=300, deadline=None)
def test_a_sound_brief_with_anything_put_in_the_place_of_one_value_is_read_or_refused(data):
    brief = tomllib.loads(starter_brief())
    around = brief
    key = data.draw(st.sampled_from(sorted(around)))
    while isinstance(around[key], dict | list) and around[key] and data.draw(st.booleans()):
        around = around[key]
        key = data.draw(st.sampled_from(sorted(around) if isinstance(around, dict) else range(len(around))))
    around[key] = data.draw(monsters | values)
    faults = faults_of(lambda: brief_from(brief, file="b.toml"))
    assert all(fault.rule and str(fault).isprintable() for fault in faults)
