"""The edge finishes from the words of the brief."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from galloon.brief.faults import Faults, nearest
from galloon.brief.lines import KeyPath
from galloon.design import CATCHING, Finish, Finishes, FinishKind, usual_side
from galloon.errors import BadValue
from galloon.materials import Cloth, Elastic, Kind, usual_elastic, usual_kinds
from galloon.said import Term, said
from galloon.units import parse_length

if TYPE_CHECKING:
    from galloon.brief.schema import FinishTable

#: What finishes an edge where the brief does not say.
USUAL: Final = "picot elastic 8 mm"
ZONES: Final = ("waist", "front_leg", "back_leg", "gusset_leg")
#: First words that say what a finish is; no elastic of the maker's own may begin with them.
TAKEN_WORDS: Final = re.compile(r"(lace trim|scallop|hem|binding)\b", re.IGNORECASE)
_START: Final = re.compile(r"(lace trim|scallop|hem|binding|fold-over|strap)\b\s*(.*)", re.IGNORECASE)
_FORMS: Final = {"fold-over": FinishKind.FOLD_OVER, "strap": FinishKind.STRAP}
_MM_AT_END: Final = re.compile(r"\s*\d+(?:[.,]\d+)?\s*mm$")


@dataclass(frozen=True)
class Stock:
    """What a finish can be made of: her own elastics, the cloths, and the brief's unit."""

    elastics: Mapping[str, Elastic | None]
    cloths: Mapping[str, Cloth | None]
    units: str

    def elastic(self, name: str) -> Elastic | None:
        """Her own elastic of that name, else the usual one; None where hers is faulty or there is none."""
        return self.elastics[name] if name in self.elastics else usual_elastic(name)

    def knows(self, name: str) -> bool:
        """Whether there is an elastic of that name, sound or not."""
        return name in self.elastics or usual_elastic(name) is not None


def build_finishes(
    table: FinishTable | None, scalloped: Sequence[str], stock: Stock, faults: Faults, *, open_side: bool = False
) -> Finishes:
    """All finishes, that of an open side only where there is one. ``scalloped`` names the panels whose leg edge is a
    scallop unless said otherwise.
    """
    usual = stock.elastic(USUAL) or usual_elastic(USUAL)
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
    side = _side(getattr(table, "side", None), stock, faults)
    if open_side and side is None:
        side = usual_side(finishes["front_leg"], finishes["waist"])
    return Finishes(**finishes, side=side)


def _side(written: str | None, stock: Stock, faults: Faults) -> Finish | None:
    """The finish of an open side's edges; None, with a fault, where it cannot catch straps."""
    path: KeyPath = ("finish", "side")
    made = read_finish(written, path, stock, faults) if written is not None else None
    if made is not None and made.kind not in CATCHING:
        faults.refuse(path, said("must be an elastic, fold-over, hem or binding: it catches the ends of the straps"))
        return None
    return made


def read_finish(written: str, path: KeyPath, stock: Stock, faults: Faults) -> Finish | None:
    """One finish; None, with a fault, where it cannot be read."""
    words = written.strip()
    if words in stock.elastics:
        return _of_elastic(stock.elastics[words])
    start = _START.match(words)
    head, rest = (start[1].lower(), start[2]) if start else ("", words)
    if head in ("hem", "binding"):
        return _wide_finish(FinishKind(head), rest, path, stock, faults)
    if head == "lace trim":
        return _trim(rest, path, stock, faults)
    if head == "scallop":
        return _scallop(rest, path, stock, faults)
    if head and stock.knows(rest):
        return _of_elastic(stock.elastic(rest), _FORMS[head])
    if not stock.knows(words):
        _refuse_elastic(words, path, stock, faults)
    return _of_elastic(stock.elastic(words))


def _of_elastic(elastic: Elastic | None, kind: FinishKind | None = None) -> Finish | None:
    """The finish an elastic makes: ``kind``, else what its form is for."""
    if elastic is None:
        return None
    return Finish(kind or _FORMS.get(elastic.form, FinishKind.ELASTIC), elastic)


def _wide_finish(kind: FinishKind, wide: str, path: KeyPath, stock: Stock, faults: Faults) -> Finish | None:
    with faults.at(path):
        if not wide:
            return Finish(kind)
        value = parse_length(wide, stock.units, "")
        if not 2.0 <= value <= 50.0:
            raise BadValue("", said("has a {kind} that must be 2 to 50 mm wide", kind=Term(kind.value)), wide)
        return Finish(kind, wide=value)
    return None


def _trim(name: str, path: KeyPath, stock: Stock, faults: Faults) -> Finish | None:
    if name not in stock.cloths:
        known = [name for name, cloth in stock.cloths.items() if cloth is None or cloth.kind is Kind.LACE]
        faults.refuse(
            path, said("must name a lace of the brief after lace trim"), hint=nearest(name, known) or _among(known)
        )
        return None
    trim = stock.cloths[name]
    if trim is not None and trim.kind is not Kind.LACE:
        faults.refuse(path, said("must name a lace; a trim cannot be cut from another cloth"))
        return None
    return None if trim is None else Finish(FinishKind.LACE_TRIM, trim=trim)


def _scallop(rest: str, path: KeyPath, stock: Stock, faults: Faults) -> Finish | None:
    if not rest:
        return Finish(FinishKind.SCALLOP)
    name = rest.removeprefix("with ")
    if name == rest or not stock.knows(name):
        _refuse_elastic(name, path, stock, faults)
        return None
    return _of_elastic(stock.elastic(name), FinishKind.SCALLOP)


def _refuse_elastic(words: str, path: KeyPath, stock: Stock, faults: Faults) -> None:
    bare = _MM_AT_END.sub("", words.lower())
    kind = usual_kinds().get(bare)
    if kind is not None:
        least, most = kind.widths
        faults.refuse(
            path,
            said(
                "names a {kind}, which comes {least:g} to {most:g} mm wide, as in {kind} 8 mm",
                kind=bare,
                least=least,
                most=most,
            ),
        )
        return
    known = [*stock.elastics, *usual_kinds(), "scallop", "hem", "binding", "lace trim", "fold-over", "strap"]
    rule = said("must name an elastic, or be scallop, lace trim NAME, fold-over NAME, strap NAME, hem or binding")
    faults.refuse(path, rule, hint=nearest(words, known) or nearest(bare, known) or _among(known))


def _among(known: list[str]) -> str:
    return f"Known: {', '.join(known)}." if known else "The brief has none."
