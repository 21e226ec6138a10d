"""Puts what a brief names on the maker's shelf in the place of the name."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from galloon.brief.faults import Faults
from galloon.brief.fields import InUnit
from galloon.brief.lines import KeyPath
from galloon.brief.model import Lookup
from galloon.said import said

#: ``[cloth] heron = "shelf"`` takes the shelf's thing of the same name.
SAME_NAME: Final = "shelf"
_HINT: Final = "Spell it out in the brief, or put it on the shelf first."

Fetch = Callable[[str], Mapping[str, Any] | None]


def take_from_shelf(data: Mapping[str, Any], shelf: Lookup | None, faults: Faults) -> dict[str, Any]:
    """The data with every name of a thing on the shelf replaced by that thing; the brief's own figures win.

    ``wearer = "NAME"`` and ``block = "NAME"`` take a whole table; so does a cloth or an elastic given as text. In a
    table, ``shelf = "NAME"`` takes the thing and lets the table's other keys win.
    """
    whole = dict(data)
    for key in ("wearer", "block"):
        if key in whole:
            whole[key] = _filled(whole[key], (key,), _fetch(shelf, key), faults)
    for key in ("cloth", "elastic"):
        if isinstance(whole.get(key), Mapping):
            fetch = _fetch(shelf, key)
            whole[key] = {name: _filled(table, (key, name), fetch, faults) for name, table in whole[key].items()}
    return whole


def _fetch(shelf: Lookup | None, key: str) -> Fetch | None:
    return None if shelf is None else getattr(shelf, key)


def _filled(table: Any, path: KeyPath, fetch: Fetch | None, faults: Faults) -> Any:
    """The table with what it takes from the shelf; None where that cannot be had."""
    inside = isinstance(table, Mapping) and "shelf" in table
    if not inside and not isinstance(table, str):
        return table
    asked = table["shelf"] if inside else table
    where: KeyPath = (*path, "shelf") if inside else path
    name = path[-1] if asked == SAME_NAME and len(path) > 1 else asked
    found = fetch(name) if fetch and isinstance(name, str) else None
    if found is None:
        rule = (
            said("must name something on the shelf")
            if fetch
            else said("names something on the shelf, and no shelf is open")
        )
        faults.refuse(where, rule, hint=_HINT)
        return None
    own = {key: value for key, value in table.items() if key != "shelf"} if inside else {}
    return {**_in_own_units(found), **own}


def _in_own_units(found: Mapping[str, Any]) -> dict[str, Any]:
    units = str(found.get("units", "mm"))
    return {key: _marked(value, units) for key, value in found.items() if key != "units"}


def _marked(value: Any, units: str) -> Any:
    if isinstance(value, Mapping):
        return {key: _marked(inner, units) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_marked(inner, units) for inner in value]
    return InUnit(value, units) if isinstance(value, int | float) and not isinstance(value, bool) else value
