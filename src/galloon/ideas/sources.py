"""Where a stock comes from: a brief, or the shelf alone."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Final

from galloon.brief import Brief, Lookup, brief_from, brief_text, load_brief
from galloon.cutting import Remnant
from galloon.errors import BadInput, Fault, show
from galloon.findings import Finding
from galloon.ideas.leftovers import Leftover
from galloon.ideas.stock import Stock, stock_of
from galloon.store import Shelf, Thing, list_things

#: Forms of elastic that finish any edge of any cloth.
_FORMS: Final = ("picot", "plush", "plain", "fold-over")
#: Widths (mm) to choose nearest to, from the elastics on the shelf.
_WAIST_WIDE: Final = 10.0
_LEG_WIDE: Final = 8.0


@dataclass(frozen=True)
class Source:
    """A stock with what was found unusual about it."""

    stock: Stock
    findings: tuple[Finding, ...]


def from_brief(path: str, shelf: Lookup) -> Source:
    """The stock of a brief, which may leave out [panels]: then no cloth is set for any. Raises BadInput as reading it
    does, and where it has no cloth.
    """
    text = brief_text(Path(path))
    from galloon.brief.parse import parse_toml

    data = parse_toml(text, path)
    cloths = data.get("cloth")
    if "panels" in data or not isinstance(cloths, Mapping) or not cloths:
        return _source(load_brief(Path(path), shelf=shelf), asked=True)
    filled = {**data, "panels": _panels(cloths)}
    return _source(brief_from(filled, text=text, file=path, shelf=shelf), asked=False)


def _source(brief: Brief, *, asked: bool, leftovers: tuple[Leftover, ...] = ()) -> Source:
    return Source(stock_of(brief.design, asked=asked, leftovers=leftovers), brief.findings)


def _panels(cloths: Mapping[str, Any]) -> dict[str, str]:
    """A stand-in: every panel of the first cloth that is no lace."""
    plain = [name for name, table in cloths.items() if not (isinstance(table, Mapping) and table.get("kind") == "lace")]
    return dict.fromkeys(("front", "back", "gusset"), (plain or list(cloths))[0])


def from_shelf(shelf: Shelf, wearer: str | None, *, buy: bool, units: str = "cm") -> Source:
    """The stock that the shelf alone gives: one wearer, every cloth there is some of (with ``buy`` those used up too).

    Her block of the same name, the elastics nearest to usual widths and the leftovers of the cloths come along;
    lengths are told in ``units``. Raises BadInput where the wearer is not clear, or no cloth is there.
    """
    with shelf.reading():
        woman = _wearer(shelf, wearer)
        cloths = {one.name: one.data for one in list_things(shelf, "cloth") if buy or one.data.get("on_hand") != 0}
        elastics = list_things(shelf, "elastic")
        blocks = [one for one in list_things(shelf, "block") if one.name == woman.name]
        leftovers = tuple(_leftover(one) for one in list_things(shelf, "leftover") if one.data["cloth"] in cloths)
    if not cloths:
        _refuse(shelf, "cloth", "holds no cloth to make anything from", "To add one: galloon shelf add cloth NAME ...")
    data = {
        "title": "From the shelf",
        "units": "mm",
        "wearer": {"name": woman.name, **woman.data},
        **({"block": blocks[0].data} if blocks else {}),
        "cloth": cloths,
        "elastic": {one.name: one.data for one in elastics},
        "panels": _panels(cloths),
        "finish": _finish(elastics),
    }
    brief = brief_from(data, file=str(shelf.path))
    brief = replace(brief, design=replace(brief.design, units=units))
    return _source(brief, asked=False, leftovers=leftovers)


def _leftover(thing: Thing) -> Leftover:
    outline, *holes = (
        tuple((float(x), float(y)) for x, y in ring) for ring in (thing.data["outline"], *thing.data.get("holes", ()))
    )
    return Leftover(thing.name, thing.data["cloth"], Remnant(outline, tuple(holes)))


def _wearer(shelf: Shelf, name: str | None) -> Thing:
    known = list_things(shelf, "wearer")
    if name is not None:
        known = [one for one in known if one.name == name] or _refuse(
            shelf, f"wearer {show(name)}", "is not on the shelf", _names(known)
        )
    if not known:
        _refuse(shelf, "wearer", "holds no wearer", "To add one: galloon shelf add wearer NAME waist=... hip=... .")
    if len(known) > 1:
        _refuse(shelf, "wearer", "holds several wearers, so say for whom: --wearer NAME", _names(known))
    return known[0]


def _names(things: list[Thing]) -> str:
    return f"There: {', '.join(show(one.name) for one in things[:12])}." if things else "There is none yet."


def _refuse(shelf: Shelf, key: str, rule: str, hint: str) -> Any:
    raise BadInput((Fault(str(shelf.path), None, key, "", rule, hint),))


def _finish(elastics: list[Thing]) -> dict[str, str]:
    """Her elastics for waist and legs, where she has any that will do."""
    fit = [one for one in elastics if one.data.get("form", "plain") in _FORMS]
    if not fit:
        return {}

    def nearest(wide: float) -> str:
        return min(fit, key=lambda one: (abs(float(one.data["width"]) - wide), one.name)).name

    return {"waist": nearest(_WAIST_WIDE), "front_leg": nearest(_LEG_WIDE), "back_leg": nearest(_LEG_WIDE)}
