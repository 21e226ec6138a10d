"""Measurements on flattened curves and rings."""

from __future__ import annotations

import math
import re

import numpy as np
import shapely
from numpy.typing import NDArray

from galloon.geometry.cubic import Points


def length_of(points: Points) -> float:
    """Length of a polyline (mm)."""
    return float(np.abs(np.diff(points)).sum())


def ring_area(ring: Points) -> float:
    """Signed area (mm²) of a closed ring whose first point is not repeated; positive anticlockwise."""
    x, y = ring.real, ring.imag
    closing = x[-1] * y[0] - y[-1] * x[0]
    return float(0.5 * (np.dot(x[:-1], y[1:]) - np.dot(y[:-1], x[1:]) + closing))


def coordinates(points: Points) -> NDArray[np.float64]:
    """An n×2 array of x and y."""
    return np.column_stack((points.real, points.imag))


def ring_is_simple(ring: Points) -> bool:
    """Whether a closed ring (first point not repeated) neither crosses nor touches itself."""
    return bool(shapely.is_simple(shapely.linearrings(coordinates(ring))))


def ring_crossing(ring: Points) -> complex | None:
    """A point where a closed ring (first point not repeated) crosses or touches itself; None where it does not."""
    if ring_is_simple(ring):
        return None
    found = re.search(r"\[(\S+) (\S+)\]", shapely.is_valid_reason(shapely.polygons(coordinates(ring))))
    return complex(float(found[1]), float(found[2])) if found else complex(ring[0])


def distance_between(first: Points, second: Points) -> float:
    """Least distance (mm) between two polylines."""
    return float(shapely.distance(shapely.linestrings(coordinates(first)), shapely.linestrings(coordinates(second))))


def nearest_distance(points: Points, to: Points) -> NDArray[np.float64]:
    """Distance (mm) of each point from a polyline."""
    target = shapely.linestrings(coordinates(to))
    shapely.prepare(target)
    return np.asarray(shapely.distance(shapely.points(coordinates(points)), target))


def nearest_point(point: complex, ring: Points) -> complex:
    """The point of a closed ring (first point not repeated) that lies nearest to ``point``."""
    ahead = np.concatenate([ring[1:], ring[:1]]) - ring
    share = np.clip(((point - ring) * np.conj(ahead)).real / np.maximum(np.abs(ahead) ** 2, 1e-18), 0.0, 1.0)
    on_ring = ring + share * ahead
    return complex(on_ring[np.argmin(np.abs(on_ring - point))])


def greatest_turn(points: Points) -> float:
    """Greatest turn (degrees) between neighbouring chords of an open polyline; 0 for a single chord."""
    chords = np.diff(points)
    chords = chords[np.abs(chords) > 0.0]
    if len(chords) < 2:
        return 0.0
    return float(np.degrees(np.abs(np.angle(chords[1:] / chords[:-1])).max()))


def point_along(points: Points, distance: float) -> complex:
    """The point ``distance`` mm along a polyline, held at its ends."""
    steps = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(points)))])
    return complex(np.interp(distance, steps, points.real), np.interp(distance, steps, points.imag))


def clip_ring_length(ring: Points, origin: complex, direction: complex) -> float:
    """Length (mm) of the line origin + t·direction inside a closed ring, by crossings sorted along it."""
    turned = (ring - origin) / direction * abs(direction)
    after = np.roll(turned, -1)
    crosses = (turned.imag <= 0.0) != (after.imag <= 0.0)
    a, b = turned[crosses], after[crosses]
    places = np.sort(a.real - a.imag * (b.real - a.real) / (b.imag - a.imag))
    return float((places[1::2] - places[: len(places) // 2 * 2 : 2]).sum()) if math.isfinite(places.sum()) else 0.0
