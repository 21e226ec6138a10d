"""Writes a result folder in one swap: everything is written beside it first, so an interrupted run leaves the old
one whole.
"""

from __future__ import annotations

import ctypes
import errno
import os
import shutil
import signal
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

from galloon.errors import CannotWrite

#: What marks a folder as a result of ours, which may be replaced.
MARK = "report.json"
_EXCHANGE = 2  # RENAME_EXCHANGE of renameat2(2)
_HERE = -100  # AT_FDCWD


def write_folder(target: Path, files: Mapping[str, bytes], *, mark: str = MARK) -> None:
    """Replace ``target`` by a folder of ``files``; other things the maker put into an earlier result are kept.

    Raises CannotWrite, with nothing changed, where the target cannot be written or is not a result of ours.
    """
    target = target.absolute()
    _refuse_strangers(target, mark)
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        fresh = Path(tempfile.mkdtemp(prefix=f".{target.name}.", dir=target.parent))
    except OSError as error:
        raise CannotWrite(str(target), _reason(error)) from error
    try:
        _fill(fresh, target, files)
        with _uninterrupted():
            _swap(fresh, target)
    except OSError as error:
        raise CannotWrite(str(target), _reason(error)) from error
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


def _reason(error: OSError) -> str:
    return error.strerror or str(error)


def _refuse_strangers(target: Path, mark: str) -> None:
    if not target.exists():
        return
    if not target.is_dir():
        raise CannotWrite(str(target), "it is a file, not a folder; name another folder with --out")
    try:
        if any(target.iterdir()) and not (target / mark).is_file():
            raise CannotWrite(str(target), "it holds files that are no galloon result; name another folder with --out")
    except OSError as error:
        raise CannotWrite(str(target), _reason(error)) from error


def _fill(fresh: Path, old: Path, files: Mapping[str, bytes]) -> None:
    fresh.chmod(0o755)
    for name, content in files.items():
        with (fresh / name).open("wb") as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
    if old.is_dir():
        for kept in old.iterdir():
            if not (fresh / kept.name).exists():
                copy = shutil.copytree if kept.is_dir() and not kept.is_symlink() else shutil.copy2
                copy(kept, fresh / kept.name)


def _swap(fresh: Path, target: Path) -> None:
    if not target.exists():
        fresh.rename(target)
    elif not _exchange(fresh, target):
        aside = target.with_name(f"{fresh.name}.old")
        target.rename(aside)
        try:
            fresh.rename(target)
        except OSError:
            aside.rename(target)
            raise
        shutil.rmtree(aside, ignore_errors=True)


def _exchange(one: Path, other: Path) -> bool:
    """Swap two names at once where the system can (Linux renameat2); False where it cannot."""
    try:
        rename = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return False
    if rename(_HERE, os.fsencode(one), _HERE, os.fsencode(other), _EXCHANGE) == 0:
        return True
    if ctypes.get_errno() in (errno.ENOSYS, errno.EINVAL, errno.ENOTSUP):
        return False
    raise OSError(ctypes.get_errno(), os.strerror(ctypes.get_errno()))


@contextmanager
def _uninterrupted() -> Iterator[None]:
    """Holds Ctrl-C back while the names are swapped."""
    try:
        before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT, signal.SIGTERM})
    except (AttributeError, ValueError):
        yield
        return
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)
