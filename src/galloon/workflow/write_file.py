"""Writes one file in one swap: an interrupted write leaves the old one whole."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from galloon.errors import CannotWrite, show


def write_file(target: Path, content: bytes) -> None:
    """Replace ``target`` by ``content``, readable by its owner only. Raises CannotWrite, with nothing changed."""
    target = target.absolute()
    try:
        handle, name = tempfile.mkstemp(prefix=f".{target.name[:100]}.", dir=target.parent)
    except (OSError, ValueError) as error:
        raise CannotWrite(show(str(target), 200), str(error)) from error
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        Path(name).replace(target)
    except OSError as error:
        Path(name).unlink(missing_ok=True)
        raise CannotWrite(show(str(target), 200), error.strerror or str(error)) from error
