"""A seam as one sees it from either side: the line it takes on each panel, its curve, and where it ends."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

import numpy as np
import shapely

from galloon.drafting import Edge
from galloon.geometry import Points, coordinates, flatten, length_of
from galloon.lace.laid_on import area_of, hosts, outline_of
from galloon.styling import Part

#: The seam is carried on by this much (mm) beyond both its ends to measure what lies beside it.
_BEYOND: Final = 400.0
#: Least length of seam (mm) over which its curve is measured.
_WINDOW: Final = 40.0
_STEP: Final = 2.0


@dataclass(frozen=True, eq=False)
class Flank:
    """One side of a seam: ``line`` from its lower end up, the panels there from the lowest up, and the edges that meet
    it at its lower and its upper end. ``inward`` is 1 where the panel lies to the left of the line, else -1.
    """

    name: str
    line: Points
    inward: float
    on: tuple[Part, ...]
    foot: tuple[Part, Edge]
    head: tuple[Part, Edge]

    @property
    def area(self) -> Any:
        """The panels' area."""
        return shapely.union_all([area_of(outline_of(part)) for part in self.on], grid_size=1e-6)

    @property
    def length(self) -> float:
        """Of the seam (mm)."""
        return length_of(self.line)

    @property
    def chord(self) -> complex:
        """From its lower to its upper end."""
        return complex(self.line[-1] - self.line[0])

    def at(self, along: Any, away: Any) -> Points:
        """Points so far along the seam and so far from it, into the panel; the seam runs on straight at its ends."""
        line = self._carried_on
        steps = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(line)))]) - _BEYOND
        along = np.asarray(along, dtype=float)

        def place(where: Any) -> Any:
            return np.interp(where, steps, line.real) + 1j * np.interp(where, steps, line.imag)

        ahead = place(along + 0.5) - place(along - 0.5)
        return np.asarray(place(along) + 1j * self.inward * ahead / np.abs(ahead) * away)

    @property
    def _carried_on(self) -> Points:
        first, last = self.line[1] - self.line[0], self.line[-1] - self.line[-2]
        before = self.line[0] - first / abs(first) * _BEYOND
        after = self.line[-1] + last / abs(last) * _BEYOND
        return np.concatenate([[before], self.line, [after]])

    def parallel(self, away: float) -> Points:
        """The line that runs ``away`` mm beside the seam."""
        count = max(8, round(self.length / _STEP))
        return self.at(np.linspace(0.0, self.length, count + 1), away)

    def band(self, away: float) -> Any:
        """Everything within ``away`` mm of the seam carried on."""
        return shapely.buffer(shapely.linestrings(coordinates(self._carried_on)), away, cap_style="flat")

    def end(self, which: str, away: float) -> list[tuple[float, float]]:
        """The edge that meets the seam at its "foot" or its "head", as far as ``away`` mm from it: pairs of distance
        from the seam and place along it, the seam's own end first.
        """
        _, edge = self.foot if which == "foot" else self.head
        corner = self.line[0] if which == "foot" else self.line[-1]
        points = flatten(edge.curve)
        if abs(points[0] - corner) > abs(points[-1] - corner):
            points = points[::-1]
        track = shapely.linestrings(coordinates(self._carried_on))
        places = shapely.points(coordinates(points))
        apart = shapely.distance(track, places)
        along = shapely.line_locate_point(track, places) - _BEYOND
        apart[0], along[0] = 0.0, 0.0 if which == "foot" else self.length
        return _until(list(zip(apart.tolist(), along.tolist(), strict=True)), away)


def _until(path: list[tuple[float, float]], away: float) -> list[tuple[float, float]]:
    """The path up to ``away``; carried on level where it ends before."""
    done = [path[0]]
    for here in path[1:]:
        last = done[-1]
        if here[0] >= away:
            share = (away - last[0]) / (here[0] - last[0])
            return [*done, (away, last[1] + share * (here[1] - last[1]))]
        if here[0] > last[0] + 0.05:
            done.append(here)
    return [*done, (away, done[-1][1])]


def flanks_of(seam: str, parts: tuple[Part, ...]) -> tuple[Flank, Flank] | None:
    """Both flanks of "side", "centre front" or "centre back"; None where there is no such seam."""
    if seam == "side":
        found = [
            _flank(body, hosts(parts, body), lambda name: name == "side" or name.startswith("upper side"))
            for body in ("front", "back")
        ]
    else:
        body = seam.partition(" ")[2]
        one = _flank(body, hosts(parts, body), lambda name: name == seam)
        found = [one, one]
    first, second = found
    return (first, second) if first is not None and second is not None else None


def _flank(name: str, on: tuple[Part, ...], belongs: Callable[[str], bool]) -> Flank | None:
    edges = [
        (part, index, edge)
        for part in on
        for index, edge in enumerate(part.panel.edges)
        if belongs(edge.name) and edge.finish != "fold" and edge.sewn_to is not None
    ]
    edges.sort(key=lambda one: min(one[2].start.imag, one[2].end.imag))
    if not edges:
        return None
    runs = [flatten(edge.curve) for _, _, edge in edges]
    up = runs[0][-1].imag > runs[0][0].imag
    runs = [run if up else run[::-1] for run in runs]
    line = np.concatenate([runs[0], *(run[1:] for run in runs[1:])])
    low, high = edges[0], edges[-1]
    step = 1 if up else -1
    return Flank(
        name,
        line,
        1.0 if up else -1.0,
        tuple({part.name: part for part, _, _ in edges}.values()),
        (low[0], _neighbour(low[0], low[1] - step)),
        (high[0], _neighbour(high[0], high[1] + step)),
    )


def _neighbour(part: Part, index: int) -> Edge:
    return part.panel.edges[index % len(part.panel.edges)]


def ease(flank: Flank, away: float) -> float:
    """How much longer or shorter a line ``away`` mm beside the seam is than the seam, at the worst over a stretch as
    long as the strip is wide (fraction of the shorter of the two).
    """
    beside = np.abs(np.diff(flank.parallel(away)))
    own = np.full(len(beside), flank.length / len(beside))
    window = max(1, min(len(beside), round(max(_WINDOW, 2.0 * away) / own[0])))
    kernel = np.ones(window)
    near, far = np.convolve(own, kernel, "valid"), np.convolve(beside, kernel, "valid")
    return float(np.max(np.abs(near - far) / np.minimum(near, far)))
