"""What ideas are made from: one wearer, the cloths and laces at hand, her elastics, and what she asks of the style."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from galloon.checks import shows_through
from galloon.design import Design, Finish, FinishKind
from galloon.ideas.leftovers import Leftover
from galloon.materials import Cloth, Edges, Kind, usual_elastic

#: Elastics where the brief names none.
_WAIST = "picot elastic 10 mm"
_LEG = "picot elastic 8 mm"
#: A cloth that lets more than this through is not taken for a gusset of its own accord.
_OPAQUE = 0.35


@dataclass(frozen=True)
class Stock:
    """``base`` is a whole design, of which the wearer, cloths, block, allowances and motifs are kept.

    ``laces`` have edges to work with; ``cloths`` are all others, lace without edges among them. ``linings`` lie
    against the skin, the best first. ``asked`` is False where the style of ``base`` is only a stand-in. ``leftovers``
    are odd pieces of the cloths, beside their length on hand.
    """

    base: Design
    laces: tuple[Cloth, ...]
    cloths: tuple[Cloth, ...]
    linings: tuple[Cloth, ...]
    waist: Finish
    leg: Finish
    asked: bool = True
    leftovers: tuple[Leftover, ...] = ()


def stock_of(base: Design, *, asked: bool = True, leftovers: tuple[Leftover, ...] = ()) -> Stock:
    """The stock that a design draws on."""
    cloths = base.cloths.values()
    plain = tuple(cloth for cloth in cloths if cloth.lace is None or cloth.lace.edges is Edges.NONE)
    return Stock(
        base,
        tuple(cloth for cloth in cloths if cloth not in plain),
        plain,
        _linings(base, plain),
        _elastic((base.finishes.waist,), _WAIST),
        _elastic((base.finishes.front_leg, base.finishes.back_leg, base.finishes.gusset_leg), _LEG),
        asked,
        leftovers,
    )


def _elastic(finishes: Iterable[Finish], usual: str) -> Finish:
    """The first of the finishes that any edge of any cloth can have, else the usual elastic."""
    plain = (FinishKind.ELASTIC, FinishKind.FOLD_OVER, FinishKind.HEM, FinishKind.BINDING)
    found = [finish for finish in finishes if finish.kind in plain]
    return found[0] if found else Finish(FinishKind.ELASTIC, usual_elastic(usual))


def _linings(base: Design, plain: tuple[Cloth, ...]) -> tuple[Cloth, ...]:
    """Stretch cloths that hide, cotton first, then the densest; the one that the brief lines its gusset with leads."""
    soft = [cloth for cloth in plain if not cloth.rigid and cloth.kind is not Kind.LACE]
    soft.sort(key=lambda cloth: (cloth.name != base.panels.gusset_lining, "cotton" not in cloth.fibre.lower()))
    soft.sort(key=lambda cloth: (cloth.name != base.panels.gusset_lining, shows_through(cloth) > _OPAQUE))
    return tuple(soft)


def gussets(stock: Stock, front: Cloth, back: Cloth) -> tuple[Cloth, ...]:
    """Cloths the gusset may be cut from: the one asked for, that of the front or the back, else the best lining."""
    named = stock.base.cloths[stock.base.panels.gusset]
    fit = [cloth for cloth in ((named,) if stock.asked else ()) if _carries(cloth, stock)]
    fit += [cloth for cloth in (front, back) if _carries(cloth, stock)]
    return tuple(dict.fromkeys(cloth for cloth in (fit or stock.linings[:1] or [front])))


def _carries(cloth: Cloth, stock: Stock) -> bool:
    return cloth in stock.cloths and not cloth.rigid and cloth.kind is not Kind.LACE
