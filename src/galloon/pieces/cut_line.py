"""Adds allowances: the cut line as true parallels of the stitch line's edges, with corners that can be sewn."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import shapely
from numpy.typing import NDArray

from galloon.drafting import Edge
from galloon.geometry import (
    Points,
    chord_count,
    coordinates,
    cross,
    dot,
    meeting_point,
    nearest_distance,
    ring_is_simple,
    sample,
    unit,
)
from galloon.pieces.scallops import scallop_outline
from galloon.styling import TURNED, Part
from galloon.tolerance import ALLOWANCE

#: A corner that would stand out further than this many allowances is cut square instead.
_MITRE_LIMIT = 4.0
#: A corner that would take the allowance off more of an edge than this many allowances steps instead.
_TAPER_LIMIT = 3.0
#: Edges that turn less than this (sine) run on smoothly: their allowances step.
_SMOOTH_SINE = 0.02
#: Points (mm) that are nearer than this are one.
_HAIR = 1e-6


@dataclass(frozen=True)
class Run:
    """One edge sampled: stitch points, parallel points, unit tangents at both ends."""

    edge: Edge
    stitch: Points
    parallel: Points
    starts: complex
    ends: complex


def sample_edge(edge: Edge) -> Run:
    """Stitch points of an edge and their parallel at its allowance (outside is to the right of travel)."""
    stitch, slopes = zip(*(sample(piece, chord_count(piece)) for piece in edge.curve), strict=True)
    points = np.concatenate([stitch[0], *(part[1:] for part in stitch[1:])])
    units = [part / np.abs(part) for part in slopes]
    tangents = np.concatenate([units[0], *(part[1:] for part in units[1:])])
    beyond = tangents.copy()
    joints = np.cumsum([len(part) - 1 for part in units])[:-1]
    for joint, after in zip(joints, units[1:], strict=True):
        beyond[joint] = _mitred(complex(tangents[joint]), complex(after[0]))
    parallel = _without_loops(points, points - 1j * beyond * edge.allowance, edge.allowance)
    return Run(edge, points, parallel, complex(tangents[0]), complex(tangents[-1]))


def _mitred(before: complex, after: complex) -> complex:
    """The direction between two unit ones, so long that a parallel bent there keeps its distance from both sides; the
    first itself where they are one, or turn as at a corner.
    """
    both = before + after
    if abs(before - after) < 1e-9 or abs(both) < 1.0:
        return before
    return 2.0 * both / abs(both) ** 2


def _without_loops(points: Points, parallel: Points, allowance: float) -> Points:
    """A true parallel: where the line bends more sharply than its allowance, what would run back is left out."""
    if not _runs_back(points, parallel).any():
        return parallel
    keep = nearest_distance(parallel, points) > abs(allowance) - ALLOWANCE
    keep[[0, -1]] = True
    points, parallel = points[keep], parallel[keep]
    while (back := _runs_back(points, parallel)).any() and len(parallel) > 2:
        drop = np.minimum(np.flatnonzero(back) + 1, len(parallel) - 2)
        points, parallel = np.delete(points, drop), np.delete(parallel, drop)
    return parallel


def _runs_back(points: Points, parallel: Points) -> NDArray[np.bool_]:
    """Which chords of the parallel run against those of its line."""
    return np.asarray(((parallel[1:] - parallel[:-1]) * np.conj(points[1:] - points[:-1])).real < 0.0)


def cut_line(part: Part, runs: tuple[Run, ...]) -> Points:
    """The closed cut line (first point not repeated) of a part whose edges are sampled as ``runs``; one edge all round
    has no corner.
    """
    if len(runs) == 1:
        return _without_repeats(runs[0].parallel[:-1])
    corners = [_corner(run, following) for run, following in zip(runs, runs[1:] + runs[:1], strict=True)]
    pieces: list[Points] = []
    for index, run in enumerate(runs):
        before, after = corners[index - 1], corners[index]
        line = _along(part, run, before[-1], after[0])
        if run.edge.finish == "scallop":
            line = _kept_within(line, runs[index - 1], runs[(index + 1) % len(runs)])
        pieces.append(line)
        if len(after) > 1:
            pieces.append(np.array(after[1:-1], dtype=np.complex128))
    return _trimmed(part, runs, _without_crossings(_without_repeats(np.concatenate(pieces))))


def _kept_within(outline: Points, before: Run, after: Run) -> Points:
    """A scalloped outline cut off where an open side beside it runs on: no seam takes what would stand out there."""
    if _opens(after.edge):
        outline = _cut_off(outline, -1j * after.starts)
    if _opens(before.edge):
        outline = _cut_off(outline[::-1], -1j * before.ends)[::-1]
    return outline


def _cut_off(outline: Points, outward: complex) -> Points:
    """The outline without what lies ``outward`` of its last point on the way there."""
    end = outline[-1]
    out = ((outline[:-1] - end) * np.conj(outward)).real
    inside = np.flatnonzero(out <= _HAIR)
    if len(inside) == 0 or inside[-1] == len(out) - 1:
        return outline
    last = int(inside[-1])
    share = out[last] / (out[last] - out[last + 1])
    return np.append(outline[: last + 1], [outline[last] + share * (outline[last + 1] - outline[last]), end])


def _without_crossings(ring: Points) -> Points:
    """The ring without the loops that parallels of short edges leave, where their neighbours' meet before them."""
    if ring_is_simple(ring):
        return ring
    return _begun(_largest(shapely.make_valid(shapely.polygons(coordinates(ring)))), ring)


