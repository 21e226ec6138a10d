"""The page on ideas names every score with its weight, and every option of the command."""

from pathlib import Path

from galloon.ideas import MEANING, WEIGHTS

PAGE = Path("docs/ideas.md").read_text(encoding="utf-8")


def test_every_score_stands_in_its_table_with_meaning_and_weight():
    for name, weight in WEIGHTS.items():
        assert f"| {name} | {MEANING[name]} | {weight:g} |" in PAGE


def test_the_options_that_change_the_answer_are_explained():
    for option in ("--weigh", "--coverage", "--buy", "--most", "--pdf", "--no-pdf", "--brief", "--wearer", "--shelf"):
        assert option in PAGE
