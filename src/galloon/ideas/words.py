"""An idea in plain words, the same on the terminal, on paper and on the page."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from galloon.cutting import shop_text
from galloon.design import Design
from galloon.ideas.find import Idea, Ideas
from galloon.ideas.sketch import Sketch
from galloon.said import Said, Term, in_a_row, said
from galloon.units import format_length

#: Marks from which a garment is called easy or hard.
_EASY: Final = 0.8
_HARD: Final = 0.55
_MOST_NAMED: Final = 3


def shape_of(idea: Idea) -> Said:
    """The shape, with a capital."""
    return Said("{shape:C}", {"shape": _plain_shape(idea.sketch)})


def _plain_shape(sketch: Sketch) -> Term:
    return Term(sketch.shape.removeprefix("your "))


def use_of(idea: Idea) -> Said:
    """How which lace is used: "V inset on the back: heron"."""
    laces = list(dict.fromkeys(use.cloth for use in idea.design.lace))
    recipe = Term(idea.sketch.recipe)
    return in_a_row(": ", [recipe, in_a_row(", ", laces)] if laces else [recipe])


def cloths_of(design: Design) -> Said:
    """Which cloth goes where, in a few words."""
    panels = design.panels
    parts = [in_a_row("", [panels.front]) if panels.front == panels.back else said("front {cloth}", cloth=panels.front)]
    if panels.front != panels.back:
        parts.append(said("back {cloth}", cloth=panels.back))
    if panels.gusset not in (panels.front, panels.back):
        parts.append(said("gusset {cloth}", cloth=panels.gusset))
    if panels.front_lining:
        parts.append(said("front lined with {cloth}", cloth=panels.front_lining))
    return in_a_row(", ", parts)


def needs_of(idea: Idea) -> Said:
    """What is needed of each cloth; "at least" where only a bound is known."""
    unit = idea.design.units
    told = in_a_row(", ", [in_a_row(" ", [name, format_length(length, unit)]) for name, length in idea.figures.needs])
    return told if idea.figures.planned else said("at least {lengths}", lengths=told)


def buy_of(idea: Idea) -> Said:
    """What has to be bought."""
    if idea.figures.buy <= 0.0:
        return said("nothing to buy")
    return said("buy {length} of cloth", length=shop_text(idea.figures.buy, idea.design.units))


def cost_of(idea: Idea) -> str:
    """What the cloth that goes in is worth; "" where no price is known."""
    return "" if idea.figures.cost is None else f"cloth worth {idea.figures.cost:.2f}"


def work_of(idea: Idea) -> str:
    """How hard it is to make."""
    ease = idea.scores["difficulty"]
    word = "easy" if ease >= _EASY else "hard" if ease < _HARD else "middling"
    return f"{word}: {idea.figures.pieces} pieces, {idea.figures.steps} steps"


def cover_of(idea: Idea) -> str:
    """How much it covers and where its waist lies."""
    unit, figures = idea.design.units, idea.figures
    front, side, back = figures.drop
    drop: str = format_length(side, unit)
    if max(front, side, back) - min(front, side, back) > 1.0:
        drop = f"{format_length(front, unit)} in front, {drop} at the side, {format_length(back, unit)} behind"
    waist = f"waist lowered by {drop}" if max(front, side, back) > 0.5 else "up to the waist"
    return f"back covers {figures.back:.0%} of a full brief's, {waist}"


def leftovers_of(idea: Idea) -> str:
    """Which pieces leftovers can give; "" where none can."""
    return "; ".join(f"from the leftover {one.leftover}: {', '.join(one.pieces)}" for one in idea.fitted)


def mind_of(idea: Idea) -> str:
    """What the checks warn of, by name; "" where they do not."""
    return _listed("mind", idea.figures.warnings)


def also_of(idea: Idea) -> str:
    """Other shapes and seams that look much like it; "" where there is none."""
    own = _plain_shape(idea.sketch)
    shapes = [shape for one in idea.variants if (shape := _plain_shape(one)) != own]
    seams = [one.seams for one in idea.variants if one.seams != idea.sketch.seams]
    return _listed("much the same", [*shapes, *seams])


def _listed(what: str, words: Iterable[str]) -> str:
    names = list(dict.fromkeys(words))
    more = f" and {len(names) - _MOST_NAMED} more" if len(names) > _MOST_NAMED else ""
    return f"{what}: {', '.join(names[:_MOST_NAMED])}{more}" if names else ""


def counts_of(ideas: Ideas) -> str:
    """How many designs were looked at, and how many can be made."""
    if not ideas.count:
        return "The cloth gives no design to look at."
    told = f"{ideas.reckoned} designs were drafted and checked; {ideas.makeable} can be made."
    if ideas.count > ideas.reckoned:
        why = "stopped before the end" if not ideas.whole else "--most says how many to look at"
        told += f" There are {ideas.count - ideas.reckoned} more ({why})."
    return told