def _largest(areas: Any) -> Points:
    """The outline of the largest of some areas, anticlockwise."""
    largest = max(shapely.get_parts(areas), key=lambda area: float(shapely.area(area)))
    kept = shapely.get_coordinates(shapely.get_exterior_ring(shapely.orient_polygons(largest)))[:-1]
    return np.asarray(kept[:, 0] + 1j * kept[:, 1], dtype=np.complex128)


def _trimmed(part: Part, runs: tuple[Run, ...], ring: Points) -> Points:
    """Corners of allowances that stand out beyond the far edge of solid lace, cut off along it.

    Only what lies within two allowances of a corner of the stitch line is trimmed, and only where that corner itself
    is on the lace: a panel that is too high for its lace stays too high, so that it can be told.
    """
    strip = part.strip
    if strip is None:
        return ring
    limit = strip.solid + (strip.far_scallops.depth if strip.far_scallops and strip.far_edge else 0.0)
    over = ((ring - strip.origin) / strip.along).imag > limit + _HAIR
    if not over.any():
        return ring
    corners = np.array([complex(run.stitch[-1]) for run in runs])
    on_lace = corners[((corners - strip.origin) / strip.along).imag <= limit]
    reach = 2.0 * max(abs(run.edge.allowance) for run in runs)
    half = shapely.box(-1e5, -1e5, 1e5, limit)
    placed = shapely.polygons(coordinates((ring - strip.origin) / strip.along))
    for piece in shapely.get_parts(shapely.difference(placed, half)):
        ends = shapely.get_coordinates(piece)
        ends = strip.origin + (ends[:, 0] + 1j * ends[:, 1]) * strip.along
        if not any(np.abs(ends - corner).max() <= reach for corner in on_lace):
            return ring
    kept = _largest(shapely.intersection(placed, half))
    return _begun(np.asarray(strip.origin + kept * strip.along, dtype=np.complex128), ring)


def _begun(kept: Points, ring: Points) -> Points:
    """The ``kept`` outline begun at the first point of ``ring`` that is still on it, so that a hair's difference does
    not begin it elsewhere.
    """
    for point in ring:
        away = np.abs(kept - point)
        first = int(np.argmin(away))
        if away[first] < _HAIR:
            return np.concatenate([kept[first:], kept[:first]])
    return kept


def _along(part: Part, run: Run, start: complex, end: complex) -> Points:
    """The cut line of one edge between its two corners."""
    strip = part.strip
    if run.edge.finish in ("scallop", "lapped") and strip is not None and strip.edge == run.edge.name:
        return scallop_outline(strip, start, end)
    if run.edge.finish in ("scallop", "lapped") and strip is not None and strip.far_edge == run.edge.name:
        return scallop_outline(strip, start, end, far=True)
    keep = np.ones(len(run.parallel), dtype=bool)
    ahead = (run.parallel - start) * np.conj(run.starts)
    behind = (run.parallel - end) * np.conj(run.ends)
    near = 6.0 * abs(run.edge.allowance) + 60.0
    keep &= ~((ahead.real <= 0.0) & (np.abs(run.parallel - start) < near))
    keep &= ~((behind.real >= 0.0) & (np.abs(run.parallel - end) < near))
    return np.concatenate([[start], run.parallel[keep], [end]])


def _without_repeats(ring: Points) -> Points:
    before = np.concatenate([ring[-1:], ring[:-1]])
    return np.asarray(ring[np.abs(ring - before) > 1e-9], dtype=np.complex128)


