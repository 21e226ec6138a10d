"""Numbered migrations: each brings the shelf's file one step on, in one transaction with its own record."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import cache
from importlib.resources import files

from galloon.store.trouble import refuse


@dataclass(frozen=True)
class Migration:
    """One step: its number, from 1, its name and its SQL."""

    number: int
    name: str
    sql: str


@cache
def migrations() -> tuple[Migration, ...]:
    """All steps in order, from the files ``schema/NNNN_name.sql``."""
    found = sorted((one for one in (files("galloon.store") / "schema").iterdir() if one.name.endswith(".sql")),
                   key=lambda one: one.name)  # fmt: skip
    return tuple(
        Migration(int(one.name[:4]), one.name[5:-4].replace("_", " "), one.read_text("utf-8")) for one in found
    )


def now() -> str:
    """The time in UTC, to the second."""
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def migrate(connection: sqlite3.Connection, steps: Sequence[Migration], file: str) -> None:
    """Apply the steps that the file has not seen. Raises BadInput, with nothing written, for a file of a newer
    program.
    """
    if version_of(connection) == len(steps):
        return
    for step in steps:
        connection.execute("BEGIN IMMEDIATE")
        try:
            refuse_newer(version_of(connection), len(steps), file)
            if version_of(connection) < step.number:
                _apply(connection, step)
            connection.execute("COMMIT")
        except BaseException:
            if connection.in_transaction:
                connection.execute("ROLLBACK")
            raise


def refuse_newer(version: int, known: int, file: str) -> None:
    """Raises BadInput for a file that a newer program wrote."""
    if version > known:
        rule = f"was written by a newer galloon (its layout is {version}, this program knows {known}); it is untouched"
        refuse("shelf", rule, file=file, hint="Use the newer galloon, or name another file with --shelf.")


def version_of(connection: sqlite3.Connection) -> int:
    """The number of the last step applied, 0 for a fresh file."""
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def _apply(connection: sqlite3.Connection, step: Migration) -> None:
    for statement in _statements(step.sql):
        connection.execute(statement)
    connection.execute("INSERT INTO migration VALUES (?, ?, ?)", (step.number, step.name, now()))
    connection.execute(f"PRAGMA user_version = {step.number:d}")


def _statements(sql: str) -> Iterator[str]:
    """The statements of a script, one by one: ``executescript`` would commit in between."""
    held = ""
    for piece in sql.split(";"):
        held += piece + ";"
        if sqlite3.complete_statement(held):
            if held.strip(" \n;"):
                yield held
            held = ""
