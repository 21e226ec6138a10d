"""The page on dependencies names every library that is asked for, with why and under which licence, and no other."""

import re

import pytest

from tests.architecture.source import ROOT


def rows(heading):
    text = (ROOT / "docs" / "dependencies.md").read_text(encoding="utf-8")
    section = text.partition(f"## {heading}\n")[2].partition("\n## ")[0]
    return [re.split(r"\s*\|\s*", line.strip("| ")) for line in section.splitlines() if re.match(r"\| [a-z]", line)]


@pytest.mark.parametrize(("heading", "name"), [("To run", "runtime"), ("To test", "test")])
def test_the_page_lists_what_the_requirements_ask_for(heading, name):
    lines = (ROOT / "requirements" / f"{name}.in").read_text(encoding="utf-8").splitlines()
    asked = [line for line in lines if line[:1].isalpha()]
    table = [row for row in rows(heading) if row[0] != "library"]
    assert [row[0] for row in table] == asked == sorted(asked)
    assert all(len(row) == 3 and all(row) for row in table)
