"""Folds ideas that look alike and puts the rest in an order whose first ones differ."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
import numpy.typing as npt

from galloon.ideas.look import Look, trims_unlike, unlike

#: Ideas with the same lace uses whose looks differ by less than this share are one idea and its variants.
ALIKE: Final = 0.12
#: What another lace use adds to how unlike two ideas are, and what likeness to one already listed costs at most.
_USE: Final = 0.45
_LIKENESS: Final = 0.30

Floats = npt.NDArray[np.float64]


@dataclass(frozen=True)
class Ranked:
    """What the order needs of one idea: its place among all, its lace uses in words, its look and its score."""

    place: int
    use: str
    look: Look
    score: float


@dataclass(frozen=True)
class Group:
    """An idea and those folded into it, best first; all by their place."""

    leader: Ranked
    variants: tuple[Ranked, ...]


def folded(ideas: Sequence[Ranked]) -> list[Group]:
    """Groups, best leader first; equal scores keep the order of the places."""
    groups: list[Group] = []
    for use in dict.fromkeys(idea.use for idea in ideas):
        rest = sorted((idea for idea in ideas if idea.use == use), key=lambda idea: (-idea.score, idea.place))
        while rest:
            leader = rest[0]
            far = unlike(leader.look, _cells(rest))
            close = [
                one.look.trims == leader.look.trims and share < ALIKE for one, share in zip(rest, far, strict=True)
            ]
            close[0] = True
            groups.append(Group(leader, tuple(one for one, near in zip(rest, close, strict=True) if near)[1:]))
            rest = [one for one, near in zip(rest, close, strict=True) if not near]
    return sorted(groups, key=lambda group: (-group.leader.score, group.leader.place))


def spread_out(groups: Sequence[Group], count: int) -> list[Group]:
    """The groups in order: each next one has the best score less what its likeness to those before costs.

    This is maximal marginal relevance (Carbonell and Goldstein, SIGIR 1998). After ``count`` the rest follow by score.
    """
    if not groups:
        return []
    cells = _cells([group.leader for group in groups])
    score = np.array([group.leader.score for group in groups])
    nearest = np.zeros(len(groups))
    left, chosen = np.ones(len(groups), bool), []
    for _ in range(min(count, len(groups))):
        best = int(np.argmax(np.where(left, score - _LIKENESS * nearest, -np.inf)))
        left[best] = False
        chosen.append(groups[best])
        nearest = np.maximum(nearest, _likeness(groups[best].leader, groups, cells))
    return [*chosen, *(group for group, open_ in zip(groups, left, strict=True) if open_)]


def _likeness(one: Ranked, groups: Sequence[Group], cells: npt.NDArray[np.uint8]) -> Floats:
    apart = unlike(one.look, cells)
    apart += [
        (_USE if group.leader.use != one.use else 0.0) + trims_unlike(one.look, group.leader.look) for group in groups
    ]
    return np.asarray(1.0 - np.minimum(1.0, apart))


def _cells(ideas: Sequence[Ranked]) -> npt.NDArray[np.uint8]:
    return np.stack([idea.look.grid for idea in ideas])
