"""The edge finishes from the words of the brief."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from galloon.brief.faults import Faults, nearest
from galloon.brief.lines import KeyPath
from galloon.design import Finish, Finishes, FinishKind
from galloon.errors import BadValue
from galloon.materials import Cloth, Elastic, Kind, usual_elastic, usual_kinds
from galloon.units import parse_length

if TYPE_CHECKING:
    from galloon.brief.schema import FinishTable

#: What finishes an edge where the brief does not say.
USUAL: Final = "picot elastic 8 mm"
ZONES: Final = ("waist", "front_leg", "back_leg", "gusset_leg")
#: First words that say what a finish is; no elastic of the maker's own may begin with them.
TAKEN_WORDS: Final = re.compile(r"(lace trim|scallop|hem|binding)\b")
_WIDE: Final = re.compile(r"(hem|binding)(?: (.+))?$")
_FORMS: Final = {"fold-over": FinishKind.FOLD_OVER, "strap": FinishKind.STRAP}
_MM_AT_END: Final = re.compile(r"\s*\d+(?:[.,]\d+)?\s*mm$")


@dataclass(frozen=True)
class Stock:
    """What a finish can be made of: her own elastics, the cloths, and the brief's unit."""

    elastics: Mapping[str, Elastic | None]
    cloths: Mapping[str, Cloth | None]
    units: str

    def elastic(self, name: str) -> Elastic | None:
        """Her own elastic of that name, else the usual one."""
        return self.elastics.get(name) or usual_elastic(name)


def build_finishes(table: FinishTable | None, scalloped: tuple[str, ...], stock: Stock, faults: Faults) -> Finishes:
    """All four finishes. ``scalloped`` names the panels whose leg edge is a scallop unless said otherwise."""
    usual = usual_elastic(USUAL)
    finishes: dict[str, Finish] = {}
    for zone in ZONES:
        said = getattr(table, zone, None)
        if said is not None:
            made = read_finish(said, ("finish", zone), stock, faults)
        elif zone == "gusset_leg":
            front = finishes["front_leg"]
            made = front if front.kind is not FinishKind.SCALLOP else None
        else:
            made = Finish(FinishKind.SCALLOP) if zone.removesuffix("_leg") in scalloped else None
        finishes[zone] = made or Finish(FinishKind.ELASTIC, usual)
    return Finishes(**finishes)


def read_finish(said: str, path: KeyPath, stock: Stock, faults: Faults) -> Finish | None:
    """One finish; None, with a fault, where it cannot be read."""
    words = " ".join(said.split())
    if words in stock.elastics:
        own = stock.elastics[words]
        return None if own is None else Finish(_kind_for(own), own)
    wide = _WIDE.match(words)
    if wide:
        return _wide_finish(FinishKind(wide[1]), wide[2], path, stock, faults)
    for start, read in (("lace trim ", _trim), ("scallop", _scallop)):
        if words.startswith(start):
            return read(words.removeprefix(start).strip(), path, stock, faults)
    for start, kind in _FORMS.items():
        elastic = stock.elastic(words.removeprefix(f"{start} ")) if words.startswith(f"{start} ") else None
        if elastic is not None:
            return Finish(kind, elastic)
    elastic = usual_elastic(words)
    if elastic is None:
        _refuse_elastic(words, path, stock, faults)
        return None
    return Finish(_kind_for(elastic), elastic)


def _kind_for(elastic: Elastic) -> FinishKind:
    return _FORMS.get(elastic.form, FinishKind.ELASTIC)


def _wide_finish(kind: FinishKind, wide: str | None, path: KeyPath, stock: Stock, faults: Faults) -> Finish | None:
    with faults.at(path, rename={"": ""}):
        if wide is None:
            return Finish(kind)
        value = parse_length(wide, stock.units, "")
        if not 2.0 <= value <= 50.0:
            raise BadValue("", f"has a {kind} that must be 2 to 50 mm wide", wide)
        return Finish(kind, wide=value)
    return None


def _trim(name: str, path: KeyPath, stock: Stock, faults: Faults) -> Finish | None:
    if name not in stock.cloths:
        known = [name for name, cloth in stock.cloths.items() if cloth is None or cloth.kind is Kind.LACE]
        faults.refuse(path, "must name a lace of the brief after lace trim", hint=nearest(name, known) or _among(known))
        return None
    trim = stock.cloths[name]
    if trim is not None and trim.kind is not Kind.LACE:
        faults.refuse(path, "must name a lace; a trim cannot be cut from another cloth")
        return None
    return None if trim is None else Finish(FinishKind.LACE_TRIM, trim=trim)


def _scallop(rest: str, path: KeyPath, stock: Stock, faults: Faults) -> Finish | None:
    if not rest:
        return Finish(FinishKind.SCALLOP)
    name = rest.removeprefix("with ")
    elastic = stock.elastic(name) if rest.startswith("with ") else None
    if elastic is None and name not in stock.elastics:
        _refuse_elastic(name, path, stock, faults)
    return None if elastic is None else Finish(FinishKind.SCALLOP, elastic)


def _refuse_elastic(words: str, path: KeyPath, stock: Stock, faults: Faults) -> None:
    bare = _MM_AT_END.sub("", words.lower())
    kind = usual_kinds().get(bare)
    if kind is not None:
        least, most = kind.widths
        faults.refuse(path, f"names a {bare}, which comes {least:g} to {most:g} mm wide, as in {bare} 8 mm")
        return
    known = [*stock.elastics, *usual_kinds(), "scallop", "hem", "binding", "lace trim", "fold-over", "strap"]
    rule = "must name an elastic, or be scallop, lace trim NAME, fold-over NAME, strap NAME, hem or binding"
    faults.refuse(path, rule, hint=nearest(words, known) or nearest(bare, known) or _among(known))


def _among(known: list[str]) -> str:
    return f"Known: {', '.join(known)}." if known else "The brief has none."
