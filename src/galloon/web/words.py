"""Every word of the page by key and language, from one file per language, and the program's sentences in it.

A file holds the page's own words by key. Tables follow, but for English, which stands where it is said: ``says`` has
the program's sentences by the English one, ``sewing`` those by key, and ``term`` the names it gives, with ``{}`` where
a name or a number goes on.
"""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from functools import cache, lru_cache
from importlib.resources import files
from string import Formatter
from typing import Any, Final

from galloon.said import Measure, Said, Term

#: Languages the page speaks, the first one where none fits.
LANGUAGES: Final = ("en", "de")
_NUMBER: Final = re.compile(r"(?<=\d)\.(?=\d)")


@cache
def _file(language: str) -> Mapping[str, Any]:
    text = files("galloon.web").joinpath("words", f"{language}.toml").read_text(encoding="utf-8")
    return dict(tomllib.loads(text))


@cache
def _table(language: str) -> dict[str, str]:
    return {key: text for key, text in _file(language).items() if isinstance(text, str)}


@cache
def sentences(language: str) -> Mapping[str, str]:
    """The program's sentences in a language, by their English or, in sewing, by key; none for English."""
    tables = _file(language)
    return {**tables.get("says", {}), **{f"sewing.{key}": text for key, text in tables.get("sewing", {}).items()}}


@cache
def terms(language: str) -> Mapping[str, str]:
    """The names the program gives, in a language; none for English."""
    return dict(_file(language).get("term", {}))


@cache
def _patterns(language: str) -> tuple[tuple[re.Pattern[str], str], ...]:
    open_ended = ((key, text) for key, text in terms(language).items() if "{}" in key)
    return tuple((re.compile(re.escape(key).replace(r"\{\}", "(.+)") + "$"), text) for key, text in open_ended)


@cache
def _parsed(template: str) -> tuple[tuple[str, str | None, str], ...]:
    return tuple((text, name, spec or "") for text, name, spec, _ in Formatter().parse(template))


class Words:
    """Words of one language; a key with no word there falls back to English."""

    def __init__(self, language: str) -> None:
        self.language = language if language in LANGUAGES else LANGUAGES[0]

    def __call__(self, key: str, /, **values: object) -> str:
        """The word behind ``key`` with ``values`` put in; KeyError for a key that is in no file."""
        text = _table(self.language).get(key) or _table(LANGUAGES[0])[key]
        return text.format(**{name: self._field(value, "") for name, value in values.items()}) if values else text

    def said(self, text: str) -> str:
        """What the program says, in this language; plain text, as a name the maker gave, stays."""
        if self.language == LANGUAGES[0]:
            return str(text)
        if isinstance(text, Said):
            template = sentences(self.language).get(text.key, text.template)
            parts = ((plain, name, spec) for plain, name, spec in _parsed(template))
            return "".join(
                plain + ("" if name is None else self._field(text.fields[name], spec)) for plain, name, spec in parts
            )
        if isinstance(text, Measure):
            number, _, unit = text.rpartition(" ")
            return f"{self._number(number)}\u00a0{terms(self.language).get(unit, unit)}"
        return _term(self.language, text) if isinstance(text, Term) else text

    def term(self, name: str) -> str:
        """A name the program gave, as of a piece, in this language."""
        return self.said(Term(name))

    def all(self, prefix: str) -> dict[str, str]:
        """Every word whose key begins so, for the scripts."""
        return {key: self(key) for key in _table(LANGUAGES[0]) if key.startswith(prefix)}

    def _field(self, value: object, spec: str) -> str:
        if isinstance(value, str):
            text = self.said(value)
            return text[:1].upper() + text[1:] if spec == "C" else text
        return self._number(format(value, spec))

    def _number(self, text: str) -> str:
        return _NUMBER.sub(self("number.point"), text).replace("%", self("number.percent"))


@lru_cache(maxsize=4096)
def _term(language: str, name: str) -> str:
    """A term as a whole, as one that goes on with a name or number, or, as "piece/edge", part by part."""
    known = terms(language)
    if name in known:
        return known[name]
    if "/" in name:
        return "/".join(_term(language, part) for part in name.split("/"))
    base, _, number = name.rpartition(" ")
    if base and number.isdigit():
        return f"{_term(language, base)} {number}"
    for pattern, text in _patterns(language):
        if match := pattern.match(name):
            return text.format(*(_term(language, part) for part in match.groups()))
    return name


def keys(language: str) -> frozenset[str]:
    """Every key of the page's own words in a language's file."""
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
