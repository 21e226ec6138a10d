"""Courses: level lines round the garment past something laid on it; what each asks of the cloth beside."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from galloon import defaults
from galloon.checks.girth import course_bands, hip_bands
from galloon.findings import Status
from galloon.geometry import Points
from galloon.materials.tension import Band, reach, relaxed, tension_at
from galloon.pieces import Garment, Piece
from galloon.said import Term

#: Courses looked at from the lowest to the highest point of what is laid on.
_COURSES: Final = 16
_CORNERS: Final = 6
#: How near its lowest and highest point (mm) the first and the last course run.
_INSIDE: Final = 0.3


@dataclass(frozen=True)
class Course:
    """One course at ``level``: the band that comes nearest to its usual strain, its ``strain`` worn and the most that
    is ``usual`` (fractions); how far (mm) the course opens and what it ``needs`` to, None where nothing passes it.
    """

    level: float
    band: str
    strain: float
    usual: float
    stretch: float
    opens: float
    needs: float | None

    @property
    def load(self) -> float:
        """Strain as a share of the usual, or reach wanted as a share of what there is; 1 is just enough."""
        share = self.strain / self.usual if self.usual > 0.0 else math.inf if self.strain > 1e-9 else 0.0
        return max(share, self.needs / self.opens if self.needs is not None and self.opens > 0.0 else 0.0)

    @property
    def tears(self) -> bool:
        """Whether it is asked for more than it can stretch, or does not open far enough."""
        return self.strain > self.stretch + 1e-9 or (self.needs is not None and self.opens < self.needs - 1e-6)


def usual_strain(band: Band) -> float:
    """The most a band is usually worn stretched by."""
    return min(defaults.WORN_SHARE_LIMIT * band.cloth.stretch, float(defaults.WORN_STRAIN_LIMIT))


def levels_of(rings: Iterable[Points]) -> tuple[float, ...]:
    """Levels (y, mm) of the courses past what the rings cover, evenly and at their corners."""
    points = np.concatenate(list(rings))
    low, high = float(points.imag.min()) + _INSIDE, float(points.imag.max()) - _INSIDE
    even = np.linspace(low, high, _COURSES) if high > low else np.array([(low + high) / 2.0])
    corners = points.imag[(points.imag > low) & (points.imag < high)]
    some = corners[:: max(1, len(corners) // _CORNERS)]
    return tuple(np.unique(np.round(np.concatenate([even, some - 0.1, some + 0.1]), 3)).tolist())


@dataclass(frozen=True)
class Whole:
    """Levels (y, mm) between which courses run round the whole body: below the waist lines, above the leg lines; the
    worn strain of each panel at the hip.
    """

    top: float
    bottom: float
    strain: Mapping[str, float]

    @classmethod
    def of(cls, garment: Garment) -> Whole:
        """Of a garment."""
        found: dict[str, list[float]] = {"waist": [], "leg": []}
        for piece in garment.outer:
            if piece.part.laid_on or piece.part.covers == "gusset":
                continue
            for edge in piece.edges:
                word = edge.name.split()[-1]
                if edge.sewn_to is None and word in found and not edge.name.startswith("gusset"):
                    level = piece.edge_points(edge.name).imag
                    found[word].append(float(level.min() if word == "waist" else level.max()))
        top, bottom = min(found["waist"], default=0.0), max(found["leg"], default=-1e4)
        return cls(top, bottom, {body: plain_strain(garment, body) for body in ("front", "back")})


def course_at(garment: Garment, level: float, body: str, whole: Whole) -> Course:
    """The course at a level of ``body``: round the whole body between waist and leg, else across that panel alone.

    Round the body the worn girth there is the body's own; lower down, where the course ends at the legs, the panel is
    worn as wide as without what is laid on it.
    """
    closed = level > whole.bottom
    bands = course_bands(garment, level) if closed else course_bands(garment, level, body)
    worn = body_girth(garment, level) if closed else relaxed(bands) * (1.0 + whole.strain.get(body, 0.0))
    tension = tension_at(bands, worn)
    needs = defaults.HIP_MARGIN * garment.design.wearer.hip if closed and -level <= garment.frame.side.hip else None
    opens = reach(bands)[0]
    if not math.isfinite(tension):
        return Course(level, bands[0].name if bands else Term(body), math.inf, 0.0, 0.0, opens, needs)
    giving = [band for band in bands if not band.cloth.rigid]
    tension = max(0.0, tension)
    first = max(giving, key=lambda band: band.cloth.strain(tension) / max(1e-9, usual_strain(band)))
    return Course(
        level, first.name, first.cloth.strain(tension), usual_strain(first), first.cloth.stretch, opens, needs
    )


def body_girth(garment: Garment, level: float) -> float:
    """The body's girth (mm) at a level of the pattern, by the side curve."""
    inset = garment.frame.side.inset_at(-level)
    return garment.design.wearer.hip - 4.0 * inset / (1.0 - garment.reductions.girth)


def plain_strain(garment: Garment, body: str) -> float:
    """How far the widest band of a panel is stretched round the hip when worn; 0 where nothing of it stretches."""
    tension = tension_at(hip_bands(garment), garment.design.wearer.hip)
    bands = [band for band in hip_bands(garment, body) if not band.cloth.rigid]
    if not bands or not math.isfinite(tension):
        return 0.0
    return max(bands, key=lambda band: band.width).cloth.strain(max(0.0, tension))


def worst_course(garment: Garment, rings: Sequence[Points], body: str) -> Course | None:
    """The course past what the rings cover that is nearest to, or furthest past, what its cloth usually takes; None
    where it covers none below the waist line.
    """
    whole = Whole.of(garment)
    levels = [level for level in levels_of(rings) if level < whole.top]
    return max((course_at(garment, level, body, whole) for level in levels), key=lambda one: one.load, default=None)


def rings_of(garment: Garment, name: str) -> list[Points]:
    """What the laid part ``name`` covers, panel by panel."""
    return [laid.ring for piece in garment.outer for laid in piece.part.laid if laid.name == name]


def scaled(garment: Garment, name: str, scale: float) -> Garment:
    """The garment with what the laid part ``name`` covers made smaller about its own middle."""
    points = np.concatenate(rings_of(garment, name))
    middle = complex(points.real.min() + points.real.max(), points.imag.min() + points.imag.max()) / 2.0

    def shrunk(piece: Piece) -> Piece:
        laid = tuple(
            replace(one, ring=middle + (one.ring - middle) * scale) if one.name == name else one
            for one in piece.part.laid
        )
        return replace(piece, part=replace(piece.part, laid=laid))

    return replace(garment, pieces=tuple(shrunk(piece) if piece.part.laid else piece for piece in garment.pieces))


def judged(course: Course) -> Status:
    """Pass within the usual strain and reach, fail where it tears or does not go on, else a warning."""
    if course.load <= 1.0 + 1e-9:
        return Status.PASS
    return Status.FAIL if course.tears else Status.WARN
