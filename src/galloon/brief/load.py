"""Reads a brief, and the motif files beside it, from the disk."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any, Final

from galloon.brief.faults import refuse_text
from galloon.brief.lace_picture import picture_of
from galloon.brief.model import Brief, Lookup
from galloon.brief.parse import LONGEST_BRIEF
from galloon.brief.read import read_brief
from galloon.errors import BadInput, BadValue, Fault, show
from galloon.materials import LacePicture

#: Largest motif file or drawing, in bytes.
LARGEST_MOTIF: Final = 5_000_000
#: Largest picture of a lace, in bytes.
LARGEST_PICTURE: Final = 20_000_000


def load_brief(
    path: str | Path,
    *,
    shelf: Lookup | None = None,
    outline_of_svg: Callable[[str], tuple[tuple[float, float], ...]] | None = None,
) -> Brief:
    """The brief in the file at ``path``. ``outline_of_svg`` turns the text of a motif file into a closed outline, mm;
    left out, the program's own reader does.

    Raises BadInput for a file that is missing, no file, too large, not text, or not a sound brief.
    """
    where = Path(path)

    def motif(name: str) -> tuple[tuple[float, float], ...]:
        return (outline_of_svg or _read_svg)(_motif_text(where.parent, name))

    def picture(name: str) -> bytes:
        return _file_beside(where.parent, name, "picture", LARGEST_PICTURE)

    return read_brief(brief_text(where), file=str(path), shelf=shelf, svg=motif, picture=picture)


def brief_text(path: Path) -> str:
    """The text of the file at ``path``. Raises BadInput where there is none."""
    file = str(path)
    try:
        if path.is_dir():
            refuse_text(file, None, "is a folder, not a file")
        raw = _bytes(path, LONGEST_BRIEF)
    except FileNotFoundError:
        refuse_text(file, None, "is not there", hint=f"To write a starter brief: galloon new {path.name}")
    except (OSError, ValueError) as error:
        refuse_text(file, None, f"cannot be read: {_reason(error)}")
    if len(raw) > LONGEST_BRIEF:
        refuse_text(file, None, f"must be smaller than {LONGEST_BRIEF / 1e6:g} MB")
    if not raw.strip():
        refuse_text(file, None, "is empty", hint=f"To see what goes in: galloon new {path.stem}-2.toml")
    return _decoded(raw, file)


def _bytes(path: Path, most: int) -> bytes:
    """The file's bytes, at most one more than ``most``; a pipe or a device is no file."""
    if not path.is_file():
        path.stat()
        raise OSError(0, "it is not an ordinary file")
    with path.open("rb") as stream:
        return stream.read(most + 1)


def _decoded(raw: bytes, file: str) -> str:
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        binary = b"\0" in raw[:4096]
        rule = "is a binary file, not text" if binary else "must be text in UTF-8"
        refuse_text(file, None if binary else line, rule, hint="Save it as UTF-8, or start from: galloon new FILE.")
    if "\0" in text:
        refuse_text(file, None, "is a binary file, not text")
    return text


def load_lace_picture(path: Path) -> LacePicture:
    """The picture of a lace in the file at ``path``. Raises BadInput with the reason where it cannot be used."""
    try:
        raw = _bytes(path, LARGEST_PICTURE)
    except (OSError, ValueError) as error:
        raise _no_picture(path, f"cannot be read ({_reason(error)})") from None
    if len(raw) > LARGEST_PICTURE:
        raise _no_picture(path, f"is larger than {LARGEST_PICTURE / 1e6:g} MB")
    try:
        return picture_of(raw, path.name)
    except BadValue as error:
        raise _no_picture(path, error.rule) from None


def _no_picture(path: Path, rule: str) -> BadInput:
    return BadInput((Fault(show(str(path), 120), None, "picture", "", rule),))


def _file_beside(folder: Path, name: str, key: str, most: int) -> bytes:
    """The file ``name``, which must lie in ``folder`` even after links are followed."""
    path = folder / name
    try:
        if not path.resolve().is_relative_to(folder.resolve()):
            raise BadValue(key, "must lie in the folder of the brief", name)
        raw = _bytes(path, most)
    except (OSError, RuntimeError) as error:
        raise BadValue(key, f"names a file that cannot be read ({_reason(error)})", name) from None
    if len(raw) > most:
        raise BadValue(key, f"names a file larger than {most / 1e6:g} MB", name)
    return raw


def _motif_text(folder: Path, name: str) -> str:
    raw = _file_beside(folder, name, "svg", LARGEST_MOTIF)
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise BadValue("svg", "names a file that is not text in UTF-8", name) from None


def load_drawing(path: Path) -> dict[str, dict[str, Any]]:
    """The pieces, with named edges, of the SVG file at ``path``. Raises BadInput with the line of what is wrong."""
    from galloon.brief.svg_pieces import pieces_of_svg

    file = str(path)
    try:
        raw = _bytes(path, LARGEST_MOTIF)
    except (OSError, ValueError) as error:
        refuse_text(file, None, f"cannot be read: {_reason(error)}")
    if len(raw) > LARGEST_MOTIF:
        refuse_text(file, None, f"must be smaller than {LARGEST_MOTIF / 1e6:g} MB")
    try:
        return pieces_of_svg(_decoded(raw, file))
    except BadValue as error:
        hint = "Draw each piece as a group whose paths are its edges, end to end."
        raise BadInput((Fault(file, None, "drawing", show(str(error.seen)), error.rule, hint),)) from None


def _read_svg(text: str) -> tuple[tuple[float, float], ...]:
    from galloon.brief.svg_outline import outline_of_svg

    return outline_of_svg(text)


def _reason(error: Exception) -> str:
    reason = (error.strerror if isinstance(error, OSError) else None) or str(error)
    return reason[:1].lower() + reason[1:]
