"""The straps across open sides: tacked once both side edges, which catch their ends, are finished."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from galloon import defaults
from galloon.pieces import straps_of
from galloon.sewing.bench import Bench, Care, Operation, pieces_of
from galloon.sewing.operations import stages
from galloon.sewing.words import say
from galloon.styling import Pass, StrapEnd
from galloon.styling.finish_table import ZIGZAG


def straps(bench: Bench) -> Iterator[Operation]:
    """Bar tacks at both ends of every strap; none where the sides are not open."""
    found = straps_of(bench.garment)
    if not found:
        return
    ends = [
        (f"{piece}/{end.edge}", end)
        for strap in found
        for piece, end in ((strap.front_piece, strap.front), (strap.back_piece, strap.back))
    ]
    edges = tuple(dict.fromkeys(key for key, _ in ends))
    yield Operation(
        "straps",
        stages.TACKS,
        say("straps"),
        say("straps.do", end=bench.small(float(defaults.STRAP_END) - 2.0)),
        closed=bench.open_sides,
        works=edges,
        spots=tuple(f"{key}@{_share(bench, key, end):.4f}" for key, end in ends),
        pieces=pieces_of(edges),
        sewn=Pass(ZIGZAG, say("setting.tack")),
        care=Care(pressing=say("press.elastic")),
    )


def _share(bench: Bench, key: str, end: StrapEnd) -> float:
    """How far along its edge, as it is walked, an end lies; 1 is all of it."""
    piece, edge = bench.edge(key)
    points = piece.edge_points(edge.name)
    steps = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(points)))])
    return float(np.interp(end.at.imag, points.imag, steps) / steps[-1])
