"""Booking a cut: the length comes off the cloths, leftovers worth keeping go on the shelf; the last can be undone."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from secrets import token_hex
from typing import TYPE_CHECKING, Any, Final

from galloon.store.check import checked_name, to_text
from galloon.store.migrate import now
from galloon.store.remnants import worth_keeping
from galloon.store.shelf import Shelf
from galloon.store.things import add, needed
from galloon.store.trouble import refuse
from galloon.store.versions import Version
from galloon.units import format_length

if TYPE_CHECKING:
    from galloon.cutting import Plan

#: A booking may ask for this much (mm) more than there is: rounding only.
_ROUNDING: Final = 1e-6
#: Decimals kept of a length on hand: a nanometre, so that taking and putting back give the same figure.
_DECIMALS: Final = 6


@dataclass(frozen=True)
class Take:
    """What a cut needs of one cloth: its name on the shelf, the length (mm) before the first wash, and the plan."""

    cloth: str
    need: float
    plan: Plan


@dataclass(frozen=True)
class Taking:
    """What a booking took: 0 mm where the length on hand was not known."""

    cloth: str
    need: float
    taken: float


@dataclass(frozen=True)
class Booking:
    """A cut that was booked: what it took, the names of the leftovers it put on the shelf, when it was undone."""

    number: int
    title: str
    booked: str
    undone: str | None
    takings: tuple[Taking, ...]
    leftovers: tuple[str, ...]


def book_cut(shelf: Shelf, title: str, takes: Sequence[Take], version: Version | None = None) -> Booking:
    """Books the cut, all of it or nothing. Raises BadInput where a cloth is not there or too short."""
    checked_name(title)
    if not takes:
        refuse("cut", "takes nothing that is on the shelf", hint="Put the cloth on the shelf first: galloon shelf add.")
    with shelf.writing() as connection:
        kept = None if version is None else _version_id(shelf, version)
        sql = "INSERT INTO booking (mark, title, version, booked) VALUES (?, ?, ?, ?)"
        cursor = connection.execute(sql, (token_hex(16), title, kept, now()))
        number = int(cursor.lastrowid or 0)
        for take in takes:
            _take(shelf, number, take)
            _keep_leftovers(shelf, number, take)
        return show_booking(shelf, number)


def _version_id(shelf: Shelf, version: Version) -> int | None:
    row = shelf.row("SELECT id FROM version WHERE name = ? AND number = ?", (version.name, version.number))
    return None if row is None else int(row["id"])


def _take(shelf: Shelf, number: int, take: Take) -> None:
    row = needed(shelf, "cloth", take.cloth)
    on_hand, taken = row["on_hand"], 0.0
    if on_hand is not None:
        if take.need > on_hand + _ROUNDING:
            rule = f"has {format_length(on_hand)} on hand, and the cut needs {format_length(take.need)}"
            refuse(f"cloth {take.cloth}", rule, hint="Nothing was booked. Get more, or choose another cloth.")
        left = round(max(0.0, on_hand - take.need), _DECIMALS)
        taken = round(on_hand - left, _DECIMALS)
        shelf.connection.execute("UPDATE thing SET on_hand = ? WHERE id = ?", (left, row["id"]))
    shelf.connection.execute(
        "INSERT INTO taking (booking, cloth, name, need, taken, plan) VALUES (?, ?, ?, ?, ?, ?)",
        (number, row["id"], take.cloth, take.need, taken, to_text(plan_data(take.plan))),
    )


def plan_data(plan: Plan) -> dict[str, Any]:
    """A cutting plan as plain data."""
    data = asdict(plan)
    data["placed"] = [
        {**placed, "outline": [list(map(float, point)) for point in placed["outline"]]} for placed in data["placed"]
    ]
    return data


def _keep_leftovers(shelf: Shelf, number: int, take: Take) -> None:
    for left in worth_keeping(take.plan):
        data = {"cloth": take.cloth, "outline": left.outline, "holes": left.holes}
        thing = add(shelf, "leftover", _free_name(shelf, take.cloth), data)
        row = needed(shelf, "leftover", thing.name)
        shelf.connection.execute(
            "INSERT INTO remnant (booking, name, data, thing) VALUES (?, ?, ?, ?)",
            (number, thing.name, row["data"], row["id"]),
        )


def _free_name(shelf: Shelf, cloth: str) -> str:
    """A name for a leftover: the cloth's, and the first number never used for one."""
    stem, place = cloth[:70].strip(), 1
    used = {row["name"] for row in shelf.rows("SELECT name FROM thing WHERE kind = 'leftover'")}
    used |= {row["name"] for row in shelf.rows("SELECT name FROM remnant")}
    while f"{stem} {place}" in used:
        place += 1
    return f"{stem} {place}"


