"""Every design that the tables give for a stock, as values, before any is drafted."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from itertools import product

from galloon.checks import shows_through
from galloon.design import Design, Finish, Finishes, FinishKind, Panels, Style
from galloon.errors import BadValue
from galloon.findings import Status
from galloon.ideas.recipes import RECIPES, Recipe, filled, suits
from galloon.ideas.seams import SEAM_WAYS, ShapeWay, shapes, styles
from galloon.ideas.stock import Stock, gussets
from galloon.lace import straight_legs, workable
from galloon.materials import Cloth
from galloon.said import Said, Term, listed, said
from galloon.styling import seam_plan

#: What a front may let through before a lined one is tried as well.
_SEE_THROUGH = 0.35
_SCALLOP = Finish(FinishKind.SCALLOP)


@dataclass(frozen=True)
class Sketch:
    """One design to reckon. ``plainness`` counts the choices that depart from the usual ones: 0 is the plainest."""

    design: Design
    recipe: str
    shape: str
    seams: str
    plainness: int


@dataclass(frozen=True)
class Sketches:
    """The designs in the order they are reckoned, how many there are in all, and what never came to be one.

    ``barred`` counts, by reason, what the rules of seams and laces rule out before anything is drafted.
    """

    kept: tuple[Sketch, ...]
    count: int
    barred: Mapping[str, int]


def sketches(stock: Stock, most: int) -> Sketches:
    """All designs of the stock, at most ``most``: then those with the fewest departures from the usual."""
    barred: Counter[str] = Counter()
    found = {_key(sketch.design): sketch for sketch in _all(stock, barred)}
    kept = sorted(found.values(), key=lambda sketch: sketch.plainness)[:most]
    return Sketches(tuple(kept), len(found), barred)


def _key(design: Design) -> tuple[object, ...]:
    """What sets two designs of one stock apart; a design itself holds tables and cannot be told apart by them."""
    return design.lace, design.panels, design.style, bool(design.motifs)


@dataclass(frozen=True)
class _Cut:
    """A recipe with its laces, and the cloth of each panel."""

    recipe: Recipe
    laces: dict[str, Cloth]
    panels: Panels
    plainness: int


def _all(stock: Stock, barred: Counter[str]) -> Iterator[Sketch]:
    for cut in _cuts(stock):
        for shape, (order, seams) in product(shapes(stock), enumerate(SEAM_WAYS)):
            for style in styles(shape, seams, cut.recipe.uses, _centres(cut.recipe)):
                try:
                    design = _design(stock, cut, shape, style)
                except BadValue:
                    barred["figures that no design can have"] += 1
                    continue
                if reason := _clash(design):
                    barred[reason] += 1
                    continue
                yield Sketch(design, cut.recipe.name, shape.name, seams.name, cut.plainness + bool(order))


def _centres(recipe: Recipe) -> frozenset[str]:
    """Panels that need a centre seam: a back cut along both legs, and the seam that lace is let in over."""
    return frozenset({"back"} & set(recipe.bare) | {recipe.seam} - {""})


def _cuts(stock: Stock) -> Iterator[_Cut]:
    for recipe in RECIPES:
        for chosen in product(stock.laces, repeat=len(recipe.slots)):
            laces = dict(zip(recipe.slots, chosen, strict=True))
            if suits(recipe, laces, stock.base):
                yield from _panels(stock, recipe, laces)


def _panels(stock: Stock, recipe: Recipe, laces: dict[str, Cloth]) -> Iterator[_Cut]:
    of_lace = {panel: laces[slot] for panel, slot in recipe.cut}
    fronts = [of_lace["front"]] if "front" in of_lace else stock.cloths
    backs = [of_lace["back"]] if "back" in of_lace else stock.cloths
    for front, back in product(fronts, backs):
        mixed = front is not back and front in stock.cloths and back in stock.cloths
        for order, gusset in enumerate(gussets(stock, front, back)):
            for lined, lining in enumerate(_front_linings(stock, front)):
                panels = Panels(front.name, back.name, gusset.name, _gusset_lining(stock, gusset), lining)
                yield _Cut(recipe, laces, panels, int(mixed) + bool(order) + lined)


def _gusset_lining(stock: Stock, gusset: Cloth) -> str:
    return stock.linings[0].name if stock.linings else gusset.name


def _front_linings(stock: Stock, front: Cloth) -> tuple[str, ...]:
    """No lining, and the best one where the front lets much through."""
    if not stock.linings or shows_through(front) <= _SEE_THROUGH or front is stock.linings[0]:
        return ("",)
    return ("", stock.linings[0].name)


def _design(stock: Stock, cut: _Cut, shape: ShapeWay, style: Style) -> Design:
    base = stock.base
    drop = shape.style.waist_drop.front if shape.style.waist_drop else 0.0
    uses = tuple(filled(use, cut.laces[use.cloth], base, drop) for use in cut.recipe.uses)
    motifs = any(use.use.value == "applique" for use in uses)
    return replace(
        base,
        title=_title(cut, shape),
        panels=cut.panels,
        style=style,
        finishes=_finishes(stock, cut.recipe),
        lace=uses,
        motifs=base.motifs if motifs else (),
    )


def _title(cut: _Cut, shape: ShapeWay) -> Said:
    told = {"shape": Term(shape.name.removeprefix("your ")), "recipe": Term(cut.recipe.name)}
    if not cut.laces:
        return said("{shape:C}, {recipe}", **told)
    laces = listed(list(dict.fromkeys(cloth.name for cloth in cut.laces.values())))
    return said("{shape:C}, {recipe} ({laces})", laces=laces, **told)


def _finishes(stock: Stock, recipe: Recipe) -> Finishes:
    """Bare scallops where the lace makes the leg, elastic elsewhere; the gusset goes as the front does, if it can.
    Sides that are open stay open.
    """
    front, back = (_SCALLOP if panel in recipe.bare else stock.leg for panel in ("front", "back"))
    return Finishes(stock.waist, front, back, stock.leg, stock.base.finishes.side)


def _clash(design: Design) -> str:
    """What rules the design out before it is drafted: the engine's own findings that fail it, or say that the back of
    its shape was given up; "" where nothing does.
    """
    uses, found = workable(design.lace, open_side=design.open_side is not None)
    if not any(finding.status is Status.FAIL for finding in found):
        found = seam_plan(design, straight_legs(uses))[1]
    lost = f"{design.style.shape.value} back"
    return next((one.name for one in found if one.status is Status.FAIL or one.name == lost), "")
