"""The starter brief."""

from __future__ import annotations

import pytest

from galloon.brief import read_brief, starter_brief
from galloon.errors import BadValue


@pytest.mark.parametrize("units", ["mm", "cm", "in"])
def test_the_starter_brief_can_be_read_as_it_is_and_nothing_in_it_is_unusual(units):
    brief = read_brief(starter_brief(units), file="starter.toml")
    assert brief.findings == ()
    assert brief.design.units == units
    assert brief.design.wearer.hip == pytest.approx(1010.0, abs=1.0)
    assert brief.design.cloths["heron"].width == pytest.approx(290.0, abs=3.0)


@pytest.mark.parametrize("units", ["mm", "cm", "in"])
def test_every_line_that_is_commented_out_can_be_used_by_taking_the_mark_away(units):
    text = starter_brief(units)
    started = text[text.index("title =") :]
    used = "\n".join(line.removeprefix("# ") for line in started.splitlines())
    design = read_brief(used, file="starter.toml").design
    assert design.block.side == pytest.approx(230.0, abs=2.0)
    assert design.cloths["mesh"].pull_tests[0].strip == 50.0
    assert design.cloths["heron"].motif_up
    assert (design.open_side.waist, design.open_side.straps) == (80.0, 3)


def test_a_starter_in_an_unknown_unit_is_refused():
    with pytest.raises(BadValue, match="units"):
        starter_brief("ell")