def _corner(first: Run, second: Run) -> list[complex]:
    """The cut line's points at the corner between two edges: one for a mitre, more where it steps or folds back."""
    a, b = complex(first.parallel[-1]), complex(second.parallel[0])
    turn = cross(first.ends, second.starts)
    if abs(turn) < _SMOOTH_SINE and dot(first.ends, second.starts) > 0.0:
        if first.edge.allowance == second.edge.allowance:
            return [(a + b) / 2.0]
        return [a, b]
    shaped = _folded(first, second)
    if shaped is not None:
        return shaped
    met = _meet(first, second)
    vertex = complex(first.stitch[-1])
    most = _MITRE_LIMIT * max(abs(first.edge.allowance), abs(second.edge.allowance))
    if met is None or abs(met - vertex) > most + 1e-6 or _overshoots(first, second, met) or _tapers(first, second, met):
        return [a, b]
    return [met]


def _tapers(first: Run, second: Run, met: complex) -> bool:
    """Whether one parallel, carried on, cuts the other's allowance off for long: the edges turn little, and one has
    less allowance.
    """
    most = _TAPER_LIMIT * max(abs(first.edge.allowance), abs(second.edge.allowance))
    before = dot(met - complex(first.parallel[-1]), first.ends)
    after = dot(met - complex(second.parallel[0]), second.starts)
    return (before < -most and after <= _HAIR) or (after > most and before >= -_HAIR)


def _overshoots(first: Run, second: Run, met: complex) -> bool:
    """Whether two parallels meet beyond the other end of either edge: one of them is a sliver."""
    return (
        dot(met - complex(first.parallel[0]), first.starts) < 0.0
        or dot(met - complex(second.parallel[-1]), second.ends) > 0.0
    )


def _meet(first: Run, second: Run) -> complex | None:
    """Where the two parallels meet, carried on straight at their ends; by exact crossing where they run into each
    other.
    """
    vertex = complex(first.stitch[-1])
    met = meeting_point(complex(first.parallel[-1]), first.ends, complex(second.parallel[0]), second.starts)
    if met is None:
        return None
    if met[1] >= -1e-9 and met[2] <= 1e-9:
        return met[0]
    far = 8.0 * (abs(first.edge.allowance) + abs(second.edge.allowance)) + 1.0
    one = np.append(first.parallel, first.parallel[-1] + first.ends * far)
    two = np.insert(second.parallel, 0, second.parallel[0] - second.starts * far)
    return _crossing(one, two, vertex, met[0])


def _crossing(one: Points, two: Points, near: complex, otherwise: complex) -> complex:
    """Where two lines cross nearest to a point; ``otherwise`` where they do not."""
    crossing = shapely.intersection(shapely.linestrings(coordinates(one)), shapely.linestrings(coordinates(two)))
    points = shapely.get_coordinates(crossing)
    return min((complex(x, y) for x, y in points), key=lambda point: abs(point - near), default=otherwise)


def _folded(first: Run, second: Run) -> list[complex] | None:
    """A corner between a seam, or an open side, and an edge that is turned in before it: the turned allowance mirrors
    the other's cut line, so that it lies on it when folded. None where the corner is none of that kind.
    """
    if first.edge.finish in TURNED and _later(second.edge):
        shaped = _fold_back(second, first, at_start=True)
        return None if shaped is None else shaped[::-1]
    if _later(first.edge) and second.edge.finish in TURNED:
        return _fold_back(first, second, at_start=False)
    return None


def _later(edge: Edge) -> bool:
    """Whether an edge is sewn or finished only after those beside it are turned in."""
    return edge.finish == "seam" or _opens(edge)


def _opens(edge: Edge) -> bool:
    """Whether it is the edge of an open side."""
    return edge.finish != "seam" and edge.sewn_to is None and edge.name.split()[-1] == "side"


def _fold_back(seam: Run, turned: Run, *, at_start: bool) -> list[complex] | None:
    least = 0.0 if _opens(seam.edge) else _HAIR
    if turned.edge.allowance <= 0.0 or seam.edge.allowance < least:
        return None
    vertex = complex(seam.stitch[0] if at_start else seam.stitch[-1])
    outward = -seam.starts if at_start else seam.ends
    along = turned.ends if at_start else turned.starts
    offset = complex(seam.parallel[0] if at_start else seam.parallel[-1])
    met = meeting_point(offset, outward, vertex, along)
    if met is None or met[1] < -2.0 * seam.edge.allowance:
        return None
    normal = -1j * along
    height = dot(outward, normal)
    if height < 0.5:
        return None
    back = unit(along * (outward / along).conjugate() * -1.0)
    back = back if dot(back, normal) > 0.0 else -back
    knee = met[0]
    inner = seam.parallel if at_start else seam.parallel[::-1]
    if -met[1] > abs(inner[1] - inner[0]):
        reach = along * (2.0 * abs(knee - vertex))
        knee = _crossing(inner, np.array([vertex - reach, vertex + reach]), knee, knee)
    top = knee + back * (turned.edge.allowance / dot(back, normal))
    return [knee, top] if abs(height - 1.0) > 1e-9 else [top]
