"""Plans for a strip of lace, one call each: the default, the longer search, and the plain reading order."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from galloon.cutting.model import ANOTHER_RUN, Plan, Progress
from galloon.cutting.outlines import box
from galloon.cutting.strip.bounds import length_bound
from galloon.cutting.strip.greedy import laid_in_order
from galloon.cutting.strip.layout import plan_of
from galloon.cutting.strip.longer import search_longer
from galloon.cutting.strip.model import Lace, LacePiece, StripRules
from galloon.cutting.strip.offsets import offsets_of
from galloon.cutting.strip.problem import HEIGHTS, Problem, problem_of
from galloon.cutting.strip.solve import Found, search_fixed
from galloon.said import Said, Term, in_a_row, said

_PLAIN = StripRules()


def plan_strip(lace: Lace, pieces: Sequence[LacePiece], rules: StripRules = _PLAIN) -> Plan:
    """The shortest strip found with a fixed amount of work: the same input always gives the same plan.

    Raises CannotMake when a piece fits nowhere, or the lace's symmetry gives no twin, or the areas cannot fit.
    """
    problem = problem_of(lace, tuple(pieces), rules)
    offsets = offsets_of(problem)
    found = search_fixed(problem, offsets)
    return plan_of(problem, offsets, found.layout, found.bound, _says(problem, found))


def plan_strip_longer(
    lace: Lace,
    pieces: Sequence[LacePiece],
    rules: StripRules = _PLAIN,
    *,
    seconds: float = 60.0,
    progress: Callable[[Progress], None] = lambda _: None,
    cancelled: Callable[[], bool] = lambda: False,
) -> Plan:
    """As ``plan_strip``, searching until the clock, a proof or ``cancelled`` ends it; not the same bytes every time."""
    problem = problem_of(lace, tuple(pieces), rules)
    offsets = offsets_of(problem)
    found = search_longer(problem, offsets, seconds=seconds, progress=progress, cancelled=cancelled)
    again = () if found.proven else (ANOTHER_RUN,)
    return plan_of(problem, offsets, found.layout, found.bound, in_a_row(" ", [_says(problem, found), *again]))


def plan_strip_plain(lace: Lace, pieces: Sequence[LacePiece], rules: StripRules = _PLAIN) -> Plan:
    """The plain reading order: pieces as given, one after another, none beside another."""
    problem = problem_of(lace, tuple(pieces), rules)
    offsets = offsets_of(problem)
    layout = laid_in_order(problem, offsets, range(len(problem.copies)), [0] * len(problem.pieces), interlock=False)
    order = said("The pieces lie in reading order, one after another.")
    return plan_of(problem, offsets, layout, 0.0, in_a_row(" ", [order, *_unmatched(problem)]))


def bound_strip(lace: Lace, pieces: Sequence[LacePiece], rules: StripRules = _PLAIN) -> float:
    """A length (mm) that no layout is shorter than, reckoned without searching. Raises CannotMake as ``plan_strip``."""
    return length_bound(problem_of(lace, tuple(pieces), rules))


def centred(lace: Lace, piece: LacePiece) -> LacePiece:
    """The piece moved so that its middle lies on a motif: exactly there when its phase is free, otherwise as near as

    the scallops it sits on allow.
    """
    left, _, right, _ = box(piece.outline)
    wanted = -(left + right) / 2
    if piece.on_edge and piece.anchor != "free":
        wanted = piece.phase + lace.pitch * round((wanted - piece.phase) / lace.pitch)
    return replace(piece, phase=wanted % lace.repeat, anchor="motif", matched=True)


def _tied(problem: Problem) -> Said:
    """For which places a proof holds."""
    if problem.span == 1:
        places = said("pieces exactly where the motif asks for them")
    elif abs(problem.unit - problem.lace.pitch) < 1e-9:
        places = said("pieces moved by whole scallops")
    else:
        places = said("places every {step:.4g} mm along the lace", step=problem.unit)
    loose = any(not (piece.on_edge or piece.matched) for piece in problem.pieces)
    if not loose:
        return places
    return said("{places} and {count} heights across it for those off the edges", places=places, count=HEIGHTS)


def _says(problem: Problem, found: Found) -> Said:
    tied = _tied(problem)
    proof = (
        said("This is proven for {places}: no layout of them is shorter.", places=tied)
        if found.proven
        else said("It is not proven that nothing shorter exists; it was searched for with {places}.", places=tied)
    )
    return in_a_row(" ", [proof, *_unmatched(problem)])


def _unmatched(problem: Problem) -> list[Said]:
    loose = [Term(piece.name) for piece in problem.pieces if not piece.matched]
    return [said("The motif may come out different on: {pieces}.", pieces=in_a_row(", ", loose))] if loose else []
