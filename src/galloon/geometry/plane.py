"""Arithmetic on points as complex numbers."""

from __future__ import annotations

import cmath
import math


def unit(vector: complex) -> complex:
    """The vector made one long; 0 stays 0."""
    size = abs(vector)
    return vector / size if size > 0.0 else 0j


def dot(a: complex, b: complex) -> float:
    """Inner product."""
    return a.real * b.real + a.imag * b.imag


def cross(a: complex, b: complex) -> float:
    """Signed area of the parallelogram: positive where b lies to the left of a."""
    return a.real * b.imag - a.imag * b.real


def angle_between(a: complex, b: complex) -> float:
    """Degrees from a round to b, anticlockwise, in (-180, 180]."""
    return math.degrees(cmath.phase(b / a)) if a and b else 0.0


def mirrored(point: complex) -> complex:
    """The mirror image about the line x = 0."""
    return -point.conjugate()


def signed_distance(point: complex, start: complex, end: complex) -> float:
    """Distance of ``point`` from the line start→end, positive to its left."""
    return cross(end - start, point - start) / abs(end - start)
