"""Affine placings of the plane as values: move, turn, mirror, scale, and one after another."""

from __future__ import annotations

import math
from dataclasses import dataclass

from galloon.errors import BadValue


@dataclass(frozen=True)
class Matrix:
    """x' = a·x + c·y + e, y' = b·x + d·y + f; lengths in mm, angles in degrees anticlockwise."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def __post_init__(self) -> None:
        if not all(map(math.isfinite, (self.a, self.b, self.c, self.d, self.e, self.f))):
            raise BadValue("matrix", "must hold finite numbers", self)
        if self.determinant == 0.0:
            raise BadValue("matrix", "must not squash the plane onto a line", self)

    @staticmethod
    def move(dx: float, dy: float) -> Matrix:
        """A shift by ``dx``, ``dy`` mm."""
        return Matrix(e=dx, f=dy)

    @staticmethod
    def turn(degrees: float, about: tuple[float, float] = (0.0, 0.0)) -> Matrix:
        """A turn anticlockwise about a point."""
        cos, sin = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
        x, y = about
        return Matrix(cos, sin, -sin, cos, x - cos * x + sin * y, y - sin * x - cos * y)

    @staticmethod
    def scale(x: float, y: float | None = None) -> Matrix:
        """Stretched from the origin by ``x`` across and ``y`` (the same when left out) up."""
        return Matrix(a=x, d=x if y is None else y)

    @staticmethod
    def mirror_x(about: float = 0.0) -> Matrix:
        """Left and right exchanged about the upright line x = ``about``."""
        return Matrix(a=-1.0, e=2.0 * about)

    @property
    def determinant(self) -> float:
        """Area scale; negative when the plane is turned over."""
        return self.a * self.d - self.b * self.c

    @property
    def growth(self) -> float:
        """Length scale: the square root of the area scale."""
        return math.sqrt(abs(self.determinant))

    def then(self, after: Matrix) -> Matrix:
        """This placing first, ``after`` second."""
        return Matrix(
            after.a * self.a + after.c * self.b,
            after.b * self.a + after.d * self.b,
            after.a * self.c + after.c * self.d,
            after.b * self.c + after.d * self.d,
            after.a * self.e + after.c * self.f + after.e,
            after.b * self.e + after.d * self.f + after.f,
        )

    def undone(self) -> Matrix:
        """The placing that takes everything back to where it was."""
        a, b, c, d = (part / self.determinant for part in (self.d, -self.b, -self.c, self.a))
        return Matrix(a, b, c, d, -(a * self.e + c * self.f), -(b * self.e + d * self.f))

    def apply(self, x: float, y: float) -> tuple[float, float]:
        """Where the point ``x``, ``y`` comes to."""
        return self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f
