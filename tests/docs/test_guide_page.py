"""The page on the guide names its parts in the order they are printed, and its picture shows pages that are there."""

import re
import runpy

import pypdfium2
import pytest

from galloon.drawing import paper
from galloon.sheets import guide_pdf
from galloon.sheets.guide_words import SAYS
from tests.architecture.source import ROOT
from tests.unit.sheets.test_guide import matter_of

PAGE = (ROOT / "docs" / "guide.md").read_text(encoding="utf-8")
PARTS = (
    "findings", "buy", "prepare", "pieces", "cutting", "steps", "care", "cautions", "hand",
)  # fmt: skip


@pytest.fixture(scope="module")
def printed():
    """The text of the demo's guide."""
    read = pypdfium2.PdfDocument(guide_pdf(matter_of("heron-hipster"), paper("a4")))
    return [page.get_textpage().get_text_bounded() for page in read]


def test_the_page_has_a_part_for_every_part_of_the_guide_in_its_order(printed):
    heads = re.findall(r"^## (.+)$", PAGE, re.MULTILINE)
    assert heads == ["Cover", *(SAYS[part] for part in PARTS)]
    whole = "\n".join(printed)
    places = [whole.index(head) for head in heads[1:]]
    assert places == sorted(places)


def test_the_picture_shows_pages_that_the_guide_has(printed):
    wanted = runpy.run_path(str(ROOT / "scripts" / "guide_picture.py"))["WANTED"]
    assert all(any(words in page for page in printed) for words in wanted)
    assert (ROOT / "docs" / "pictures" / "guide.png").stat().st_size < 300_000
