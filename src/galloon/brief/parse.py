"""TOML text to plain data, with the line of whatever is not TOML; guards against texts made to exhaust the reader."""

from __future__ import annotations

import re
import tomllib
from typing import Any, Final, NoReturn

from galloon.brief.faults import refuse_text
from galloon.errors import show

#: A brief longer than this many characters is refused; a full one with motif outlines has some tens of thousands.
LONGEST_BRIEF: Final = 2_000_000
#: The time to read dotted keys grows with the cube of their parts, so longer ones are refused beforehand.
_DEEP_KEY: Final = re.compile(r"""(?:\.[ \t]{0,8}(?:"[^"\n]*"|'[^'\n]*'|[A-Za-z0-9_-]+)[ \t]{0,8}){24}""")
_PLACE: Final = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")


def parse_toml(text: str, file: str) -> dict[str, Any]:
    """The data of a TOML text. Raises BadInput with the line of the first thing that cannot be read."""
    if len(text) > LONGEST_BRIEF:
        refuse_text(file, None, f"must be shorter than {LONGEST_BRIEF:,} characters", seen=f"{len(text):,}")
    deep = _DEEP_KEY.search(text)
    if deep:
        refuse_text(file, text.count("\n", 0, deep.start()) + 1, "has a key of too many parts")
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        _refuse_syntax(str(error), text, file)
    except RecursionError:
        refuse_text(file, None, "has lists or tables nested too deeply")
    except ValueError:
        refuse_text(file, None, "has a number with too many digits, or a date that does not exist")


def _refuse_syntax(message: str, text: str, file: str) -> NoReturn:
    place = _PLACE.search(message)
    said = _PLACE.sub("", message)
    line = int(place[1]) if place and place[1] else text.count("\n") + 1
    lines = text.split("\n")
    near = lines[line - 1].strip() if line <= len(lines) else ""
    hint = 'Text needs quotes: waist = "70 cm" or waist = 70; a name with blanks needs them too.'
    refuse_text(file, line, f"cannot be read as TOML ({said[:1].lower()}{said[1:]})", seen=show(near), hint=hint)
