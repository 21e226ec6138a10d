"""Pattern versions: a whole brief as it was when a pattern was made, so that it can be printed again."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from galloon import __version__
from galloon.store.check import checked_brief, checked_name, to_text
from galloon.store.migrate import now
from galloon.store.shelf import Shelf
from galloon.store.trouble import refuse


@dataclass(frozen=True)
class Version:
    """One version of a pattern: brief data that stand alone, their digest, the digest of the cut outlines then, the
    program that drew them and when.
    """

    name: str
    number: int
    data: Mapping[str, Any]
    digest: str
    outlines: str
    program: str
    made: str


def keep_version(shelf: Shelf, name: str, data: Mapping[str, Any], outlines: str) -> Version:
    """The pattern as a new version; the last one where nothing has changed since. Raises BadInput.

    ``data`` names nothing on the shelf; ``outlines`` is a digest of the cut outlines.
    """
    checked_name(name)
    text = to_text(checked_brief(name, data, None))
    digest = sha256(text.encode("utf-8")).hexdigest()
    with shelf.writing() as connection:
        last = _last(shelf, name)
        if last is not None and (last.digest, last.outlines) == (digest, outlines):
            return last
        number = last.number + 1 if last is not None else 1
        sql = "INSERT INTO version (name, number, data, digest, outlines, program, made) VALUES (?, ?, ?, ?, ?, ?, ?)"
        connection.execute(sql, (name, number, text, digest, outlines, __version__, now()))
        return show_version(shelf, name, number)


def list_versions(shelf: Shelf) -> list[Version]:
    """All versions by name, oldest first."""
    return [_version(row) for row in shelf.rows("SELECT * FROM version ORDER BY name, number")]


def show_version(shelf: Shelf, name: str, number: int | None = None) -> Version:
    """The version of that number, the last unless said. Raises BadInput where there is none."""
    found = _last(shelf, name) if number is None else _numbered(shelf, name, number)
    if found is None:
        kept = shelf.rows("SELECT name, max(number) AS last FROM version GROUP BY name LIMIT 12")
        there = ", ".join(f"{row['name']} 1 to {row['last']}" for row in kept)
        hint = f"There: {there}." if there else "No pattern version is kept yet."
        refuse(f"version {name}" + ("" if number is None else f" {number}"), "is not on the shelf", hint=hint)
    return found


def remove_version(shelf: Shelf, name: str, number: int) -> None:
    """Takes a version off the shelf. Raises BadInput where it is not there or a booking was cut from it."""
    with shelf.writing() as connection:
        show_version(shelf, name, number)
        sql = "SELECT 1 FROM booking JOIN version ON booking.version = version.id WHERE name = ? AND number = ?"
        if shelf.row(sql, (name, number)) is not None:
            refuse(f"version {name} {number}", "cannot be removed: something was cut from it")
        connection.execute("DELETE FROM version WHERE name = ? AND number = ?", (name, number))


def _last(shelf: Shelf, name: str) -> Version | None:
    row = shelf.row("SELECT * FROM version WHERE name = ? ORDER BY number DESC LIMIT 1", (_plain(name),))
    return None if row is None else _version(row)


def _numbered(shelf: Shelf, name: str, number: int) -> Version | None:
    row = shelf.row("SELECT * FROM version WHERE name = ? AND number = ?", (_plain(name), min(number, 2**62)))
    return None if row is None else _version(row)


def _plain(name: str) -> str:
    return name.encode("utf-8", "replace").decode("utf-8")


def _version(row: sqlite3.Row) -> Version:
    kept = {key: row[key] for key in ("name", "number", "digest", "outlines", "program", "made")}
    return Version(**kept, data=json.loads(row["data"]))
