"""What can go wrong with the shelf's file, as messages a maker can act on."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final, NoReturn

from galloon.errors import BadInput, CannotWrite, Fault, show

#: SQLite's result codes (sqlite.org/rescode.html): locked by another, disk full, disk at fault, no right to write.
_BUSY: Final = {"SQLITE_BUSY", "SQLITE_LOCKED"}
_FULL: Final = {"SQLITE_FULL"}
_FAILING: Final = {"SQLITE_IOERR"}
_NO_RIGHT: Final = {"SQLITE_READONLY", "SQLITE_CANTOPEN", "SQLITE_PERM", "SQLITE_AUTH"}
_BROKEN: Final = {"SQLITE_CORRUPT", "SQLITE_NOTADB"}


def refuse(key: str, rule: str, *, seen: str = "", hint: str = "", file: str = "shelf") -> NoReturn:
    """Raises BadInput with one fault."""
    raise BadInput((Fault(file, None, show(key), show(seen), rule, hint),))


@contextmanager
def told(path: Path) -> Iterator[None]:
    """Turns what SQLite or the system raises inside into a message about the file at ``path``."""
    try:
        yield
    except sqlite3.Error as error:
        _tell(path, error)
    except OSError as error:
        raise CannotWrite(show(str(path), 200), error.strerror or str(error)) from error


def _tell(path: Path, error: sqlite3.Error) -> NoReturn:
    code = "_".join(str(getattr(error, "sqlite_errorname", "")).split("_")[:2])
    file = show(str(path), 200)
    if code in _BUSY:
        reason = "another program is writing to it and has not finished; try again in a moment"
        raise CannotWrite(file, reason) from error
    if code in _FULL:
        raise CannotWrite(file, "the disk is full; make room and try again") from error
    if code in _FAILING:
        reason = f"the disk did not take it, being full or at fault ({error}); make room and try again"
        raise CannotWrite(file, reason) from error
    if code in _NO_RIGHT:
        raise CannotWrite(file, f"it cannot be opened or written here ({error})") from error
    if code in _BROKEN:
        refuse_broken(path, str(error), error)
    raise CannotWrite(file, str(error)) from error


def refuse_broken(path: Path, why: str, cause: Exception | None = None) -> NoReturn:
    """Raises BadInput for a file that is damaged or no shelf, and says where the newest backup is."""
    from galloon.store.backup import backups

    kept = backups(path)
    back = f"put it aside and copy {show(str(kept[-1]), 200)} into its place" if kept else "restore it from a copy"
    fault = Fault(
        show(str(path), 200), None, "shelf", "", f"is damaged or is no shelf of galloon ({why})", f"To go on, {back}."
    )
    raise BadInput((fault,)) from cause
