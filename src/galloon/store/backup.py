"""A copy of the shelf for each day it is used; the newest seven are kept."""

from __future__ import annotations

import os
import re
import sqlite3
from contextlib import closing
from datetime import date
from pathlib import Path
from typing import Final

from galloon.errors import CannotWrite, show

#: How many daily copies are kept.
KEPT: Final = 7
_NAME: Final = re.compile(r"\d{4}-\d\d-\d\d\.sqlite")


def backup_folder(path: Path) -> Path:
    """The folder of the shelf's copies, beside it."""
    return path.with_name(f"{path.name}-backups")


def backups(path: Path) -> list[Path]:
    """The copies of the shelf at ``path``, oldest first."""
    folder = backup_folder(path)
    return sorted(one for one in folder.iterdir() if _NAME.fullmatch(one.name)) if folder.is_dir() else []


def back_up_daily(connection: sqlite3.Connection, path: Path, *, today: date | None = None) -> Path | None:
    """The day's copy, made unless there is one; None where there was. Raises CannotWrite."""
    day = today or date.today()
    if (backup_folder(path) / f"{day}.sqlite").exists():
        return None
    return back_up(connection, path, today=day)


def back_up(connection: sqlite3.Connection, path: Path, *, today: date | None = None) -> Path:
    """A copy now, in place of the day's one if there is one. A shelf that is damaged is not copied over good copies.

    Raises CannotWrite where it cannot be made; older copies are then as they were.
    """
    target = backup_folder(path) / f"{today or date.today()}.sqlite"
    partial = target.with_name(f".{target.name}.{os.getpid()}")
    try:
        _check(connection)
        target.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        _copy(connection, partial)
        partial.replace(target)
    except (sqlite3.Error, OSError) as error:
        partial.unlink(missing_ok=True)
        raise CannotWrite(show(str(target), 200), str(error)) from error
    for old in backups(path)[:-KEPT]:
        old.unlink(missing_ok=True)
    return target


def _check(connection: sqlite3.Connection) -> None:
    said = connection.execute("PRAGMA integrity_check(1)").fetchone()[0]
    if said != "ok":
        raise sqlite3.DatabaseError(f"the shelf is damaged: {' '.join(said.split())}")


def _copy(connection: sqlite3.Connection, target: Path) -> None:
    target.unlink(missing_ok=True)
    os.close(os.open(target, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
    with closing(sqlite3.connect(target)) as copy:
        connection.backup(copy)
        copy.execute("PRAGMA journal_mode = DELETE")
