"""Writes a brief's plain data as TOML text: stable order, one table per topic, points several to a line."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Mapping
from datetime import date, time
from typing import Any, Final

from galloon.errors import BadValue

#: Order of the tables in a brief; what is not listed comes last, in its own order.
ORDER: Final = (
    "title", "units", "wearer", "block", "cloth", "elastic", "panels", "style", "split", "reduction", "finish",
    "open_side", "allowance", "lace", "motif", "cutting",
)  # fmt: skip
#: Tables that hold one table for each name.
NAMED: Final = ("cloth", "elastic")
_WIDTH: Final = 100
_BARE: Final = re.compile(r"[A-Za-z0-9_-]+")
_ESCAPES: Final = {"\\": "\\\\", '"': '\\"', "\b": "\\b", "\t": "\\t", "\n": "\\n", "\f": "\\f", "\r": "\\r"}


def dump_brief(data: Mapping[str, Any]) -> str:
    """TOML text that reads back as ``data`` exactly. Raises BadValue for what TOML cannot hold."""
    ordered = sorted(data, key=lambda key: ORDER.index(key) if key in ORDER else len(ORDER))
    plain = [_line(key, data[key]) for key in ordered if not _is_section(data[key])]
    sections = [section for key in ordered if _is_section(data[key]) for section in _sections(key, data[key])]
    return "\n\n".join(filter(None, ["\n".join(plain), *sections])) + "\n"


def _is_section(value: Any) -> bool:
    return isinstance(value, Mapping) or _is_tables(value)


def _is_tables(value: Any) -> bool:
    return isinstance(value, list | tuple) and bool(value) and all(isinstance(item, Mapping) for item in value)


def _sections(key: str, value: Any) -> Iterable[str]:
    name = _key(key)
    if not isinstance(value, Mapping):
        yield from (_section(f"[[{name}]]", item) for item in value)
    elif key in NAMED:
        named = {inner: table for inner, table in value.items() if isinstance(table, Mapping)}
        plain = {inner: text for inner, text in value.items() if inner not in named}
        if plain or not named:
            yield _section(f"[{name}]", plain)
        yield from (_section(f"[{name}.{_key(inner)}]", table) for inner, table in named.items())
    else:
        yield _section(f"[{name}]", value)


def _section(header: str, table: Mapping[str, Any]) -> str:
    return "\n".join([header, *(_line(key, value) for key, value in table.items())])


def _line(key: str, value: Any) -> str:
    line = f"{_key(key)} = {_value(value)}"
    if len(line) <= _WIDTH or not isinstance(value, list | tuple):
        return line
    return f"{_key(key)} = [\n{_wrapped([_value(item) for item in value])}\n]"


def _wrapped(items: list[str]) -> str:
    """The items with commas, as many to a line as fit."""
    lines: list[str] = [""]
    for item in items:
        if lines[-1] and len(lines[-1]) + len(item) > _WIDTH - 4:
            lines.append("")
        lines[-1] += f"{item}, "
    return "\n".join(f"  {line.rstrip()}" for line in lines)


def _key(key: str) -> str:
    return key if _BARE.fullmatch(key) else _text(key)


def _value(value: Any) -> str:
    if isinstance(value, str):
        return _text(value)
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int | float):
        return _number(value)
    if isinstance(value, date | time):
        return value.isoformat()
    if isinstance(value, Mapping):
        pairs = ", ".join(f"{_key(key)} = {_value(inner)}" for key, inner in value.items())
        return f"{{ {pairs} }}" if pairs else "{}"
    if isinstance(value, list | tuple):
        return f"[{', '.join(_value(item) for item in value)}]"
    raise BadValue("brief data", "must be text, numbers, true or false, lists and tables", value)


def _number(value: int | float) -> str:
    if isinstance(value, int):
        return str(int(value))
    if math.isnan(value):
        return "nan"
    return repr(float(value))


def _text(text: str) -> str:
    return '"' + "".join(_escaped(ch) for ch in text) + '"'


def _escaped(ch: str) -> str:
    if ch in _ESCAPES:
        return _ESCAPES[ch]
    if "\ud800" <= ch <= "\udfff":
        raise BadValue("brief data", "must be text that UTF-8 can hold", ch)
    hidden = ch < " " or "\x7f" <= ch <= "\x9f" or ch in "\u2028\u2029"
    return f"\\u{ord(ch):04X}" if hidden else ch
