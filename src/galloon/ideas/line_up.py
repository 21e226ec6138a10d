"""The ideas as ``ideas.pdf``: front and back drawings with their figures, then what was left out and why."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from galloon.design import Design
from galloon.drawing import Paper
from galloon.export import to_pdf
from galloon.ideas import words
from galloon.ideas.find import BEST, Idea, Ideas
from galloon.ideas.scores import MEANING, WEIGHTS
from galloon.sheets import Card, LineUp, line_up_drawing
from galloon.units import format_length


def line_up_pdf(ideas: Ideas, base: Design, weights: Mapping[str, float], paper: Paper) -> bytes:
    """The line-up of the best ideas as PDF; the same ideas give the same bytes."""
    return to_pdf(line_up_drawing(line_up_of(ideas, base, weights), paper))


def line_up_of(ideas: Ideas, base: Design, weights: Mapping[str, float]) -> LineUp:
    """What stands on the sheets: a card for each of the best ideas, the weights, what was left out."""
    cards = [card for number, idea in enumerate(ideas.found[:BEST], 1) if (card := _card(number, idea)) is not None]
    return LineUp(
        "What could be made",
        _whose(base),
        _counts(ideas, len(cards)),
        tuple(cards),
        tuple((name, MEANING[name], f"{weights[name]:g}") for name in WEIGHTS),
        ideas.dropped,
    )


def _card(number: int, idea: Idea) -> Card | None:
    if idea.made is None:
        return None
    lines = (
        words.cloths_of(idea.design) + (f"; {idea.sketch.seams}" if idea.sketch.seams != "side seams" else ""),
        words.cover_of(idea),
        _joined((words.needs_of(idea), words.buy_of(idea))),
        _joined((words.cost_of(idea), words.work_of(idea))),
        words.leftovers_of(idea),
        words.mind_of(idea),
        words.also_of(idea),
    )
    title = f"{words.shape_of(idea)}, {words.use_of(idea)}"
    return Card(
        number, title, round(100.0 * idea.score), idea.made.garment, tuple(filter(None, lines)), tuple(_bars(idea))
    )


def _bars(idea: Idea) -> Sequence[tuple[str, float]]:
    return [(name, idea.scores[name]) for name in WEIGHTS]


def _joined(parts: Sequence[str]) -> str:
    return "; ".join(filter(None, parts))


def _whose(base: Design) -> str:
    unit, wearer = base.units, base.wearer
    name = f"{wearer.name}: " if wearer.name else ""
    cloths = ", ".join(
        f"{cloth.name} {'length not known' if cloth.on_hand is None else format_length(cloth.on_hand, unit)}"
        for cloth in base.cloths.values()
    )
    return f"{name}waist {format_length(wearer.waist, unit)}, hip {format_length(wearer.hip, unit)}. On hand: {cloths}."


def _counts(ideas: Ideas, shown: int) -> str:
    these = "This is the one" if shown == 1 else f"These are the {shown}"
    return (
        f"{words.counts_of(ideas)} {these} that came out best, drawn from their own pieces, all to one scale. "
        "To make one: galloon ideas ... --brief NUMBER FILE, then galloon make FILE."
    )
