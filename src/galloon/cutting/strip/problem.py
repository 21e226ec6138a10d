"""The strip problem in whole numbers: every copy, the spots where it may lie, and the steps it moves in."""

from __future__ import annotations

import math
from dataclasses import dataclass

from galloon.cutting.limits import refuse_too_many, refuse_too_wide
from galloon.cutting.outlines import Ring, box, shifted
from galloon.cutting.strip.model import Lace, LacePiece, StripRules
from galloon.cutting.strip.places import Way, legal_ways
from galloon.errors import BadValue, CannotMake
from galloon.said import Term, said

#: Heights tried for a piece that may lie anywhere across the strip.
HEIGHTS = 7


@dataclass(frozen=True)
class Spot:
    """One way for a copy to lie at one height: ``outline`` at step 0 moves along by whole steps of the problem's unit.

    The step n must leave ``residues[option]`` when divided by ``modulus``, option being the phase chosen for the piece.
    ``shape`` numbers the different outlines of the problem.
    """

    way: Way
    shape: int
    modulus: int
    residues: tuple[int, ...]


@dataclass(frozen=True)
class Copy:
    """One copy to place: its piece's number, its own number from 1, and its spots."""

    piece: int
    number: int
    spots: tuple[Spot, ...]


@dataclass(frozen=True)
class Problem:
    """Everything the searches need. ``unit`` mm to a step; ``span`` steps to a repeat; ``options`` phases per piece."""

    lace: Lace
    pieces: tuple[LacePiece, ...]
    rules: StripRules
    unit: float
    span: int
    options: tuple[int, ...]
    copies: tuple[Copy, ...]
    shapes: tuple[Ring, ...]


def problem_of(lace: Lace, pieces: tuple[LacePiece, ...], rules: StripRules) -> Problem:
    """Checks the order against the lace and lays out every legal spot. Raises CannotMake with what would help."""
    _refuse_impossible(lace, pieces)
    span = _span(lace, pieces, rules)
    unit = lace.repeat / span
    shapes: dict[Ring, int] = {}
    copies: list[Copy] = []
    for index, piece in enumerate(pieces):
        twins = piece.copies // 2 if piece.mirrored else 0
        for number in range(1, piece.copies + 1):
            twin = number > piece.copies - twins
            copies.append(Copy(index, number, _spots(lace, piece, (span, rules.steps), twin, shapes)))
    options = tuple(len(_phases(lace, piece, rules.steps)) for piece in pieces)
    return Problem(lace, pieces, rules, unit, span, options, tuple(copies), tuple(shapes))


def _refuse_impossible(lace: Lace, pieces: tuple[LacePiece, ...]) -> None:
    if not pieces:
        raise BadValue("pieces to cut", "must be at least one", 0)
    for piece in pieces:
        refuse_too_wide(piece.name, piece.across, lace.width)
        _, low, _, high = box(piece.outline)
        if (piece.on_edge or piece.matched) and (low < -1e-6 or high > lace.width + 1e-6):
            raise CannotMake(
                said("piece {piece}", piece=Term(piece.name)),
                said(
                    "lies from {low:.1f} to {high:.1f} mm across, outside the lace's 0 to {width:.1f} mm",
                    low=low,
                    high=high,
                    width=lace.width,
                ),
                hint=said("Draw it with y counted from the lower edge's peak line."),
            )
    if lace.length is not None:
        every = [piece.outline for piece in pieces for _ in range(piece.copies)]
        refuse_too_many(every, lace.width * lace.length, said("cutting from the lace on hand"))


def _span(lace: Lace, pieces: tuple[LacePiece, ...], rules: StripRules) -> int:
    parts = {1}
    for piece in pieces:
        if piece.anchor == "free" or not (piece.matched or piece.on_edge):
            parts.add(rules.steps)
        if piece.anchor == "scallop" or not piece.matched:
            parts.add(round(lace.repeat / lace.pitch))
    return math.lcm(*parts)


def _phases(lace: Lace, piece: LacePiece, steps: int) -> tuple[float, ...]:
    """The phases a piece may take, all its copies together."""
    if not piece.matched or piece.anchor == "motif":
        return (piece.phase,)
    parts = steps if piece.anchor == "free" else round(lace.repeat / lace.pitch)
    return tuple(piece.phase + lace.repeat * part / parts for part in range(parts))


def _spots(
    lace: Lace, piece: LacePiece, grid: tuple[int, int], twin: bool, shapes: dict[Ring, int]
) -> tuple[Spot, ...]:
    ways = legal_ways(lace, piece, twin=twin)
    if not ways:
        raise CannotMake(
            said("piece {piece}", piece=Term(piece.name)),
            said("needs a mirrored twin, and this lace has no symmetry that gives one"),
            hint=said("Accept an unmatched motif for it, or use a lace that is mirrored across or reversible."),
        )
    span, steps = grid
    modulus = span if piece.matched else _free_modulus(lace, piece, span, steps)
    unit = lace.repeat / span
    found: list[Spot] = []
    for way in ways:
        places = [(way.sign * phase + way.shift) / unit for phase in _phases(lace, piece, steps)]
        whole = [math.floor(place + 1e-9) for place in places]
        base = (places[0] - whole[0]) * unit
        for lift in _lifts(lace, piece, way):
            laid = shifted(way.lay(piece.outline, lace.width), base if abs(base) > 1e-9 else 0.0, lift)
            shape = shapes.setdefault(laid, len(shapes))
            found.append(Spot(way, shape, modulus, tuple(value % modulus for value in whole)))
    return tuple(found)


def _free_modulus(lace: Lace, piece: LacePiece, span: int, steps: int) -> int:
    """Steps between the places of a copy whose motif may differ: a pitch on an edge, the grid elsewhere."""
    if piece.on_edge and piece.anchor != "free":
        return max(1, round(span * lace.pitch / lace.repeat))
    return max(1, span // steps)


def _lifts(lace: Lace, piece: LacePiece, way: Way) -> tuple[float, ...]:
    """How far across the laid outline may be moved: only where neither an edge nor the motif binds it."""
    if piece.on_edge or piece.matched:
        return (0.0,)
    _, low, _, high = box(way.lay(piece.outline, lace.width))
    room = lace.width - (high - low)
    count = 1 if room < 1e-9 else HEIGHTS
    return tuple(room * part / max(1, count - 1) - low for part in range(count))
