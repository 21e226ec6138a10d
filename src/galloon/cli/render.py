"""Plain text for a terminal: tables, wrapped sentences, names made safe to print."""

from __future__ import annotations

import shutil
import textwrap
import unicodedata
from collections.abc import Collection, Sequence
from itertools import zip_longest
from typing import Final

#: Characters that show nothing by themselves but belong inside words and emoji: the zero-width joiners.
_JOINERS: Final = "\u200c\u200d"
_GAP: Final = "  "
#: The last column keeps at least this many places, however narrow the terminal.
_LEAST_LAST: Final = 24


def plain(text: str) -> str:
    """The text on one line, control and direction characters written out: no name can steer a terminal."""
    return "".join(ch if ch.isprintable() or ch in _JOINERS else f"\\x{ord(ch):02x}" for ch in text)


def places(text: str) -> int:
    """How many places of a terminal line the text takes: two for wide characters, none for combining ones."""
    return sum(_places(ch) for ch in text)


def _places(ch: str) -> int:
    if unicodedata.combining(ch) or ch in _JOINERS or unicodedata.category(ch) == "Mn":
        return 0
    return 2 if unicodedata.east_asian_width(ch) in "WF" else 1


def terminal_width() -> int:
    """Places in a line of the terminal, at most 110 so that sentences stay easy to read; 100 when unknown."""
    return min(shutil.get_terminal_size(fallback=(100, 24)).columns, 110)


def sentence(text: str, *, indent: str = "", width: int | None = None) -> str:
    """The text wrapped to the terminal, each line after ``indent``."""
    wide = width or terminal_width()
    return textwrap.fill(plain(text), wide, initial_indent=indent, subsequent_indent=indent)


def table(
    header: Sequence[str],
    rows: Sequence[Sequence[str]],
    *,
    right: Collection[int] = (),
    width: int | None = None,
) -> str:
    """Rows under a header and a rule; columns numbered in ``right`` are set to the right.

    The last column is wrapped to what the terminal leaves, or to ``width`` places in all.
    """
    cells = [[plain(cell) for cell in row] for row in (header, *rows)]
    widths = [max(places(row[column]) for row in cells) for column in range(len(header))]
    left = sum(widths[:-1]) + len(_GAP) * (len(widths) - 1)
    widths[-1] = min(widths[-1], max((width or terminal_width()) - left, _LEAST_LAST))
    head, *body = [line for row in cells for line in _lines(row, widths, right)]
    return "\n".join([head, _GAP.join("-" * wide for wide in widths), *body])


def _lines(row: Sequence[str], widths: Sequence[int], right: Collection[int]) -> list[str]:
    last = textwrap.wrap(row[-1], widths[-1]) or [""]
    columns = [*([cell] for cell in row[:-1]), last]
    return [
        _GAP.join(_set(cell, widths[at], at in right) for at, cell in enumerate(line)).rstrip()
        for line in zip_longest(*columns, fillvalue="")
    ]


def _set(cell: str, width: int, right: bool) -> str:
    blank = " " * (width - places(cell))
    return blank + cell if right else cell + blank
