"""Every word in every language, and no key that is not there."""

import re
from pathlib import Path

import pytest

from galloon.web.words import LANGUAGES, Words, chosen, keys

WEB = Path("src/galloon/web")


@pytest.mark.parametrize("language", LANGUAGES[1:])
def test_every_language_has_every_word_with_the_same_gaps(language):
    assert keys(language) == keys(LANGUAGES[0])
    for key in keys(language):
        gaps = [set(re.findall(r"\{(\w+)\}", Words(one)(key))) for one in (LANGUAGES[0], language)]
        assert gaps[0] == gaps[1], key


def test_every_key_used_on_a_page_is_there():
    used = set()
    for path in [*WEB.rglob("*.html"), *WEB.rglob("*.py")]:
        text = path.read_text(encoding="utf-8")
        used |= set(re.findall(r"""(?<![a-z_.])(?:t|words)\(["']([a-z_.-]+[a-z])["'][,)]""", text))
    for script in WEB.rglob("*.js"):
        used |= set(re.findall(r'words\["([a-z_.]+)"\]', script.read_text(encoding="utf-8")))
    assert len(used) > 60
    assert used <= keys(LANGUAGES[0])


@pytest.mark.parametrize(
    ("cookie", "accepts", "language"),
    [("", "de-AT,en;q=0.5", "de"), ("en", "de", "en"), ("", "fr, de;q=0.3", "de"), ("xx", "zz", "en"), ("", "", "en")],
)
def test_the_language_chosen_before_wins_over_what_the_browser_asks(cookie, accepts, language):
    assert chosen(cookie, accepts) == language
