"""The pages for makers say what the program does: finishes are made from its tables, every key of a seam plan reads."""

import re
import runpy

import pytest

from galloon import defaults
from galloon.brief import read_brief
from galloon.design import LAPPED_SEAMS, Allowances, GussetPlan
from galloon.pieces import USUAL_STRAIN
from galloon.styling.centre_shape import STEEPEST_CENTRE
from galloon.workflow import make_garment
from tests.architecture.source import ROOT
from tests.support.briefs import LEAST

SEAMS = (ROOT / "docs" / "seams.md").read_text(encoding="utf-8")
SNIPPETS = re.findall(r"```toml\n(.*?)```", SEAMS, re.DOTALL)


def test_the_page_on_finishes_is_made_from_the_tables():
    made = runpy.run_path(str(ROOT / "scripts" / "finish_page.py"))["text"]()
    assert (ROOT / "docs" / "finishes.md").read_text(encoding="utf-8") == made


@pytest.mark.parametrize("snippet", SNIPPETS)
def test_what_the_page_on_seams_shows_can_be_written_and_is_made(snippet):
    brief = read_brief(f"{LEAST}\n{snippet}", file="b.toml")
    garment = make_garment(brief.design)
    assert garment.pieces
    keys = re.findall(r"^(\w+) =", snippet, re.MULTILINE)
    assert keys


def test_the_page_on_seams_names_every_choice():
    for plan in GussetPlan:
        assert f'`"{plan.value}"`' in SEAMS
    for seam in LAPPED_SEAMS:
        assert seam in SEAMS
    usual = Allowances()
    assert f'lapped_upper = "{usual.lapped_upper:g} mm"' in SEAMS
    assert f'lapped_under = "{usual.lapped_under:g} mm"' in SEAMS
    assert f"more than {STEEPEST_CENTRE:g} degrees" in SEAMS


def test_the_picture_of_open_sides_is_drawn_from_the_example_it_names():
    name = re.search(r"examples/([\w-]+)\.toml[^\]]*\]\((pictures/[\w-]+\.svg)\)", SEAMS)
    drawn = runpy.run_path(str(ROOT / "scripts" / "seam_picture.py"))
    assert (drawn["EXAMPLE"], drawn["OPEN_SIDES"]) == (name[1], ROOT / "docs" / name[2])
    assert drawn["OPEN_SIDES"].exists()
    assert drawn["example"]().design.open_side is not None


def test_the_page_tells_the_straps_as_the_program_cuts_them():
    assert f"{defaults.STRAP_END:g} mm more at both ends" in SEAMS
    assert f"{defaults.STRAP_STRAIN * 100:g} percent unless you say another" in SEAMS
    least, most = (100.0 * share for share in USUAL_STRAIN)
    assert re.search(rf"held between {least:g} and\s+{most:g} percent", SEAMS)
