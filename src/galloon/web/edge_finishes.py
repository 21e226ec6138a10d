"""The edge finishes a maker can choose from on the page, and the one chosen taken apart into its kind and width."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import Any, Final, NamedTuple

from galloon.materials import usual_kinds
from galloon.web.words import Words

ZONES: Final = ("waist", "front_leg", "back_leg", "gusset_leg")
#: Only where the sides are open.
OPEN_SIDE: Final = "side"
#: Least, usual and greatest width of what is no elastic, mm: what a brief may say, and what it means left out.
_WIDE: Final[Mapping[str, tuple[float, float, float]]] = {"hem": (2.0, 8.0, 50.0), "binding": (2.0, 7.0, 50.0)}
_SOFT: Final = "scallop with soft elastic"
_USUAL_WIDTH: Final = 8.0
_WIDTH_AT_END: Final = re.compile(r"^(?P<kind>.*?) (?P<width>\d{1,3}(?:\.\d{1,2})?) ?mm$")


class Choice(NamedTuple):
    """One finish to choose: what the brief calls it without its width, what the page calls it, least, usual and
    greatest width in mm (None where it has none), and whether its elastic has yet to be taken from the shelf.
    """

    kind: str
    word: str
    widths: tuple[float, float, float] | None = None
    from_shelf: bool = False


def choices(elastics: Sequence[str], on_shelf: Sequence[str], laces: Sequence[str], words: Words) -> list[Choice]:
    """Every finish there is to choose, the most usual first."""
    found = [Choice("", words("finish.usual"))]
    found += [Choice(name, words(f"finish.{name}"), _widths(*kind.widths)) for name, kind in usual_kinds().items()]
    found += [Choice(name, words.term(name)) for name in elastics]
    found += [Choice(name, words("finish.shelf", name=name), None, True) for name in on_shelf if name not in elastics]
    found.append(Choice("scallop", words("finish.scallop")))
    found.append(Choice(_SOFT, words(f"finish.{_SOFT}"), _widths(*usual_kinds()["soft elastic"].widths)))
    found += [Choice(f"lace trim {name}", words("finish.trim", name=name)) for name in laces]
    return [*found, *(Choice(kind, words(f"finish.{kind}"), widths) for kind, widths in _WIDE.items())]


def _widths(least: float, most: float) -> tuple[float, float, float]:
    return least, min(most, max(least, _USUAL_WIDTH)), most


def chosen(said: Any, among: Sequence[Choice]) -> tuple[Choice, str]:
    """The choice a brief's words are, and the width they give; words of her own are a choice of their own."""
    text = " ".join(said.split()) if isinstance(said, str) else ""
    parts = _WIDTH_AT_END.match(text)
    for choice in among:
        if text == choice.kind:
            return choice, "" if choice.widths is None else f"{choice.widths[1]:g}"
        if parts is not None and choice.widths is not None and parts["kind"] == choice.kind:
            return choice, parts["width"]
    return Choice(text, text), ""
