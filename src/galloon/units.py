"""Text with units to millimetres and back; the only place where numbers change unit."""

from __future__ import annotations

import math
import re
from fractions import Fraction
from typing import Final

from galloon.errors import BadValue
from galloon.said import Measure, Said, said

#: Millimetres in one unit: exact by definition (international inch 1959).
MM_PER: Final[dict[str, float]] = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "yd": 914.4}

_UNIT_WORDS: Final[dict[str, str]] = {
    "mm": "mm", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
    "cm": "cm", "centimetre": "cm", "centimetres": "cm", "centimeter": "cm", "centimeters": "cm",
    "m": "m", "metre": "m", "metres": "m", "meter": "m", "meters": "m",
    "in": "in", "inch": "in", "inches": "in", '"': "in", "″": "in", "”": "in", "''": "in",
    "yd": "yd", "yds": "yd", "yard": "yd", "yards": "yd",
}  # fmt: skip
_GLYPH_FRACTIONS: Final[dict[str, str]] = {
    "¼": "1/4", "½": "1/2", "¾": "3/4", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8", "⅓": "1/3", "⅔": "2/3",
}  # fmt: skip
_LENGTH = re.compile(
    r"^(?P<sign>[-+]?)\s*(?:(?P<dec>\d{1,9}(?:[.,]\d{1,9})?|[.,]\d{1,9})(?:[\s-]+(?P<num>\d{1,4})/(?P<den>\d{1,4}))?"
    r"|(?P<num2>\d{1,4})/(?P<den2>\d{1,4}))\s*(?P<unit>[^\d\s]*)$"
)


def parse_length(given: object, unit: str, subject: str = "length") -> float:
    """Millimetres from a number in ``unit`` or from text such as ``"27 1/2 in"``, ``'1/4"'``, ``"70 cm"``.

    A comma is read as a decimal point. Raises BadValue for anything else, and for what is not finite.
    """
    if isinstance(given, bool) or not isinstance(given, int | float | str):
        raise BadValue(subject, said("must be a number or text such as \"70 cm\" or '27 1/2 in'"), given)
    if isinstance(given, str):
        return _parse_text(given, unit, subject)
    if not math.isfinite(given):
        raise BadValue(subject, said("must be a finite number"), given)
    return float(given) * MM_PER[unit]


def _parse_text(given: str, unit: str, subject: str) -> float:
    text = given.strip()
    for glyph, plain in _GLYPH_FRACTIONS.items():
        text = text.replace(glyph, f" {plain}")
    match = _LENGTH.match(text.strip())
    if match is None:
        raise BadValue(subject, said('must read like "70 cm", "6 mm", \'27 1/2 in\' or \'1/4"\''), given)
    word = match["unit"].lower() or unit
    if word not in _UNIT_WORDS:
        raise BadValue(subject, said("has a unit that is not known; use {units}", units=", ".join(MM_PER)), given)
    number, top, bottom = match["dec"] or "0", match["num"] or match["num2"], match["den"] or match["den2"]
    value = Fraction(number.replace(",", "."))
    if top:
        if int(bottom) == 0:
            raise BadValue(subject, said("has a fraction with a zero below the line"), given)
        value += Fraction(int(top), int(bottom))
    sign = -1.0 if match["sign"] == "-" else 1.0
    return sign * float(value) * MM_PER[_UNIT_WORDS[word]]


#: Grams per square metre, and per metre, in one unit: exact by definition (avoirdupois ounce, international yard 1959).
G_PER_M2: Final[dict[str, float]] = {
    "g/m2": 1.0, "g/m²": 1.0, "gsm": 1.0, "oz/yd2": 28.349523125 / 0.9144**2, "oz/yd²": 28.349523125 / 0.9144**2,
}  # fmt: skip
G_PER_M: Final[dict[str, float]] = {"g/m": 1.0, "oz/yd": 28.349523125 / 0.9144}
_WEIGHT = re.compile(r"^(?P<number>\d{1,6}(?:[.,]\d{1,6})?)\s*(?P<unit>[^\d\s]\S*)$")


def parse_weight(given: object, grams_per: dict[str, float], subject: str = "weight") -> float:
    """Grams per square metre (``G_PER_M2``) or per metre (``G_PER_M``) from a number or text such as ``"180 g/m2"``.

    A bare number is in the table's first unit. Raises BadValue for anything else.
    """
    rule = said('must be a number or text such as "180 {unit}"', unit=next(iter(grams_per)))
    if isinstance(given, str):
        match = _WEIGHT.match(" ".join(given.split()))
        per = grams_per.get(match["unit"].lower()) if match else None
        if match is None or per is None:
            raise BadValue(subject, said("{rule}; units: {units}", rule=rule, units=", ".join(grams_per)), given)
        return float(match["number"].replace(",", ".")) * per
    if isinstance(given, bool) or not isinstance(given, int | float) or not math.isfinite(given):
        raise BadValue(subject, rule, given)
    return float(given)


def limits(least: float, most: float, unit: str = "") -> Said:
    """The rule that a figure must lie between two others of one unit."""
    if not unit:
        return said("must lie between {least:g} and {most:g}", least=least, most=most)
    return said("must lie between {least:g} and {most:g} {unit}", least=least, most=most, unit=unit)


def format_length(mm: float, unit: str = "cm") -> Measure:
    """Millimetres as text a maker reads: ``"23.5 cm"``, ``"235 mm"``, ``"9 1/4 in"`` (nearest 1/16)."""
    if unit == "in":
        return _format_inches(mm)
    places = {"mm": 1, "cm": 1, "m": 2, "yd": 2}[unit]
    text = f"{mm / MM_PER[unit]:.{places}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return Measure(f"{'0' if text == '-0' else text} {unit}")


def _format_inches(mm: float) -> Measure:
    sixteenths = round(abs(mm) / 25.4 * 16)
    sign = "-" if mm < 0 and sixteenths else ""
    whole, rest = divmod(sixteenths, 16)
    part = str(Fraction(rest, 16)) if rest else ""
    return Measure(f"{sign}{' '.join(filter(None, [str(whole) if whole or not part else '', part]))} in")
