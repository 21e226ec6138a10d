"""The open shelf: one SQLite file, opened safely, with reading and writing each in one transaction."""

from __future__ import annotations

import os
import sqlite3
import struct
import time
from collections.abc import Iterator, Sequence
from contextlib import closing, contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, Final

from galloon.errors import GalloonError, show
from galloon.store.backup import back_up_daily
from galloon.store.migrate import Migration, migrate, migrations, refuse_newer, version_of
from galloon.store.trouble import refuse_broken, told

#: Marks a file as a shelf (SQLite's application id): "galn".
APPLICATION: Final = 0x67616C6E
#: How long to wait for another process to finish writing, in seconds.
PATIENCE: Final = 10.0
_MAGIC: Final = b"SQLite format 3\0"


@dataclass
class Shelf:
    """A shelf that is open; use it within ``open_shelf``. ``notes`` are things the maker should be told."""

    path: Path
    connection: sqlite3.Connection
    notes: list[str] = field(default_factory=list)

    @contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """One change: all of it or nothing. Waits its turn when another process is writing."""
        with told(self.path):
            if self.connection.in_transaction:
                yield self.connection
                return
            self.connection.execute("BEGIN IMMEDIATE")
            try:
                yield self.connection
                self.connection.execute("COMMIT")
            except BaseException:
                if self.connection.in_transaction:
                    self.connection.execute("ROLLBACK")
                raise

    @contextmanager
    def reading(self) -> Iterator[None]:
        """Several queries that see the shelf at one moment."""
        if self.connection.in_transaction:
            yield
            return
        with told(self.path):
            self.connection.execute("BEGIN")
            try:
                yield
            finally:
                self.connection.execute("ROLLBACK")

    def rows(self, sql: str, values: Sequence[Any] = ()) -> list[sqlite3.Row]:
        """What a query gives."""
        with told(self.path):
            return self.connection.execute(sql, values).fetchall()

    def row(self, sql: str, values: Sequence[Any] = ()) -> sqlite3.Row | None:
        """The first row of a query, None where there is none."""
        found = self.rows(sql, values)
        return found[0] if found else None


def default_path() -> Path:
    """The shelf in the user's data folder."""
    from platformdirs import user_data_path

    return user_data_path("galloon", appauthor=False) / "shelf.sqlite"


@contextmanager
def open_shelf(
    path: Path | None = None, *, steps: Sequence[Migration] | None = None, patience: float = PATIENCE
) -> Iterator[Shelf]:
    """The shelf at ``path`` (the user's own unless given), made if it is not there, backed up once a day.

    Raises BadInput for a file that is damaged, no shelf or of a newer program; CannotWrite for one that is locked or
    cannot be written.
    """
    where = (path or default_path()).absolute()
    known = tuple(migrations() if steps is None else steps)
    with told(where):
        where.parent.mkdir(parents=True, exist_ok=True)
        _look_first(where, len(known))
        connection = _connect(where, patience)
    with closing(connection):
        shelf = Shelf(where, connection)
        with told(where):
            _settle(shelf, known, patience)
        yield shelf


def _look_first(path: Path, known: int) -> None:
    """Refuses a file that is no shelf or too new, before SQLite may touch it."""
    if path.is_dir():
        raise IsADirectoryError(0, "it is a folder, not a file")
    if not path.exists() or path.stat().st_size == 0:
        return
    head = _head(path)
    if not head.startswith(_MAGIC) or len(head) < 100:
        refuse_broken(path, "it does not begin like one")
    version, application = struct.unpack(">I4xI", head[60:72])
    _check_marks(path, version, application, known)
    if _unwritten(path):
        with closing(sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True)) as connection:
            application = connection.execute("PRAGMA application_id").fetchone()[0]
            _check_marks(path, version_of(connection), application, known)


def _head(path: Path) -> bytes:
    """SQLite's own header: the first hundred bytes (sqlite.org/fileformat.html, 1.3)."""
    with path.open("rb") as stream:
        return stream.read(100)


def _unwritten(path: Path) -> bool:
    """Whether a log beside the file holds changes that the file itself has not got yet."""
    log = path.with_name(f"{path.name}-wal")
    return log.exists() and log.stat().st_size > 0


def _check_marks(path: Path, version: int, application: int, known: int) -> None:
    if application not in (0, APPLICATION) or (application == 0 and version > 0):
        refuse_broken(path, "it belongs to another program")
    refuse_newer(version, known, show(str(path), 200))


def _connect(path: Path, patience: float) -> sqlite3.Connection:
    connection = sqlite3.connect(path, timeout=patience, isolation_level=None)
    connection.row_factory = sqlite3.Row
    connection.execute("PRAGMA foreign_keys = ON")
    return connection


def _settle(shelf: Shelf, known: Sequence[Migration], patience: float) -> None:
    """Brings the file up to date, after the day's backup."""
    connection, path = shelf.connection, shelf.path
    version = version_of(connection)
    if version == 0:
        _begin(connection, path, patience)
    elif application_of(connection) != APPLICATION:
        refuse_broken(path, "it belongs to another program")
    else:
        try:
            back_up_daily(connection, path)
        except GalloonError as error:
            shelf.notes.append(f"The daily backup was not made: {error}")
    migrate(connection, known, show(str(path), 200))


def application_of(connection: sqlite3.Connection) -> int:
    """The mark of the program that the file belongs to."""
    return int(connection.execute("PRAGMA application_id").fetchone()[0])


def _begin(connection: sqlite3.Connection, path: Path, patience: float) -> None:
    """A fresh file: readable by its owner only, since measurements are private; marked as a shelf."""
    if connection.execute("SELECT count(*) FROM sqlite_master").fetchone()[0] and application_of(connection) == 0:
        refuse_broken(path, "it belongs to another program")
    os.chmod(path, 0o600)
    until = time.monotonic() + patience
    while True:
        # Two processes that make the file at once: SQLite does not wait by itself while the kind of log changes.
        try:
            connection.execute("PRAGMA journal_mode = WAL")
            connection.execute(f"PRAGMA application_id = {APPLICATION:d}")
            return
        except sqlite3.OperationalError:
            if time.monotonic() > until:
                raise
            time.sleep(0.02)
