"""Sentences that remember how they were made, so that another language can make them anew."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any


class Measure(str):
    """A length with its unit; another language may write its number otherwise."""

    __slots__ = ()


class Term(str):
    """A name the program itself gives, as of a piece or an edge: another language has its own; a maker's names stay."""

    __slots__ = ()

    def __format__(self, spec: str) -> str:
        """As text; ``C`` begins it with a capital."""
        return _formatted(str(self), spec)


class Said(str):
    """English text with the ``template`` and the ``fields`` it was made of.

    A field is another ``Said``, a ``Term``, a ``Measure``, a number, or plain text, which no language changes. ``key``
    is what other languages know the template by.
    """

    __slots__ = ("fields", "key", "template")
    key: str
    template: str
    fields: Mapping[str, Any]

    def __new__(cls, template: str, fields: Mapping[str, Any] | None = None, key: str = "") -> Said:
        """``template`` with ``fields`` put in; KeyError where one is missing."""
        text = super().__new__(cls, template.format_map(fields or {}))
        text.key, text.template, text.fields = key or template, template, fields or {}
        return text

    def __format__(self, spec: str) -> str:
        """As text; ``C`` begins it with a capital."""
        return _formatted(str(self), spec)

    def __reduce__(self) -> tuple[type[Said], tuple[str, dict[str, Any], str]]:
        """So that a process of its own can hand it back whole."""
        return Said, (self.template, dict(self.fields), self.key)


def _formatted(text: str, spec: str) -> str:
    return text[:1].upper() + text[1:] if spec == "C" else format(text, spec)


def said(template: str, /, **fields: object) -> Said:
    """A sentence, or a part of one, from a template that stands in the code word for word."""
    return Said(template, fields)


def in_a_row(between: str, parts: Sequence[object]) -> Said:
    """Parts one after another with punctuation or a space ``between`` them, which no language changes."""
    return Said(between.join(f"{{p{place}}}" for place in range(len(parts))), {f"p{i}": p for i, p in enumerate(parts)})


def listed(parts: Sequence[str]) -> Said:
    """ "a", "a and b", "a, b and c". There must be at least one part."""
    if len(parts) == 1:
        return in_a_row("", parts)
    return said("{first} and {last}", first=in_a_row(", ", parts[:-1]), last=parts[-1])
