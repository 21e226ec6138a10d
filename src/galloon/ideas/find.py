"""The ideas of a stock: every design reckoned with a length bound, then true cutting plans for the best."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from typing import Final

from galloon.design import Coverage, Design, Drops, Finishes, Panels, Style
from galloon.errors import CannotMake, GalloonError
from galloon.ideas.figures import Figures, back_area, failing, figures_of
from galloon.ideas.leftovers import FromLeftover, Leftover, at_most, fitted
from galloon.ideas.look import Look, look_of
from galloon.ideas.order import Group, Ranked, folded, spread_out
from galloon.ideas.pool import Spread, cores
from galloon.ideas.scores import WEIGHTS, scores, total
from galloon.ideas.sketch import Sketch, sketches
from galloon.ideas.stock import Stock
from galloon.report import Made
from galloon.workflow import Judged, bounds_of, make_garment, reckon_bounds, reckon_design

#: Ideas that are given true cutting plans.
BEST: Final = 20
#: Designs looked at unless the maker asks for more.
MOST: Final = 20_000
_NOT_ENOUGH: Final = "enough on hand"


@dataclass(frozen=True)
class Wish:
    """How to look: ``weights`` of the scores, the ``coverage`` wanted (None: as the design asks), whether to ``buy``
    cloth beyond what is on hand, how many designs to look at at the ``most``, on how many ``processes`` (0: all cores).
    """

    weights: Mapping[str, float] = field(default_factory=lambda: dict(WEIGHTS))
    coverage: Coverage | None = None
    buy: bool = False
    most: int = MOST
    processes: int = 0


@dataclass(frozen=True)
class Progress:
    """How far it has come: what is being done, how many of how many are done."""

    step: str
    done: int
    count: int


@dataclass(frozen=True)
class Idea:
    """One idea in the list. ``made`` is the whole job as ``make`` reckons it, None beyond the best.

    ``variants`` are other designs that look much like it; ``fitted`` tells which pieces leftovers can give.
    """

    sketch: Sketch
    figures: Figures
    scores: Mapping[str, float]
    score: float
    made: Made | None
    variants: tuple[Sketch, ...]
    fitted: tuple[FromLeftover, ...] = ()

    @property
    def design(self) -> Design:
        """Its design."""
        return self.sketch.design


@dataclass(frozen=True)
class Ideas:
    """All that was found, best first.

    ``dropped`` counts impossible designs by reason, with what the engine said of the first such; ``reckoned`` designs
    were looked at of ``count`` that the tables give; ``whole`` is False where it was cancelled.
    """

    found: tuple[Idea, ...]
    dropped: tuple[tuple[str, int, str], ...]
    barred: int
    reckoned: int
    count: int
    makeable: int
    whole: bool


@dataclass(frozen=True)
class _Task:
    """A sketch with what its figures are measured against."""

    sketch: Sketch
    whole_back: float
    buy: bool
    leftovers: tuple[Leftover, ...] = ()


@dataclass(frozen=True)
class _Outcome:
    """A design that can be made has figures and a look; else the reason is given, and what was said of it."""

    figures: Figures | None = None
    look: Look | None = None
    reason: str = ""
    says: str = ""
    made: Made | None = None
    fitted: tuple[FromLeftover, ...] = ()


def find_ideas(
    stock: Stock,
    wish: Wish,
    *,
    progress: Callable[[Progress], None] = lambda _: None,
    cancelled: Callable[[], bool] = lambda: False,
) -> Ideas:
    """Every design of the stock that can be made, ranked; the same stock and wish give the same answer.

    ``progress`` is called as the work goes on. Once ``cancelled`` says so, what has been found by then is ranked.
    Raises CannotMake where no cloth of the stock makes any garment for this wearer.
    """
    whole = _whole_back(stock)
    listed = sketches(stock, wish.most)
    tasks = [_Task(sketch, whole, wish.buy, stock.leftovers) for sketch in listed.kept]
    search = _Search(stock, wish, progress, cancelled)
    first = search.run(reckoned_first, tasks, "Reckoning designs", chunk=24)
    known = dict(first)
    shown = search.plan_best(tasks, known)
    found = tuple(_idea(group, tasks, known, search.named[group.leader.place]) for group in shown)
    return Ideas(
        found,
        _dropped(known),
        sum(listed.barred.values()),
        len(known),
        listed.count,
        sum(one.figures is not None for one in known.values()),
        len(known) == len(tasks) and not cancelled(),
    )


def _whole_back(stock: Stock) -> float:
    """Area (mm²) on the body of the back of a full brief to the waist."""
    style = Style(waist_drop=Drops.level(0.0))
    finishes = Finishes(stock.waist, stock.leg, stock.leg, stock.leg, stock.base.finishes.side)
    why: CannotMake | None = None
    for cloth in (*stock.cloths, *stock.laces):
        panels = Panels(cloth.name, cloth.name, cloth.name)
        plain = replace(stock.base, panels=panels, style=style, finishes=finishes, lace=(), motifs=())
        try:
            return back_area(reckon_bounds(plain).garment)
        except CannotMake as error:
            why = why or error
    raise why or CannotMake("ideas", "need at least one cloth or lace", hint="Add a [cloth.NAME] to the brief.")


def reckoned_first(task: _Task) -> _Outcome:
    """The first pass on one design."""
    try:
        garment = make_garment(task.sketch.design)
        # What the drafting found comes first among the findings of ``make`` too, so the reason given is the same.
        fault = failing(garment.notes, {})
        if fault is not None:
            return _Outcome(reason=fault.name, says=fault.says)
        judged = bounds_of(garment)
        fault = failing(judged.findings, {_NOT_ENOUGH: task.buy})
        if fault is not None:
            return _Outcome(reason=fault.name, says=fault.says)
        figures = figures_of(judged, task.whole_back, planned=False, leftovers=at_most(garment, task.leftovers))
        return _Outcome(figures, look_of(judged.garment))
    except GalloonError as error:
        return _refused(error)


def planned(task: _Task) -> _Outcome:
    """The second pass: the whole job, as ``make`` does it."""
    try:
        made = reckon_design(task.sketch.design)
        fault = failing(made.findings, {_NOT_ENOUGH: task.buy})
        if fault is not None:
            return _Outcome(reason=fault.name, says=fault.says)
        lengths = {row.cloth: row.plan.length for row in made.cutting}
        judged = Judged(made.garment, lengths, made.findings, tuple(made.elastic), tuple(made.shopping))
        found = fitted(made.garment, task.leftovers)
        areas = {one.cloth: sum(each.area for each in found if each.cloth == one.cloth) for one in found}
        figures = figures_of(judged, task.whole_back, planned=True, steps=made.sewing, leftovers=areas)
        return _Outcome(figures, look_of(made.garment), made=made, fitted=found)
    except GalloonError as error:
        return _refused(error)


def _refused(error: GalloonError) -> _Outcome:
    return _Outcome(reason="cannot be drawn" if isinstance(error, CannotMake) else "no sound outline", says=str(error))


class _Search:
    """The two passes with what they share; ``named`` holds the scores of each idea by its place."""

    def __init__(
        self, stock: Stock, wish: Wish, progress: Callable[[Progress], None], cancelled: Callable[[], bool]
    ) -> None:
        self.wish, self.progress, self.cancelled = wish, progress, cancelled
        self.wanted = wish.coverage or stock.base.style.coverage
        self.named: dict[int, dict[str, float]] = {}
        self.dearest = 0.0

    def run(
        self, work: Callable[[_Task], _Outcome], tasks: list[_Task], step: str, *, chunk: int
    ) -> dict[int, _Outcome]:
        """The work on all tasks, over the cores."""
        self.progress(Progress(step, 0, len(tasks)))
        spread = Spread(
            work,
            tasks,
            told=lambda done: self.progress(Progress(step, done, len(tasks))),
            cancelled=self.cancelled,
        )
        return spread.run(processes=self.wish.processes or cores(), chunk=chunk)

    def plan_best(self, tasks: list[_Task], known: dict[int, _Outcome]) -> list[Group]:
        """The groups in order, the best ones with true plans: planned and ranked anew until all the best have one.

        A bound is never longer than the plan, so a plan can only lower an idea; one that fails by it gives way to the
        next of its group.
        """
        costs = [one.figures.cost or 0.0 for one in known.values() if one.figures is not None]
        self.dearest = max(costs, default=0.0)
        groups = folded([self.ranked(place, tasks, known) for place in sorted(known) if known[place].figures])
        while True:
            groups = spread_out(groups, 2 * BEST)
            due = [group.leader.place for group in groups[:BEST] if known[group.leader.place].made is None]
            if not due or self.cancelled():
                return groups
            answers = self.run(planned, [tasks[place] for place in due], "Planning the cutting of the best", chunk=2)
            known.update({due[at]: answer for at, answer in answers.items()})
            groups = [after for group in groups if (after := self.after(group, tasks, known)) is not None]

    def after(self, group: Group, tasks: list[_Task], known: dict[int, _Outcome]) -> Group | None:
        """The group with its leader ranked anew, or the next one where that fell out; None where none is left."""
        left = [one for one in (group.leader, *group.variants) if known[one.place].figures is not None]
        return Group(self.ranked(left[0].place, tasks, known), tuple(left[1:])) if left else None

    def ranked(self, place: int, tasks: list[_Task], known: Mapping[int, _Outcome]) -> Ranked:
        """One idea with its scores as they stand."""
        figures, look, sketch = known[place].figures, known[place].look, tasks[place].sketch
        assert figures is not None
        assert look is not None
        self.named[place] = scores(figures, look, self.wanted, self.dearest)
        use = f"{sketch.recipe}: {', '.join(use.cloth for use in sketch.design.lace)}"
        return Ranked(place, use, look, total(self.named[place], self.wish.weights))


def _idea(group: Group, tasks: list[_Task], known: Mapping[int, _Outcome], named: Mapping[str, float]) -> Idea:
    outcome = known[group.leader.place]
    assert outcome.figures is not None
    variants = tuple(tasks[one.place].sketch for one in group.variants)
    sketch = tasks[group.leader.place].sketch
    return Idea(sketch, outcome.figures, named, group.leader.score, outcome.made, variants, outcome.fitted)


def _dropped(known: Mapping[int, _Outcome]) -> tuple[tuple[str, int, str], ...]:
    """Reasons with their counts, most frequent first, each with what was said the first time."""
    counts = Counter(one.reason for one in known.values() if one.reason)
    says: dict[str, str] = {}
    for place in sorted(known):
        says.setdefault(known[place].reason, known[place].says)
    return tuple((reason, count, says[reason]) for reason, count in sorted(counts.items(), key=lambda x: (-x[1], x[0])))
