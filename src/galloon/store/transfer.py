"""The whole shelf as one JSON document that another machine reads, and back."""

from __future__ import annotations

import json
import sqlite3
from base64 import b64decode, b64encode
from collections.abc import Mapping
from pathlib import Path
from typing import Any, Final

from galloon.brief import picture_of
from galloon.errors import BadInput, CannotWrite, Fault, show
from galloon.store.check import checked_brief, checked_name, to_text
from galloon.store.pictures import put_picture
from galloon.store.shelf import Shelf
from galloon.store.things import KINDS, add, find, list_things, needed
from galloon.store.trouble import refuse

FORMAT: Final = "galloon-shelf 1"
#: A larger document (characters) is refused.
LARGEST: Final = 200_000_000
_UNFIT: Final = (sqlite3.IntegrityError, sqlite3.ProgrammingError, sqlite3.InterfaceError)
_VERSION: Final = ("name", "number", "digest", "outlines", "program", "made")


def export_all(shelf: Shelf) -> str:
    """Everything on the shelf as JSON; the same shelf gives the same text."""
    with shelf.reading():
        document = {
            "format": FORMAT,
            "things": [{"kind": one.kind, "name": one.name, "data": dict(one.data)} for one in list_things(shelf)],
            "versions": [_version(row) for row in shelf.rows("SELECT * FROM version ORDER BY name, number")],
            "bookings": [_booking(shelf, row) for row in shelf.rows("SELECT * FROM booking ORDER BY id")],
        }
        pictures = shelf.rows("SELECT name, png FROM picture ORDER BY name")
    if pictures:
        document["pictures"] = [b64encode(row["png"]).decode("ascii") for row in pictures]
    return json.dumps(document, ensure_ascii=False, indent=1, sort_keys=True) + "\n"


def _version(row: sqlite3.Row) -> dict[str, Any]:
    return {**{key: row[key] for key in _VERSION}, "data": json.loads(row["data"])}


def _booking(shelf: Shelf, row: sqlite3.Row) -> dict[str, Any]:
    takings = shelf.rows(
        "SELECT taking.name, need, taken, plan, thing.name AS cloth "
        "FROM taking LEFT JOIN thing ON thing.id = taking.cloth WHERE booking = ? ORDER BY taking.name",
        (row["id"],),
    )
    left = shelf.rows(
        "SELECT remnant.name, remnant.data, thing.name AS thing "
        "FROM remnant LEFT JOIN thing ON thing.id = remnant.thing WHERE booking = ? ORDER BY remnant.name",
        (row["id"],),
    )
    version = shelf.row("SELECT name, number FROM version WHERE id = ?", (row["version"],))
    return {
        "mark": row["mark"],
        "title": row["title"],
        "booked": row["booked"],
        "undone": row["undone"],
        "version": None if version is None else [version["name"], version["number"]],
        "takings": [{**dict(one), "plan": json.loads(one["plan"])} for one in takings],
        "leftovers": [{**dict(one), "data": json.loads(one["data"])} for one in left],
    }


def import_all(shelf: Shelf, text: str, *, file: str, replace: bool = False) -> int:
    """Puts what a document holds on the shelf, all of it or nothing; the number of things that were new.

    What is there already and the same is passed over. Raises BadInput for a document that is no export or is not
    sound, and, unless ``replace`` (which empties the shelf first), for a name that means something else here.
    """
    document = _parsed(text, file)
    try:
        with shelf.writing() as connection:
            if replace:
                _empty(connection)
            for one in document.get("pictures", []):
                put_picture(shelf, picture_of(b64decode(one, validate=True), "picture"))
            count = sum(_import_thing(shelf, one) for one in _in_order(document))
            _import_past(shelf, document)
            return count
    except (KeyError, TypeError, ValueError, AttributeError, OverflowError, CannotWrite) as error:
        # What SQLite says of a value that no column takes is the document's fault, not the disk's.
        if isinstance(error, BadInput) or (isinstance(error, CannotWrite) and not isinstance(error.__cause__, _UNFIT)):
            raise
        rule = "is not as an export has it; nothing was taken in"
        raise BadInput((Fault(file, None, "shelf", show(f"{type(error).__name__}: {error}"), rule),)) from error


