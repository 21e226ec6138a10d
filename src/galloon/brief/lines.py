"""Finds the line on which each key of a TOML text stands."""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_right
from contextlib import suppress
from typing import Final

#: Keys and places in arrays (from 0) that lead from the root of the data to one value.
KeyPath = tuple[str | int, ...]

_BLANK = re.compile(r"[ \t]*")
_GAP = re.compile(r"(?:[ \t\r\n]+|#[^\n]*)*")
_KEY = re.compile(r"""[A-Za-z0-9_-]+|"(?:[^"\\\n]|\\.)*"|'[^'\n]*'""")
_TEXT = re.compile(r'"""(?:[^\\]|\\.)*?"{3,5}|' r"'''.*?'{3,5}|" r'"(?:[^"\\\n]|\\.)*"|' r"'[^'\n]*'", re.DOTALL)
_PLAIN: Final = re.compile(r"[^,\]}\n#]*")


def key_lines(text: str) -> dict[KeyPath, int]:
    """Line (from 1) of every key, table header and array item in ``text``.

    Never raises: where the text stops being TOML, the keys found so far are returned.
    """
    scanner = _Scanner(text)
    with suppress(_Lost, RecursionError):
        scanner.document()
    return scanner.found


def line_of(found: dict[KeyPath, int], path: KeyPath) -> int | None:
    """The line of ``path``, or of the nearest thing around it that has one."""
    whole = path
    while path:
        if path in found:
            return found[path]
        path = path[:-1]
    return 1 if whole or found else None


class _Lost(Exception):
    """The text is not TOML from here on."""


class _Scanner:
    """Walks the text once; knows keys, tables and nesting, and skips values without reading them."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.at = 0
        self.found: dict[KeyPath, int] = {}
        self.counts: dict[KeyPath, int] = {}
        self.breaks = [match.start() for match in re.finditer("\n", text)]

    def document(self) -> None:
        """Headers and key-value lines to the end."""
        table: KeyPath = ()
        while self.skip(_GAP) < len(self.text):
            if self.take("[["):
                table = self.array_header()
            elif self.take("["):
                table = self.inside(self.keys())
                self.expect("]")
                self.note_around(table)
            else:
                self.pair(table)

    def array_header(self) -> KeyPath:
        keys = self.keys()
        self.expect("]]")
        path = (*self.inside(keys[:-1]), keys[-1])
        count = self.counts.get(path, 0)
        self.counts[path] = count + 1
        self.note_around((*path, count))
        return (*path, count)

    def inside(self, keys: tuple[str, ...]) -> KeyPath:
        """The path of ``keys``, each array of tables entered at its newest table."""
        path: KeyPath = ()
        for key in keys:
            path = (*path, key)
            if path in self.counts:
                path = (*path, self.counts[path] - 1)
        return path

    def pair(self, table: KeyPath) -> None:
        start = self.at
        path = table
        for key in self.keys():
            path = (*path, key)
            self.note(path, start)
        self.expect("=")
        self.value(path)

    def value(self, path: KeyPath) -> None:
        self.skip(_BLANK)
        text = _TEXT.match(self.text, self.at)
        if text:
            self.at = text.end()
        elif self.take("["):
            self.array(path)
        elif self.take("{"):
            self.inline_table(path)
        else:
            self.skip(_PLAIN)

    def array(self, path: KeyPath) -> None:
        index = 0
        while not self.closed("]"):
            self.note((*path, index))
            self.value((*path, index))
            index += 1
            self.skip(_GAP)
            self.take(",")

    def inline_table(self, path: KeyPath) -> None:
        while not self.closed("}"):
            self.pair(path)
            self.skip(_GAP)
            self.take(",")

    def closed(self, bracket: str) -> bool:
        """Whether the bracket closes here; the end of the text is no end of an array."""
        if self.skip(_GAP) >= len(self.text):
            raise _Lost
        return self.take(bracket)

    def keys(self) -> tuple[str, ...]:
        """One key, or several joined by dots."""
        keys = []
        while True:
            self.skip(_BLANK)
            match = _KEY.match(self.text, self.at)
            if match is None:
                raise _Lost
            keys.append(_plain_key(match[0]))
            self.at = match.end()
            self.skip(_BLANK)
            if not self.take("."):
                return tuple(keys)

    def note_around(self, path: KeyPath) -> None:
        """Keeps this line for ``path`` and for what it lies in, where that has none of its own yet."""
        for size in range(1, len(path) + 1):
            self.note(path[:size])

    def note(self, path: KeyPath, at: int | None = None) -> None:
        """Keeps the line of ``path``; the first one counts."""
        self.found.setdefault(path, bisect_right(self.breaks, (self.at if at is None else at) - 1) + 1)

    def skip(self, pattern: re.Pattern[str]) -> int:
        match = pattern.match(self.text, self.at)
        self.at = match.end() if match else self.at
        return self.at

    def take(self, mark: str) -> bool:
        """Steps over ``mark`` if it stands here."""
        if not self.text.startswith(mark, self.at):
            return False
        self.at += len(mark)
        return True

    def expect(self, mark: str) -> None:
        self.skip(_BLANK)
        if not self.take(mark):
            raise _Lost


def _plain_key(raw: str) -> str:
    if raw.startswith('"'):
        try:
            return str(tomllib.loads(f"key = {raw}")["key"])
        except ValueError:
            raise _Lost from None
    return raw.strip("'")
