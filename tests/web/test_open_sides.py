"""A design with open sides on the page: every step of it opens, with its gap and its straps."""

import re

import pytest

from galloon.brief import read_brief
from galloon.web.pages import STEPS
from tests.web.test_journey import opened, settled


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


def test_the_sides_are_opened_and_sewn_up_from_the_table(served, window):
    path = served.begin("Opened on the table")
    opened(window, f"{served.address}{path}/table")
    sides, gap = window.locator("#sides"), window.locator('[data-key="gap-waist"]')
    assert (sides.input_value(), gap.count()) == ("sewn", 0)
    settled(window, lambda: sides.select_option("open"))
    assert (sides.input_value(), gap.count()) == ("open", 1)
    settled(window, lambda: window.keyboard.press("Control+z"))
    assert (sides.input_value(), gap.count()) == ("sewn", 0), "the list follows what is undone"
    settled(window, lambda: window.keyboard.press("Control+Shift+z"))
    settled(window, lambda: sides.select_option("sewn"))
    assert "open_side" not in served.ask("GET", f"{path}/brief.toml")[2].decode()