def read_export(path: Path) -> str:
    """The text of an export. Raises BadInput where it cannot be read."""
    file = show(str(path), 200)
    try:
        if path.is_file() and path.stat().st_size > LARGEST:
            refuse("shelf", f"must be smaller than {LARGEST / 1e6:g} MB", file=file)
        return path.read_text("utf-8")
    except UnicodeDecodeError:
        refuse("shelf", "must be text in UTF-8", file=file)
    except (OSError, ValueError) as error:
        refuse("shelf", f"cannot be read ({getattr(error, 'strerror', None) or error})", file=file)


def _parsed(text: str, file: str) -> Mapping[str, Any]:
    if len(text) > LARGEST:
        refuse("shelf", f"must be smaller than {LARGEST / 1e6:g} MB", file=file)
    try:
        document = json.loads(text)
    except (ValueError, RecursionError) as error:
        refuse("shelf", f"cannot be read as JSON ({error})", file=file)
    if not isinstance(document, Mapping) or document.get("format") != FORMAT:
        seen = str(document.get("format", "")) if isinstance(document, Mapping) else ""
        refuse("format", f'must be "{FORMAT}": a file that galloon shelf export wrote', seen=seen, file=file)
    return document


def _empty(connection: sqlite3.Connection) -> None:
    for table in ("remnant", "taking", "booking", "version", "picture"):
        connection.execute(f"DELETE FROM {table}")
    connection.execute("DELETE FROM thing WHERE cloth IS NOT NULL")
    connection.execute("DELETE FROM thing")


def _in_order(document: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    """Things sorted so that what another needs comes first."""
    return sorted(document["things"], key=lambda one: KINDS.index(one["kind"]))


def _import_thing(shelf: Shelf, one: Mapping[str, Any]) -> bool:
    there = find(shelf, one["kind"], one["name"])
    if there is None:
        add(shelf, one["kind"], one["name"], one["data"])
        return True
    if to_text(dict(there.data)) != to_text(one["data"]):
        rule = "is on the shelf already and is another; nothing was taken in"
        hint = "Remove or rename one, or empty the shelf first with --replace."
        refuse(f"{one['kind']} {one['name']}", rule, hint=hint)
    return False


def _import_past(shelf: Shelf, document: Mapping[str, Any]) -> None:
    """Versions and bookings, those that are not there yet."""
    for one in document.get("versions", []):
        checked_name(one["name"])
        row = shelf.row("SELECT digest FROM version WHERE name = ? AND number = ?", (one["name"], one["number"]))
        if row is not None and row["digest"] != one["digest"]:
            refuse(f"version {one['name']} {one['number']}", "is on the shelf already and is another")
        if row is None:
            data = to_text(checked_brief(one["name"], one["data"], None))
            sql = f"INSERT INTO version ({', '.join(_VERSION)}, data) VALUES (?, ?, ?, ?, ?, ?, ?)"
            shelf.connection.execute(sql, (*(one[key] for key in _VERSION), data))
    for one in document.get("bookings", []):
        if shelf.row("SELECT 1 FROM booking WHERE mark = ?", (one["mark"],)) is None:
            _import_booking(shelf, one)


def _import_booking(shelf: Shelf, one: Mapping[str, Any]) -> None:
    checked_name(one["title"])
    named = one["version"] or ("", 0)
    version = shelf.row("SELECT id FROM version WHERE name = ? AND number = ?", tuple(named))
    sql = "INSERT INTO booking (mark, title, version, booked, undone) VALUES (?, ?, ?, ?, ?)"
    values = (one["mark"], one["title"], version and version["id"], one["booked"], one["undone"])
    number = shelf.connection.execute(sql, values).lastrowid
    for taking in one["takings"]:
        shelf.connection.execute(
            "INSERT INTO taking (booking, cloth, name, need, taken, plan) VALUES (?, ?, ?, ?, ?, ?)",
            (number, _id(shelf, "cloth", taking["cloth"]), taking["name"], taking["need"], taking["taken"],
             to_text(taking["plan"])),
        )  # fmt: skip
    for left in one["leftovers"]:
        shelf.connection.execute(
            "INSERT INTO remnant (booking, name, data, thing) VALUES (?, ?, ?, ?)",
            (number, left["name"], to_text(left["data"]), _id(shelf, "leftover", left["thing"])),
        )


def _id(shelf: Shelf, kind: str, name: str | None) -> int | None:
    return None if name is None else int(needed(shelf, kind, name)["id"])
