"""A design with open sides on the page: every step of it opens, with its gap and its straps."""

import re

import pytest

from galloon.brief import read_brief
from galloon.web.pages import STEPS


@pytest.fixture(scope="module")
def path(served):
    made = served.begin("Open sides")
    changes = [[["open_side"], {"gap": "7 cm", "straps": 3}], [["finish", "side"], "hem"]]
    assert served.post(f"{made}/keep", {"changes": changes})[0] == 200
    return made


@pytest.mark.parametrize("step", STEPS)
def test_every_step_opens(served, path, step):
    status, _, body = served.ask("GET", f"{path}/{step}")
    assert status == 200
    assert b"Open sides" in body


def test_the_table_says_how_wide_the_gap_comes_out_and_keeps_the_brief(served, path):
    page = served.ask("GET", f"{path}/table")[2].decode()
    assert re.search(r"open side shows a gap of about", page)
    brief = read_brief(served.ask("GET", f"{path}/brief.toml")[2].decode(), file="b.toml").design
    assert (brief.open_side.waist, brief.open_side.straps, brief.finishes.side.kind.value) == (70.0, 3, "hem")


def test_a_change_of_the_gap_is_answered(served, path):
    status, answer = served.post(f"{path}/try", {"changes": [[["open_side", "gap"], "5 cm"]]})
    assert status == 200
    assert "gap of about" in str(answer)


def test_the_edge_of_an_open_side_has_its_finish_among_the_others(served, path):
    page = served.ask("GET", f"{path}/cloth")[2].decode()
    row = page[page.index('data-zone="side"') :].partition("</select>")[0]
    assert re.search(r'<option[^>]*value="hem"[^>]* selected', row)
    shut = served.begin("Shut sides")
    assert 'data-zone="side"' not in served.ask("GET", f"{shut}/cloth")[2].decode()
