"""A piece to draw by hand: numbered points from two square lines, curves by offsets from straight lines, and its
replay.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

import numpy as np

from galloon.geometry import Points, curve_through, flatten, length_of, nearest_distance, point_along
from galloon.pieces import Piece, PieceEdge
from galloon.tolerance import SAME_POINT

#: The replay stays within this of the stitch line, mm, so that rounding leaves it within 1 mm.
_CLOSE: Final = 0.6
#: What figures in millimetres are rounded to.
_HALF: Final = 0.5
#: Distances between offsets tried, mm, the widest first.
_STEPS: Final = (80.0, 60.0, 50.0, 40.0, 30.0, 25.0, 20.0, 15.0, 10.0, 8.0, 6.0, 5.0)
#: The same for who measures in inches: quarters of an inch.
_INCHES: Final = tuple(quarters * 6.35 for quarters in (12, 8, 6, 5, 4, 3, 2, 1))
#: An edge that stands off its chord by more than this share of it is cut in two.
_DEEP: Final = 0.3
#: A line turns sharply where its chords turn by more than this (degrees).
_SHARP: Final = 25.0


@dataclass(frozen=True)
class HandPoint:
    """A numbered point: ``across`` from the upright line and ``up`` from the level line (mm)."""

    number: int
    across: float
    up: float


@dataclass(frozen=True)
class HandRun:
    """From one numbered point to the next along an edge: straight, or a curve through ``offsets``: (along the straight
    line, square to it; positive to the left of the way), mm.
    """

    edge: str
    start: int
    end: int
    offsets: tuple[tuple[float, float], ...] = ()


@dataclass(frozen=True)
class HandSheet:
    """Everything needed to draw one piece's stitch line. ``corner`` is where the two square lines cross, in the
    piece's own coordinates; ``step`` what its figures are rounded to (mm).
    """

    piece: str
    corner: complex
    step: float
    points: tuple[HandPoint, ...]
    runs: tuple[HandRun, ...]

    def at(self, number: int) -> complex:
        """The numbered point in the piece's own coordinates."""
        point = next(point for point in self.points if point.number == number)
        return self.corner + complex(point.across, point.up)


def hand_sheet(piece: Piece, step: float = _HALF) -> HandSheet:
    """The sheet of ``piece``, figures rounded to ``step`` mm (half a millimetre, else part of an inch).

    The upright line is its centre or leftmost line, the level line runs through its lowest point.
    """
    left = math.floor(float(piece.stitch.real.min()))
    apart = bool(piece.part.laid_on) and piece.part.fold is None
    corner = complex(left if apart else min(0.0, left), float(piece.stitch.imag.min()))
    parts = [
        (edge, part)
        for edge in piece.edges
        for run in _between_corners(piece.edge_points(edge.name))
        for part in _parts(run)
    ]
    starts = [complex(part[0]) for _, part in parts]
    points = tuple(HandPoint(number, *_rounded(start - corner, step)) for number, start in enumerate(starts, 1))
    found = HandSheet(piece.name, corner, step, points, ())
    count = len(parts)
    runs = tuple(_run(found, edge, part, (number, number % count + 1)) for number, (edge, part) in enumerate(parts, 1))
    return HandSheet(piece.name, corner, step, points, runs)


def _rounded(place: complex, step: float) -> tuple[float, float]:
    return round(place.real / step) * step, round(place.imag / step) * step


def _between_corners(points: Points) -> list[Points]:
    """The edge cut where it turns sharply, and one that closes on itself cut in two besides."""
    chords = np.diff(points)
    turns = np.abs(np.degrees(np.angle(chords[1:] / chords[:-1])))
    places = [0, *(np.flatnonzero(turns > _SHARP) + 1).tolist(), len(points) - 1]
    if len(places) == 2 and abs(points[-1] - points[0]) < SAME_POINT:
        places.insert(1, len(points) // 2)
    return [points[start : stop + 1] for start, stop in pairwise(places)]


def _parts(points: Points) -> list[Points]:
    """The edge whole, or cut at its middle until no part bends back on or far off its chord."""
    chord = points[-1] - points[0]
    framed = (points - points[0]) / chord * abs(chord)
    bent = float(np.abs(framed.imag).max()) > _DEEP * abs(chord) or bool(np.any(np.diff(framed.real) <= 0.0))
    if not bent or len(points) < 4 or length_of(points) < 20.0:
        return [points]
    middle = length_of(points) / 2.0
    steps = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(points)))])
    index = int(np.searchsorted(steps, middle))
    centre = point_along(points, middle)
    before = np.append(points[:index], centre)
    after = np.insert(points[index:], 0, centre)
    return [*_parts(before), *_parts(after[np.append(True, np.abs(np.diff(after)) > 1e-9)])]


def _run(sheet: HandSheet, edge: PieceEdge, part: Points, ends: tuple[int, int]) -> HandRun:
    """The run with the fewest offsets that gives the edge back closely."""
    run = HandRun(edge.name, *ends)
    if _miss(sheet, run, part) <= _CLOSE:
        return run
    for step in _STEPS if sheet.step == _HALF else _INCHES:
        run = HandRun(edge.name, *ends, _offsets(sheet, part, ends, step))
        if run.offsets and _miss(sheet, run, part) <= _CLOSE:
            return run
    return run


def _offsets(sheet: HandSheet, part: Points, ends: tuple[int, int], step: float) -> tuple[tuple[float, float], ...]:
    start, end = sheet.at(ends[0]), sheet.at(ends[1])
    along = (end - start) / abs(end - start)
    framed = (part - start) / along
    stations = np.arange(step, abs(end - start) - step / 3.0, step)
    heights = np.interp(stations, framed.real, framed.imag)
    return tuple((float(s), round(float(h) / sheet.step) * sheet.step) for s, h in zip(stations, heights, strict=True))


def replay_run(sheet: HandSheet, run: HandRun) -> Points:
    """The line that the sheet's own figures draw from point to point, as a fine polyline in the piece's coordinates."""
    start, end = sheet.at(run.start), sheet.at(run.end)
    along = (end - start) / abs(end - start)
    inner = [start + along * complex(s, offset) for s, offset in run.offsets]
    return flatten(curve_through([start, *inner, end]), 0.02)


def replay_edges(sheet: HandSheet) -> dict[str, Points]:
    """Every edge as the sheet draws it."""
    found: dict[str, list[Points]] = {}
    for run in sheet.runs:
        found.setdefault(run.edge, []).append(replay_run(sheet, run))
    return {name: np.concatenate(parts) for name, parts in found.items()}


def _miss(sheet: HandSheet, run: HandRun, part: Points) -> float:
    drawn = replay_run(sheet, run)
    return max(float(nearest_distance(part, drawn).max()), float(nearest_distance(drawn, part).max()))


def worst_miss(sheet: HandSheet, piece: Piece) -> float:
    """How far (mm) the sheet's drawing and the piece's stitch line leave each other at the most."""
    drawn = replay_edges(sheet)
    worst = 0.0
    for edge in piece.edges:
        line = piece.edge_points(edge.name)
        worst = max(worst, float(nearest_distance(line, drawn[edge.name]).max()))
        worst = max(worst, float(nearest_distance(drawn[edge.name], line).max()))
    return worst


def numbers_of(runs: Sequence[HandRun]) -> dict[str, tuple[int, ...]]:
    """By edge, the numbered points it starts from."""
    found: dict[str, tuple[int, ...]] = {}
    for run in runs:
        found[run.edge] = (*found.get(run.edge, ()), run.start)
    return found
