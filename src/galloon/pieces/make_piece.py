"""Turns a dressed part into a pattern piece: flattens its edges, adds allowances, sets notches."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

import numpy as np

from galloon.geometry import Points, length_of, nearest_point, point_along, ring_area
from galloon.pieces.cut_line import Run, cut_line, sample_edge
from galloon.pieces.model import Notch, Piece, PieceEdge
from galloon.styling import Part

#: Where a seam gets its notch, as a share of its length from the lower end, and how many ticks; common practice, no
#: source.
_NOTCH_AT: Final = {
    "side": 0.45,
    "upper side": 0.45,
    **dict.fromkeys(("gusset", "front", "back", "front gusset", "back gusset", "style line"), 0.5),
    "centre back": 0.4,
    "centre front": 0.4,
}


#: A seam shorter than this many of its allowances may lose the place of its notch to a corner.
_SHORT: Final = 8.0


def make_piece(part: Part) -> Piece:
    """The pattern piece of a part.

    A laid part so shallow that cutting its edges short beneath a trim would leave nothing is cut on its stitch line
    there.
    """
    runs = tuple(sample_edge(edge) for edge in part.panel.edges)
    cut = cut_line(part, runs)
    if part.laid_on and (len(cut) < 3 or ring_area(cut) <= 0.0):
        runs = tuple(sample_edge(replace(edge, allowance=max(0.0, edge.allowance))) for edge in part.panel.edges)
        cut = cut_line(part, runs)
    stitch = np.concatenate([run.stitch[:-1] for run in runs])
    edges, start = [], 0
    for run in runs:
        end = (start + len(run.stitch) - 1) % len(stitch)
        edge = run.edge
        edges.append(PieceEdge(edge.name, start, end, length_of(run.stitch), edge.finish, edge.allowance, edge.sewn_to))
        start = end
    return Piece(part, stitch, cut, tuple(edges), _notches(runs, cut))


def _notches(runs: tuple[Run, ...], cut: Points) -> tuple[Notch, ...]:
    """One notch per sewn seam: single on front and side seams, double on back ones; equal arcs on both partners.

    On a seam so short that a corner cut off reaches its notch, that lies where the cut line is nearest.
    """
    found = []
    for before, run in zip(runs[-1:] + runs[:-1], runs, strict=True):
        edge = run.edge
        if edge.name == f"upper {before.edge.name}":
            found.append(_joint(run))
        if edge.sewn_to is None or edge.name not in _NOTCH_AT:
            continue
        share = _NOTCH_AT[edge.name]
        downwards = edge.name.startswith("centre")
        along = length_of(run.stitch) * (1.0 - share if downwards else share)
        at = point_along(run.stitch, along)
        ahead = point_along(run.stitch, along + 0.5) - point_along(run.stitch, along - 0.5)
        inward = 1j * ahead / abs(ahead)
        double = edge.name == "centre back" or edge.sewn_to in ("gusset/back", "back/gusset", "wrap/back gusset")
        place = at - inward * max(0.0, edge.allowance)
        if edge.allowance > 0.0 and length_of(run.stitch) < _SHORT * edge.allowance:
            place = nearest_point(place, cut)
        found.append(Notch(place, inward, edge.name, 2 if double else 1))
    return tuple(found)


def _joint(run: Run) -> Notch:
    """A notch where one edge gives way to the next along a seam: another seam of the neighbour meets it there."""
    inward = 1j * run.starts
    return Notch(complex(run.stitch[0]) - inward * max(0.0, run.edge.allowance), inward, run.edge.name)


def ring_of(piece: Piece) -> Points:
    """The cut ring of a piece, opened out to both halves where it lies on a fold; anticlockwise."""
    if piece.part.fold is None:
        return piece.cut
    half = piece.cut
    on_fold = np.abs(half.real) < 1e-6
    start = int(np.argmax(on_fold & ~np.roll(on_fold, 1)))
    half = np.roll(half, -start)
    off = half[~(np.abs(half.real) < 1e-6)]
    ends = half[np.abs(half.real) < 1e-6]
    top = ends[np.argmax(ends.imag)]
    bottom = ends[np.argmin(ends.imag)]
    return np.concatenate([[bottom], off, [top], -np.conj(off[::-1])])


def off_strip(piece: Piece) -> float:
    """How far (mm) the cut line of a piece leaves the solid lace it lies on; 0 where it lies on none."""
    strip = piece.strip
    if strip is None:
        return 0.0
    placed = (piece.cut - strip.origin) / strip.along
    deep = strip.scallops.depth if strip.scallops and strip.edge else 0.0
    far = strip.far_scallops.depth if strip.far_scallops and strip.far_edge else 0.0
    return float(max(0.0, np.max(placed.imag) - strip.solid - far, -deep - np.min(placed.imag)))
