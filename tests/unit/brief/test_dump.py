"""Brief data as TOML text."""

from __future__ import annotations

import tomllib

import pytest

from galloon.brief import dump_brief, read_brief, starter_brief, to_data
from galloon.errors import BadValue
from tests.support.brief_designs import assert_alike
from tests.support.briefs import FULL


def test_tables_come_in_one_order_whatever_order_they_are_given_in():
    data = tomllib.loads(FULL)
    assert dump_brief(dict(reversed(data.items()))) == dump_brief(data)


def test_a_brief_reads_like_one_written_by_hand():
    data = {
        "cloth": {"b c": {"kind": "mesh", "shrink": {"length": 3}}, "heron": "shelf"},
        "units": "cm",
        "motif": [{"outline": [[0, 0], [1.5, 2]], "stretches": False}],
    }
    assert dump_brief(data) == (
        'units = "cm"\n\n[cloth]\nheron = "shelf"\n\n[cloth."b c"]\nkind = "mesh"\nshrink = { length = 3 }\n\n'
        "[[motif]]\noutline = [[0, 0], [1.5, 2]]\nstretches = false\n"
    )


def test_a_long_outline_is_broken_into_lines():
    text = dump_brief({"motif": [{"outline": [[float(x), 0.25] for x in range(200)]}]})
    assert max(map(len, text.split("\n"))) <= 100
    assert len(tomllib.loads(text)["motif"][0]["outline"]) == 200


@pytest.mark.parametrize("value", [None, object(), b"bytes", "\ud800"])
def test_what_toml_cannot_hold_is_refused(value):
    with pytest.raises(BadValue):
        dump_brief({"title": value})


@pytest.mark.parametrize("text", [FULL, starter_brief("in"), starter_brief("mm")])
def test_a_brief_goes_through_its_design_and_back(text):
    design = read_brief(text, file="a.toml").design
    written = dump_brief(to_data(design))
    assert_alike(read_brief(written, file="b.toml").design, design)
    assert dump_brief(to_data(read_brief(written, file="b.toml").design)) == written


def test_figures_are_written_without_the_noise_of_conversion():
    written = dump_brief(to_data(read_brief(FULL, file="a.toml").design))
    assert "scallop_pitch = 4.2\n" in written
    assert "stretch_length = 55\n" in written
    assert "hip = 101\n" in written
