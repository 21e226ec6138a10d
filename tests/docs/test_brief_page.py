"""The page about the brief names every key that a brief may hold, and none else."""

import re
from collections.abc import Iterator

import pytest

from galloon.brief.schema import PLAIN, table_at, tables
from tests.architecture.source import ROOT

PAGE = (ROOT / "docs" / "brief.md").read_text(encoding="utf-8")


def written() -> Iterator[tuple[str, list[tuple[str, str]]]]:
    """Each table of the page: where it stands in a brief, and its keys with what is said of them."""
    section = ""
    for block in re.split(r"\n(?=#+ |\| key)", PAGE):
        if head := re.match(r"## `\[+([a-z_]+)", block):
            section = head[1]
        if table := re.match(r"\| key(?: of `(\w+)`)? ", block):
            rows = [row[2:].split("` | ", 1) for row in block.split("\n")[2:] if row.startswith("| `")]
            yield (
                f"{section}.{table[1]}".rstrip(".") if table[1] else section,
                [(key.strip("`"), said) for key, said in rows],
            )


SAID = dict(written())


def test_every_table_of_a_brief_has_its_place_on_the_page():
    assert {name for name in SAID if name and "." not in name} == set(tables())
    assert [key for key, _ in SAID[""]] == list(PLAIN)


@pytest.mark.parametrize("name", [name for name in SAID if name])
def test_a_table_of_the_page_has_the_keys_that_are_read(name):
    top, _, inner = name.partition(".")
    named = ("any",) if top in ("cloth", "elastic") else ()
    table = table_at((top, *named, *([inner] if inner else ())))
    assert {key for key, _ in SAID[name]} == set(table.model_fields)


@pytest.mark.parametrize("name", [name for name in SAID if name and "." not in name])
def test_a_key_that_must_be_there_is_not_marked_as_one_that_may_be_left_out(name):
    needed = {key for key, field in tables()[name].model_fields.items() if field.is_required()}
    marked = {key for key, said in SAID[name] if said.startswith("+")}
    assert not needed & marked
