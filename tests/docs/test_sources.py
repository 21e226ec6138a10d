"""The page of sources is the table of defaults, and pages that the program points to are there."""

import re
import runpy

import pytest

from tests.architecture.source import ROOT

POINTED = sorted(
    {
        page
        for path in (ROOT / "src").rglob("*.py")
        for page in re.findall(r"docs/[\w/-]+\.(?:md|json)", path.read_text(encoding="utf-8"))
    }
)


def test_the_page_of_sources_is_made_from_the_defaults():
    made = runpy.run_path(str(ROOT / "scripts" / "sources_page.py"))["text"]()
    assert (ROOT / "docs" / "sources.md").read_text(encoding="utf-8") == made


@pytest.mark.parametrize("page", POINTED)
def test_a_page_the_program_points_to_is_there(page):
    assert (ROOT / page).is_file()
