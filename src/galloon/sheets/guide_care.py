"""The guide's last words: a worksheet for the fibres, care in words, and the usual cautions."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import Final

from galloon.drawing import Paper
from galloon.materials import whole_percents
from galloon.sewing import Ingredient, fibres, make_up
from galloon.sheets.guide_flow import (
    SMALL,
    Block,
    Column,
    bullet,
    heading,
    paragraph,
    stack,
    table,
    text_width_of,
)
from galloon.sheets.guide_matter import GuideMatter
from galloon.sheets.guide_words import say

_CAUTIONS: Final = ("judge", "skin", "tight", "who", "metal", "small", "machine", "iron")
_LAST_TOGETHER: Final = 3


def care(matter: GuideMatter, paper: Paper) -> Iterator[Block]:
    """A worksheet for the fibres, reckoned as far as the maker told weights, and care in words."""
    width = text_width_of(paper)
    found = make_up(matter.garment, matter.elastics)
    yield heading(say("care"), width)
    sums = paragraph(_all_told(found), width, bold=bool(fibres(found)), space=2.5)
    yield stack([paragraph(say("care.note"), width, size=SMALL), *_worksheet(matter, found, width), sums], space=2.0)
    yield paragraph(say("care.reckoned"), width, size=SMALL, space=1.5)
    lace = any(cloth.lace is not None for cloth in matter.cloths)
    yield paragraph(say("care.words", lace=say("care.lace") if lace else ""), width, space=4.0)


def _worksheet(matter: GuideMatter, found: Sequence[Ingredient], width: float) -> Iterator[Block]:
    heads = {"cloth": 1.6, "where": 1.4, "fibre": 2.5, "size": 0.9, "grams": 0.7, "share": 0.6}
    columns = [Column(say(f"care.{head}"), share, share <= 1.0) for head, share in heads.items()]
    weights = [each.weight for each in found]
    shares = whole_percents(_parts(found)) if None not in weights else {}
    rows = [
        (
            each.name,
            ", ".join(each.where),
            each.fibre or say("care.unknown"),
            _size(matter, each),
            say("care.blank") if each.weight is None else say("care.weighs", grams=f"{each.weight:.1f}"),
            f"{shares[str(place)]} %" if shares else say("care.blank.share"),
        )
        for place, each in enumerate(found)
    ]
    yield from table(columns, rows, width, size=SMALL)


def _parts(found: Sequence[Ingredient]) -> dict[str, float]:
    total = sum(each.weight or 0.0 for each in found)
    return {str(place): (each.weight or 0.0) / total for place, each in enumerate(found)}


def _size(matter: GuideMatter, each: Ingredient) -> str:
    if each.length is not None:
        return matter.length(each.length)
    return say("care.area", area=f"{(each.area or 0.0) / 100.0:.0f}")


def _all_told(found: Sequence[Ingredient]) -> str:
    """The fibres of the whole garment in whole percent, the heaviest first; what is missing for that by name."""
    missing = [each.name for each in found if not each.known]
    mix = whole_percents(fibres(found))
    if not mix:
        return say("care.none")
    text = ", ".join(say("care.percent", whole=whole or "<1", fibre=name) for name, whole in mix.items())
    if missing:
        return say("care.partly", fibres=text, missing=", ".join(dict.fromkeys(missing)))
    return say("care.wholly", fibres=text, grams=f"{sum(each.weight or 0.0 for each in found):.0f}")


def cautions(paper: Paper) -> Iterator[Block]:
    """The usual cautions, the last few on one page."""
    width = text_width_of(paper)
    yield heading(say("cautions"), width)
    for place, key in enumerate(_CAUTIONS):
        together = len(_CAUTIONS) - _LAST_TOGETHER <= place < len(_CAUTIONS) - 1
        yield replace(bullet(say(f"caution.{key}"), width), keep=together)
