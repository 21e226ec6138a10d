"""The kinds of value a brief can hold, each turned into millimetres, fractions or plain words as it is read."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Callable, Mapping
from enum import StrEnum
from typing import Annotated, Any, Final

from pydantic import BeforeValidator, PlainValidator, ValidationInfo

from galloon.drawing import unprintable
from galloon.errors import BadValue
from galloon.materials.fibres import ROUNDED, fibre_text
from galloon.said import said
from galloon.units import G_PER_M, G_PER_M2, parse_length, parse_weight

#: Longest name or title, in characters.
LONGEST_NAME: Final = 80
#: No coordinate of an outline lies farther from its origin than this (mm).
FARTHEST: Final = 3000.0
#: Decimal places kept of a length in mm, so that a limit given in another unit is met exactly.
PLACES: Final = 9
#: Numbers beyond this are refused before anything is reckoned with them.
LARGEST: Final = 1e12
#: Format characters that turn the direction of the text around them.
_TURNING: Final = frozenset("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
_PERCENT: Final = re.compile(r"^([-+]?\d{1,6}(?:[.,]\d{1,6})?)\s*%$")


class InUnit(float):
    """A bare number that is in a unit of its own, not in the brief's."""

    unit: str

    def __new__(cls, value: float, unit: str) -> InUnit:
        """``value`` in ``unit``."""
        made = super().__new__(cls, value)
        made.unit = unit
        return made


def read_length(given: Any, info: ValidationInfo) -> float:
    """Millimetres; a bare number is in the brief's units."""
    _refuse_monsters(given)
    unit = given.unit if isinstance(given, InUnit) else str((info.context or {}).get("units", "mm"))
    return round(parse_length(given, unit, ""), PLACES)


def read_coordinate(given: Any, info: ValidationInfo) -> float:
    """Millimetres from the origin, at most ``FARTHEST``."""
    value = read_length(given, info)
    if abs(value) > FARTHEST:
        raise BadValue("", said("must lie within {most:g} cm of the origin", most=FARTHEST / 10), given)
    return value


def read_number(given: Any) -> float:
    """A plain finite number."""
    if isinstance(given, bool) or not isinstance(given, int | float):
        raise BadValue("", said("must be a number"), given)
    _refuse_monsters(given)
    if not math.isfinite(given):
        raise BadValue("", said("must be a finite number"), given)
    return float(given)


def read_count(given: Any) -> int:
    """A whole number."""
    value = read_number(given)
    if value != int(value):
        raise BadValue("", said("must be a whole number"), given)
    return int(value)


def read_percent(given: Any) -> float:
    """A fraction of one from a number of percent, or from text such as "55 %"."""
    written = _percent_text(given)
    return (read_number(given) if written is None else written) / 100.0


def read_share(given: Any) -> float:
    """A fraction of one, or text such as "45 %"."""
    written = _percent_text(given)
    return read_number(given) if written is None else written / 100.0


def read_text(given: Any) -> str:
    """One line of text without control characters, in letters that the prints can show."""
    if not isinstance(given, str):
        raise BadValue("", said("must be text in quotes"), given)
    if len(given) > LONGEST_NAME:
        raise BadValue("", said("must be at most {most} characters long", most=LONGEST_NAME), given)
    if any(unicodedata.category(ch) in ("Cc", "Cs", "Zl", "Zp") or ch in _TURNING for ch in given):
        raise BadValue("", said("must be one line without control characters"), given)
    if not given.isascii() and (refused := unprintable(given)):
        rule = said("must be in letters that can be printed; it has {letters}", letters=", ".join(refused[:3]))
        raise BadValue("", rule, given)
    return given


def read_name(given: Any) -> str:
    """Text that is not blank."""
    text = read_text(given)
    if not text.strip():
        raise BadValue("", said("must not be empty"), given)
    if text != text.strip():
        raise BadValue("", said("must not begin or end with a blank"), given)
    return text


def read_fibre(given: Any) -> str:
    """What a cloth is made of: text, or a table of percents by fibre that add up to 100, written out."""
    if not isinstance(given, Mapping):
        return read_text(given)
    shares = {read_name(name): read_percent(share) for name, share in given.items()}
    if not shares or min(shares.values()) <= 0.0 or abs(sum(shares.values()) - 1.0) > ROUNDED:
        raise BadValue("", said("must give every fibre its percent, 100 in all"), fibre_text(shares))
    return read_text(fibre_text(shares))


def read_weight(given: Any) -> float:
    """Grams per square metre."""
    _refuse_monsters(given)
    return round(parse_weight(given, G_PER_M2, ""), PLACES)


def read_length_weight(given: Any) -> float:
    """Grams per metre."""
    _refuse_monsters(given)
    return round(parse_weight(given, G_PER_M, ""), PLACES)


def read_flag(given: Any) -> bool:
    """True or false."""
    if not isinstance(given, bool):
        raise BadValue("", said("must be true or false"), given)
    return given


class WrongWord(BadValue):
    """A word that is none of those offered; ``offered`` keeps them for a suggestion."""

    def __init__(self, offered: tuple[str, ...], seen: object) -> None:
        self.offered = offered
        super().__init__("", said("must be one of {words}", words=", ".join(offered)), seen)


def word_in(offered: type[StrEnum]) -> Callable[[Any], StrEnum]:
    """A reader for the words of an enumeration; case and doubled blanks do not matter."""
    by_word = {member.value.lower(): member for member in offered}

    def read(given: Any) -> StrEnum:
        word = " ".join(given.lower().split()) if isinstance(given, str) else ""
        if word not in by_word:
            raise WrongWord(tuple(member.value for member in offered), given)
        return by_word[word]

    return read


def word_of(*offered: str) -> Callable[[Any], str]:
    """A reader for one of the words; case and doubled blanks do not matter."""

    def read(given: Any) -> str:
        word = " ".join(given.lower().split()) if isinstance(given, str) else ""
        if word not in offered:
            raise WrongWord(offered, given)
        return word

    return read


def one_or_list(given: Any) -> Any:
    """A single table or word stands for a list of one."""
    return [given] if isinstance(given, dict | str) else given


def _percent_text(given: Any) -> float | None:
    if not isinstance(given, str):
        return None
    match = _PERCENT.match(given.strip())
    if match is None:
        raise BadValue("", said('must be a number, or text such as "55 %"'), given)
    return float(match[1].replace(",", "."))


def _refuse_monsters(given: Any) -> None:
    if isinstance(given, int | float) and LARGEST < abs(given) < math.inf:
        raise BadValue("", said("must be a number of a sensible size"), "a number beyond 1e12")


#: The last item of each tells how its bare numbers are shown in a message: a length, percent, or as they are.
Length = Annotated[float, PlainValidator(read_length), "length"]
Coordinate = Annotated[float, PlainValidator(read_coordinate), "length"]
Percent = Annotated[float, PlainValidator(read_percent), "percent"]
Share = Annotated[float, PlainValidator(read_share), "share"]
Number = Annotated[float, PlainValidator(read_number), "number"]
Count = Annotated[int, PlainValidator(read_count), "number"]
Text = Annotated[str, PlainValidator(read_text), "text"]
Name = Annotated[str, PlainValidator(read_name), "text"]
Fibre = Annotated[str, PlainValidator(read_fibre), "text"]
Weight = Annotated[float, PlainValidator(read_weight), "number"]
LengthWeight = Annotated[float, PlainValidator(read_length_weight), "number"]
Flag = Annotated[bool, PlainValidator(read_flag), "flag"]
OneOrList = BeforeValidator(one_or_list)
