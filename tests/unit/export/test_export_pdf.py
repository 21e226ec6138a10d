"""PDF comes out repeatable, and what a PDF cannot hold is refused."""

import subprocess
import sys

import pytest

from galloon.drawing import A4, Drawing, Page, TileSettings, tile
from galloon.errors import CannotMake
from galloon.export import to_dxf, to_pdf, to_svg
from tests.support.sketch import small_sheet

HASHES = """
import hashlib
from galloon.drawing import A4, TileSettings, tile
from galloon.export import to_dxf, to_pdf, to_svg
from tests.support.sketch import small_sheet
page = small_sheet().pages[0]
files = to_pdf(tile(page, TileSettings(A4), title="Łucja")), to_svg(page), to_dxf(small_sheet(), layers={"text": 15})
print(*(hashlib.sha256(each).hexdigest() for each in files))
"""


def test_the_same_drawing_gives_the_same_bytes_in_the_same_run():
    page = small_sheet().pages[0]
    sheets = tile(page, TileSettings(A4), title="T")
    assert to_pdf(sheets) == to_pdf(tile(page, TileSettings(A4), title="T"))
    assert to_svg(page) == to_svg(page)
    assert to_dxf(small_sheet(), layers={"text": 1}) == to_dxf(small_sheet(), layers={"text": 1})


def test_the_same_drawing_gives_the_same_bytes_in_another_run():
    runs = {
        subprocess.run(
            [sys.executable, "-c", HASHES], check=True, capture_output=True, text=True, env={"PYTHONHASHSEED": seed}
        ).stdout
        for seed in ("1", "2")
    }
    assert len(runs) == 1
    assert len(runs.pop().split()) == 3


def test_another_drawing_gives_other_bytes():
    page = small_sheet().pages[0]
    assert to_pdf(Drawing((page,), "one")) != to_pdf(Drawing((page,), "two"))


def test_a_pdf_without_pages_is_refused():
    with pytest.raises(CannotMake, match="at least one page"):
        to_pdf(Drawing(()))


def test_a_page_longer_than_readers_show_is_refused_with_a_way_out():
    with pytest.raises(CannotMake, match=r"5080 mm in a PDF.*tiles"):
        to_pdf(Drawing((Page("long", 100.0, 5080.1),)))
    assert to_pdf(Drawing((Page("long", 100.0, 5080.0),)))
