"""Every way to use a lace has a page whose pictures are drawn from example briefs that use it so."""

import re
import tomllib
from pathlib import Path

import pytest

from galloon.design import Use

PAGES = Path("docs/uses")
PICTURE = re.compile(r"!\[The garment of examples/([\w-]+)\.toml[^\]]*\]\(([\w-]+\.svg)\)")
SNIPPET = re.compile(r"```toml\n(.*?)```", re.DOTALL)


def page_of(use):
    return (PAGES / f"{use.value.lower().replace(' ', '-')}.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("use", Use)
def test_a_use_has_a_page_with_pictures_of_examples_that_use_it(use):
    found = PICTURE.findall(page_of(use))
    assert found
    drawn = Path("scripts/use_pictures.py").read_text(encoding="utf-8")
    for example, picture in found:
        brief = tomllib.loads(Path(f"examples/{example}.toml").read_text(encoding="utf-8"))
        assert use.value in [one["use"] for one in brief["lace"]]
        assert (PAGES / picture).exists()
        assert f'"{picture.removesuffix(".svg")}": "{example}"' in drawn


@pytest.mark.parametrize("use", Use)
def test_what_a_page_shows_is_what_its_examples_say(use):
    """Every [[lace]] table of a page stands in one of the examples it draws."""
    page = page_of(use)
    told = [
        one
        for example, _ in PICTURE.findall(page)
        for one in tomllib.loads(Path(f"examples/{example}.toml").read_text(encoding="utf-8"))["lace"]
    ]
    for snippet in SNIPPET.findall(page):
        for one in tomllib.loads(snippet)["lace"]:
            one.pop("panel", None)
            assert any(all(given.get(key) == value for key, value in one.items()) for given in told), one
