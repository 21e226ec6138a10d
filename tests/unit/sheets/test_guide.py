"""The guide read back by another PDF reader: every part of it there, for every example, on A4 and on Letter."""

import re

import pypdfium2
import pytest

from galloon.drawing import paper as paper_of
from galloon.findings import Status
from galloon.sheets import GuideMatter, guide_drawing, guide_pdf, hand_sheet
from galloon.sheets.by_hand import worst_miss
from galloon.sheets.garment_map import GarmentMap
from tests.support.examples import EXAMPLES, example_garment, example_made


def matter_of(name):
    made = example_made(name)
    plans = {row.cloth: row.plan for row in made.cutting}
    return GuideMatter(made.garment, made.findings, plans, made.elastic, made.shopping, made.sewing)


@pytest.fixture(scope="module", params=EXAMPLES)
def read(request):
    """The example's matter, its guide's pages as text, and the drawing behind them."""
    matter = matter_of(request.param)
    sheet = paper_of("a4" if EXAMPLES.index(request.param) % 2 else "letter")
    read_back = pypdfium2.PdfDocument(guide_pdf(matter, sheet))
    pages = [re.sub(r"\s+", " ", page.get_textpage().get_text_bounded()) for page in read_back]
    return matter, pages, guide_drawing(matter, sheet)


def test_the_cover_has_verdict_measurements_and_a_label(read):
    matter, pages, _ = read
    cover = pages[0]
    verdict = matter.verdict()
    assert verdict in cover
    assert len(re.findall(r"[.!?](?:\s|$)", verdict)) == 2
    for name, value in matter.garment.design.wearer.measurements().items():
        assert f"{name.replace('_', ' ')} {matter.length(value)}" in cover
    assert "cut out and stick on" in cover
    assert f"{sum(piece.part.quantity for piece in matter.garment.pieces)} pieces to cut" in cover


def test_every_elastic_is_listed_with_its_cut_length(read):
    matter, pages, _ = read
    whole = " ".join(pages)
    for row in matter.elastics:
        assert matter.kind(row) in whole
        assert matter.length(row.cut_length) in whole


def test_every_step_stands_whole_with_its_settings(read):
    matter, pages, _ = read
    whole = " ".join(pages)
    for step in matter.steps:
        assert f"{step.step} {step.title}" in whole
        if step.stitch.isdigit():
            assert f"ISO 4915 no. {step.stitch}" in whole
        if step.seam_class:
            assert f"ISO 4916 class {step.seam_class}" in whole


def test_no_page_is_empty_and_nothing_leaves_the_sheet(read):
    from galloon.drawing.marks import bounds

    _, pages, drawing = read
    assert len(pages) == len(drawing.pages)
    for text, page in zip(pages, drawing.pages, strict=True):
        assert len(text) > 160
        left, bottom, right, top = bounds(page.marks)
        assert left > 8 and bottom > 5 and right < page.width - 8 and top < page.height - 5  # noqa: PT018


def test_cautions_and_care_are_in_words(read):
    whole = " ".join(read[1])
    for words in (
        "no medical advice", "nickel-free", "half an hour", "pregnant", "finger guard", "hot iron", "adults",
        "keep them from children", "private", "No bleach", "You are responsible", "heaviest first",
    ):  # fmt: skip
        assert words in whole


@pytest.mark.parametrize("name", EXAMPLES)
@pytest.mark.parametrize("step", [0.5, 25.4 / 32])
def test_the_sheet_to_draw_by_hand_gives_every_stitch_line_back_within_a_millimetre(name, step):
    for piece in example_garment(name).pieces:
        assert worst_miss(hand_sheet(piece, step), piece) < 1.0


def test_panels_stand_upright_unless_the_gusset_is_shown_with_them():
    there = GarmentMap(example_garment("heron-hipster"))
    for names, below in ((["front", "back"], True), (["front", "gusset", "back"], False)):
        back = next(copy for copy in there.copies(names) if copy.piece.name == "back")
        waist, leg = back.lines["waist"].imag.mean(), back.lines["leg"].imag.mean()
        assert bool(waist > leg) is below


def test_the_verdict_says_what_must_change():
    matter = matter_of("heron-hipster")
    assert matter.status is Status.WARN
    assert matter.verdict().startswith("This can be cut, but read 2 warnings first. ")
