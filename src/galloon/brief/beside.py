"""Names of files that a brief may ask for: in its own folder or below it."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from galloon.brief.faults import Faults
from galloon.brief.lines import KeyPath
from galloon.said import Said, said

T = TypeVar("T")


def reader_of(
    name: str, path: KeyPath, reads: Callable[[str], T] | None, faults: Faults, *, example: Said, instead: Said
) -> Callable[[str], T] | None:
    """What ``reads`` the file of that name; None, with a fault at ``path``, where the name leads elsewhere (``example``
    shows one that does not), or where no files are read (``instead`` says what to do).
    """
    parts = name.replace("\\", "/").split("/")
    if ".." in parts or not parts[0] or ":" in name:
        faults.refuse(path, said("must be a file in the folder of the brief or below it"), hint=example)
        return None
    if reads is None:
        faults.refuse(path, said("names a file, and no files are read here"), hint=instead)
    return reads
