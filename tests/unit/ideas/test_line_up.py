"""The line-up: what stands on its pages, every drawing on its sheet, the same bytes again."""

import pytest

from galloon.drawing import LETTER, paper
from galloon.ideas import WEIGHTS, Wish, find_ideas, line_up_pdf
from galloon.ideas.line_up import line_up_of
from galloon.sheets import line_up_drawing
from tests.support.idea_stocks import stock

A4 = paper("a4")


@pytest.fixture(scope="module")
def ideas():
    return find_ideas(stock(), Wish(most=30, processes=1))


def test_each_of_the_best_has_a_card_with_its_figures_in_words(ideas):
    sheet = line_up_of(ideas, stock().base, WEIGHTS)
    assert [card.number for card in sheet.cards] == list(range(1, len(ideas.found) + 1))
    for card, idea in zip(sheet.cards, ideas.found, strict=True):
        told = " ".join(card.lines)
        assert idea.sketch.recipe in card.title
        assert f"{idea.figures.back:.0%} of a full brief's" in told
        assert all(name in told for name, _ in idea.figures.needs)
    assert f"{ideas.reckoned} designs" in sheet.counts
    assert sheet.left_out == ideas.dropped


@pytest.mark.parametrize("sheet", [A4, LETTER], ids=["a4", "letter"])
def test_nothing_leaves_the_sheet(ideas, sheet):
    for page in line_up_drawing(line_up_of(ideas, stock().base, WEIGHTS), sheet).pages:
        for mark in page.marks:
            at = getattr(mark, "at", None)
            if at is not None:
                assert 0.0 < at[0] < sheet.width
                assert 0.0 < at[1] < sheet.height


def test_the_same_ideas_give_the_same_bytes(ideas):
    first, second = (line_up_pdf(ideas, stock().base, WEIGHTS, A4) for _ in range(2))
    assert first == second
    assert first.startswith(b"%PDF")
