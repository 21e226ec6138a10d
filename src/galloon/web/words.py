"""Every word of the page by key and language, from one file per language."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Final

#: Languages the page speaks, the first one where none fits.
LANGUAGES: Final = ("en", "de")


@cache
def _table(language: str) -> dict[str, str]:
    text = files("galloon.web").joinpath("words", f"{language}.toml").read_text(encoding="utf-8")
    return dict(tomllib.loads(text))


class Words:
    """Words of one language; a key with no word there falls back to English."""

    def __init__(self, language: str) -> None:
        self.language = language if language in LANGUAGES else LANGUAGES[0]

    def __call__(self, key: str, /, **values: object) -> str:
        """The word behind ``key`` with ``values`` put in; KeyError for a key that is in no file."""
        text = _table(self.language).get(key) or _table(LANGUAGES[0])[key]
        return text.format(**values) if values else text

    def all(self, prefix: str) -> dict[str, str]:
        """Every word whose key begins so, for the scripts."""
        return {key: self(key) for key in _table(LANGUAGES[0]) if key.startswith(prefix)}


def keys(language: str) -> frozenset[str]:
    """Every key of a language's file."""
    return frozenset(_table(language))


def chosen(cookie: str, accepts: str) -> str:
    """The language to use: the one chosen before, else the first the browser asks for that the page speaks."""
    if cookie in LANGUAGES:
        return cookie
    for part in accepts.split(",")[:20]:
        tag = part.split(";")[0].strip().lower()[:2]
        if tag in LANGUAGES:
            return tag
    return LANGUAGES[0]
