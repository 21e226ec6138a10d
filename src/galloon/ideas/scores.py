"""Named scores from 0 to 1, and how the maker weighs them."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final

from galloon import defaults
from galloon.design import Coverage
from galloon.errors import BadInput, Fault, show
from galloon.ideas.figures import Figures
from galloon.ideas.look import Look

#: The scores by name, with the weight each has unless the maker says otherwise.
WEIGHTS: Final[Mapping[str, float]] = MappingProxyType(
    {"coverage": 2.0, "leftovers": 1.0, "length": 1.0, "cost": 1.0, "comfort": 1.0, "difficulty": 1.0, "lace": 1.0}
)
#: What each score rewards, in a few words.
MEANING: Final[Mapping[str, str]] = MappingProxyType(
    {
        "coverage": "the back covers as much as is wanted",
        "leftovers": "it is cut from pieces on hand too short for much else",
        "length": "little or nothing has to be bought",
        "cost": "the cloth that goes in is worth little",
        "comfort": "no panel is pulled hard, no check warns of comfort",
        "difficulty": "few pieces and few steps",
        "lace": "the lace is seen",
    }
)
_WANTED: Final = {
    Coverage.FULL: defaults.WANTED_FULL,
    Coverage.MEDIUM: defaults.WANTED_MEDIUM,
    Coverage.LOW: defaults.WANTED_LOW,
}
#: Buying this much (mm) halves the score of length.
_HALF_AT: Final = 500.0
#: Steps and pieces of the simplest garment, and how many more make the hardest.
_EASIEST: Final = 12.0
_HARDEST: Final = 20.0
#: What one warning about comfort takes off, and what a panel pulled to its usual limit does.
_WARNING: Final = 0.15
_PULL: Final = 0.4
#: Share of lace that counts as all lace, and what lace at the edges alone counts.
_ALL_LACE: Final = 0.4
_EDGES_ONLY: Final = 0.5
_MOST_WEIGHT: Final = 100.0


def scores(figures: Figures, look: Look, wanted: Coverage, dearest: float) -> dict[str, float]:
    """Every score of one idea; ``dearest`` is the worth of the dearest idea among those compared."""
    return {
        "coverage": _covers(figures.back, wanted),
        "leftovers": min(1.0, figures.scraps),
        "length": _HALF_AT / (_HALF_AT + figures.buy),
        "cost": 0.5 if figures.cost is None else 1.0 - figures.cost / dearest if dearest > 0.0 else 1.0,
        "comfort": _within(1.0 - _PULL * min(1.0, figures.strain) - _WARNING * figures.harsh),
        "difficulty": _within(1.0 - (figures.steps + figures.pieces - _EASIEST) / _HARDEST),
        "lace": _within(max(look.lace / _ALL_LACE, _EDGES_ONLY if look.trims else 0.0)),
    }


def _covers(back: float, wanted: Coverage) -> float:
    """1 at the wanted share; more than wanted is no fault where full coverage is wanted."""
    aim = float(_WANTED[wanted])
    if wanted is Coverage.FULL and back > aim:
        return 1.0
    return _within(1.0 - abs(back - aim) / aim * 2.0)


def _within(value: float) -> float:
    return min(1.0, max(0.0, value))


def total(named: Mapping[str, float], weights: Mapping[str, float]) -> float:
    """The weighed mean of the scores."""
    return sum(weights[name] * named[name] for name in WEIGHTS) / sum(weights[name] for name in WEIGHTS)


def weights_of(given: Iterable[str]) -> dict[str, float]:
    """The weights with those of ``given`` ("coverage=2") in place of the usual. Raises BadInput with every fault."""
    found, faults = dict(WEIGHTS), []
    for one in given:
        name, sign, text = one.partition("=")
        name = name.strip().lower()
        try:
            value = float(text)
        except ValueError:
            value = math.nan
        if not sign or name not in WEIGHTS:
            hint = f"As in coverage=2. Known: {', '.join(WEIGHTS)}."
            faults.append(Fault("--weigh", None, show(name), show(one), "must name a score and its weight", hint))
        elif not 0.0 <= value <= _MOST_WEIGHT:
            rule = f"must be a number from 0 to {_MOST_WEIGHT:g}"
            faults.append(Fault("--weigh", None, name, show(text), rule, "0 leaves the score out."))
        else:
            found[name] = value
    if not faults and not any(found.values()):
        faults.append(Fault("--weigh", None, "all scores", "0", "must not all weigh nothing", "Leave one in."))
    if faults:
        raise BadInput(tuple(faults))
    return found