def list_bookings(shelf: Shelf) -> list[Booking]:
    """All bookings, oldest first, the undone ones too."""
    return [_booking(shelf, row) for row in shelf.rows("SELECT * FROM booking ORDER BY id")]


def show_booking(shelf: Shelf, number: int) -> Booking:
    """The booking of that number. Raises BadInput where there is none."""
    row = shelf.row("SELECT * FROM booking WHERE id = ?", (number,))
    if row is None:
        refuse(f"cut {number}", "is not on the shelf")
    return _booking(shelf, row)


def booked_plans(shelf: Shelf, number: int) -> dict[str, Any]:
    """The plans of a booking by cloth, as plain data."""
    rows = shelf.rows("SELECT name, plan FROM taking WHERE booking = ?", (number,))
    return {row["name"]: json.loads(row["plan"]) for row in rows}


def _booking(shelf: Shelf, row: sqlite3.Row) -> Booking:
    takings = shelf.rows("SELECT name, need, taken FROM taking WHERE booking = ? ORDER BY name", (row["id"],))
    left = shelf.rows("SELECT name FROM remnant WHERE booking = ? ORDER BY name", (row["id"],))
    return Booking(
        row["id"],
        row["title"],
        row["booked"],
        row["undone"],
        tuple(Taking(one["name"], one["need"], one["taken"]) for one in takings),
        tuple(one["name"] for one in left),
    )


def undo_last(shelf: Shelf) -> Booking:
    """Undoes the last booking that stands: lengths go back on, its leftovers come off. All of it or nothing.

    Raises BadInput where there is none, or where its cloth or a leftover of it has been changed or removed since.
    """
    with shelf.writing() as connection:
        row = shelf.row("SELECT id FROM booking WHERE undone IS NULL ORDER BY id DESC LIMIT 1")
        if row is None:
            refuse("undo", "finds no booking to undo")
        _put_back(shelf, row["id"])
        connection.execute("UPDATE booking SET undone = ? WHERE id = ?", (now(), row["id"]))
        return show_booking(shelf, row["id"])


def _put_back(shelf: Shelf, number: int) -> None:
    for taking in shelf.rows("SELECT cloth, name, taken FROM taking WHERE booking = ?", (number,)):
        cloth = shelf.row("SELECT on_hand FROM thing WHERE id = ?", (taking["cloth"],))
        if taking["taken"] > 0.0 and (cloth is None or cloth["on_hand"] is None):
            _refuse_undo(f"cloth {taking['name']}")
        if taking["taken"] > 0.0 and cloth is not None:
            whole = round(cloth["on_hand"] + taking["taken"], _DECIMALS)
            shelf.connection.execute("UPDATE thing SET on_hand = ? WHERE id = ?", (whole, taking["cloth"]))
    for left in shelf.rows("SELECT name, data, thing FROM remnant WHERE booking = ?", (number,)):
        there = shelf.row("SELECT data FROM thing WHERE id = ?", (left["thing"],))
        if there is None or there["data"] != left["data"]:
            _refuse_undo(f"leftover {left['name']}")
        shelf.connection.execute("DELETE FROM thing WHERE id = ?", (left["thing"],))


def _refuse_undo(what: str) -> None:
    rule = "has been changed or removed since the booking, so it cannot be undone"
    refuse(what, rule, hint="Set the lengths by hand: galloon shelf change cloth NAME on_hand=LENGTH.")
