"""Add, list, show, change and remove what is on the shelf, whatever its kind."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final

from galloon.errors import show
from galloon.said import said
from galloon.store.check import NAMED_IN_BRIEFS, checked, checked_brief, checked_name, to_text
from galloon.store.drawing import checked_drawing
from galloon.store.leftover import checked_leftover
from galloon.store.shelf import Shelf
from galloon.store.trouble import refuse

#: Every kind of thing that can be added, changed and removed.
KINDS: Final = (*NAMED_IN_BRIEFS, "leftover", "drawing", "brief")


@dataclass(frozen=True)
class Thing:
    """One thing on the shelf: brief data with bare lengths in mm (a brief keeps the unit it states)."""

    kind: str
    name: str
    data: Mapping[str, Any]


def add(shelf: Shelf, kind: str, name: str, data: Mapping[str, Any]) -> Thing:
    """A new thing, checked. Raises BadInput where it is not sound or the name is taken."""
    values = _values(shelf, kind, name, data)
    with shelf.writing() as connection:
        if _row(shelf, kind, name) is not None:
            hint = said("Take another name. To change it: galloon shelf change {kind} NAME.", kind=kind)
            refuse(f"{kind} {name}", said("is on the shelf already"), hint=hint)
        sql = "INSERT INTO thing (kind, name, data, on_hand, cloth) VALUES (?, ?, ?, ?, ?)"
        connection.execute(sql, (kind, name, *_columns(shelf, values)))
        return show_thing(shelf, kind, name)


def change(shelf: Shelf, kind: str, name: str, keys: Mapping[str, Any]) -> Thing:
    """The thing with some keys changed: a key given as None is taken out, all others are kept.

    ``units`` among the keys is the unit of their bare lengths. Raises BadInput, with nothing changed, where the
    result is not sound.
    """
    with shelf.writing() as connection:
        old = show_thing(shelf, kind, name)
        values = _values(shelf, kind, name, _merged(old, keys))
        sql = "UPDATE thing SET data = ?, on_hand = ?, cloth = ? WHERE kind = ? AND name = ?"
        connection.execute(sql, (*_columns(shelf, values), kind, name))
        return show_thing(shelf, kind, name)


def remove(shelf: Shelf, kind: str, name: str) -> None:
    """Takes the thing off the shelf. Raises BadInput where it is not there, or leftovers of the cloth are."""
    with shelf.writing() as connection:
        row = needed(shelf, kind, name)
        kept = [found["name"] for found in shelf.rows("SELECT name FROM thing WHERE cloth = ? LIMIT 4", (row["id"],))]
        if kept:
            rule = said("cannot be removed while leftovers of it are on the shelf")
            refuse(f"{kind} {name}", rule, seen=", ".join(kept), hint=said("Remove those first."))
        connection.execute("DELETE FROM thing WHERE id = ?", (row["id"],))


def list_things(shelf: Shelf, kind: str | None = None) -> list[Thing]:
    """The things of one kind, or all, by kind and name."""
    kinds = KINDS if kind is None else (_known(kind),)
    sql = "SELECT kind, name, data, on_hand FROM thing WHERE kind = ? ORDER BY name"
    return [_thing(row) for one in kinds for row in shelf.rows(sql, (one,))]


def show_thing(shelf: Shelf, kind: str, name: str) -> Thing:
    """The thing of that name. Raises BadInput where there is none."""
    return _thing(needed(shelf, kind, name))


def find(shelf: Shelf, kind: str, name: str) -> Thing | None:
    """The thing of that name, None where there is none."""
    row = _row(shelf, kind, name)
    return None if row is None else _thing(row)


def needed(shelf: Shelf, kind: str, name: str) -> sqlite3.Row:
    """The row of a thing. Raises BadInput where there is none."""
    row = _row(shelf, kind, name)
    if row is None:
        names = [found["name"] for found in shelf.rows("SELECT name FROM thing WHERE kind = ? LIMIT 12", (kind,))]
        there = said("There: {names}.", names=", ".join(show(one) for one in names))
        if not names:
            there = said("There is no {kind} on the shelf yet.", kind=kind)
        refuse(f"{kind} {name}", said("is not on the shelf"), hint=there)
    return row


def _row(shelf: Shelf, kind: str, name: str) -> sqlite3.Row | None:
    _known(kind)
    sql = "SELECT id, kind, name, data, on_hand FROM thing WHERE kind = ? AND name = ?"
    return shelf.row(sql, (kind, _utf8(name)))


def _utf8(name: str) -> str:
    """The name with what UTF-8 cannot hold replaced: nothing on the shelf is called so."""
    return name.encode("utf-8", "replace").decode("utf-8")


def _known(kind: str) -> str:
    if kind not in KINDS:
        refuse("kind", f"must be one of {', '.join(KINDS)}", seen=kind)
    return kind


def _thing(row: sqlite3.Row) -> Thing:
    data, on_hand = json.loads(row["data"]), row["on_hand"]
    if on_hand is None:
        return Thing(row["kind"], row["name"], data)
    return Thing(row["kind"], row["name"], {**data, "on_hand": int(on_hand) if on_hand == int(on_hand) else on_hand})


def _values(shelf: Shelf, kind: str, name: str, data: Mapping[str, Any]) -> dict[str, Any]:
    """The data, sound and in the form that is kept."""
    checked_name(name)
    if not isinstance(data, Mapping):
        refuse(f"{_known(kind)} {name}", said("must be a table of keys"), seen=type(data).__name__)
    if kind == "leftover":
        return checked_leftover(name, data)
    if kind == "drawing":
        return checked_drawing(name, data)
    from galloon.store.lookup import ShelfLookup

    if kind == "brief":
        return checked_brief(name, data, ShelfLookup(shelf))
    return checked(_known(kind), name, data, ShelfLookup(shelf))


def _columns(shelf: Shelf, values: Mapping[str, Any]) -> tuple[str, float | None, int | None]:
    """The columns data, on_hand and cloth."""
    is_leftover = "outline" in values and "cloth" in values
    on_hand = values.get("on_hand") if "kind" in values else None
    cloth = needed(shelf, "cloth", values["cloth"])["id"] if is_leftover else None
    kept = {key: value for key, value in values.items() if key != "on_hand"} if on_hand is not None else values
    return to_text(kept), None if on_hand is None else float(on_hand), cloth


def _merged(old: Thing, keys: Mapping[str, Any]) -> dict[str, Any]:
    """The old data with the keys laid over: brought into mm first, since their unit may be another."""
    own = {key: value for key, value in keys.items() if key != "units"}
    if old.kind != "brief" and "units" in keys:
        own = {key: _in_mm(value, key, str(keys["units"])) for key, value in own.items()}
    units = {"units": keys["units"]} if old.kind == "brief" and "units" in keys else {}
    return {key: value for key, value in {**old.data, **units, **own}.items() if value is not None}


#: Keys whose bare numbers are no lengths.
_NO_LENGTH: Final = (
    "stretch_length", "stretch_width", "stretch_bias", "recovery", "openness", "opacity", "price", "shrink", "stretch",
    "ratio", "load_g", "turn",
)  # fmt: skip


def _in_mm(value: Any, key: str, units: str) -> Any:
    """A bare length as text with its unit; all else as it is."""
    if isinstance(value, Mapping):
        return {inner: _in_mm(one, inner, units) for inner, one in value.items()} if key not in _NO_LENGTH else value
    if isinstance(value, list):
        return [_in_mm(one, key, units) for one in value]
    plain = isinstance(value, int | float) and not isinstance(value, bool)
    return f"{value!r} {units}" if plain and key not in _NO_LENGTH else value
