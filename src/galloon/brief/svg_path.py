"""The path language of SVG (SVG 1.1, chapter 8): one closed path as points, and the transforms around it."""

from __future__ import annotations

import cmath
import math
import re
from collections.abc import Callable, Mapping
from typing import Any, Final

from galloon.drawing import Matrix
from galloon.errors import BadValue
from galloon.said import said

_TOKEN: Final = re.compile(r"([MmLlHhVvCcSsQqTtAaZz])|([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)")
_FLAG: Final = re.compile(r"()([01])")
_SKIPPED: Final = re.compile(r"[\s,]*")
_COUNTS: Final = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
_ONE_TRANSFORM: Final = re.compile(r"\s*,?\s*(matrix|translate|scale|rotate|skewX|skewY)\s*\(([^()]*)\)")
_NUMBER: Final = re.compile(r"[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?")
#: Chords stay within this of a curve, mm; and no curve is cut finer than this many chords.
_SAG: Final = 0.03
_MOST_CHORDS: Final = 200


def transform_of(text: str) -> Matrix:
    """A transform attribute. Raises BadValue for what is none, or squashes the drawing."""
    whole, place = Matrix(), 0
    for match in _ONE_TRANSFORM.finditer(text):
        if match.start() != place:
            break
        place = match.end()
        whole = _one(match[1], [float(one) for one in _NUMBER.findall(match[2])], text).then(whole)
    if text[place:].strip(" ,\t\r\n"):
        raise BadValue(
            "svg", said("its transform must be made of matrix, translate, scale, rotate and skew"), text[:60]
        )
    return whole


def _one(kind: str, given: list[float], text: str) -> Matrix:
    if kind == "matrix" and len(given) == 6:
        return Matrix(*given)
    if kind == "translate" and len(given) in (1, 2):
        return Matrix.move(given[0], given[1] if len(given) == 2 else 0.0)
    if kind == "scale" and len(given) in (1, 2):
        return Matrix.scale(given[0], given[-1])
    if kind in ("skewX", "skewY") and len(given) == 1:
        slope = math.tan(math.radians(given[0]))
        return Matrix(c=slope) if kind == "skewX" else Matrix(b=slope)
    if kind == "rotate" and len(given) in (1, 3):
        return Matrix.turn(given[0], (given[1], given[2]) if len(given) == 3 else (0.0, 0.0))
    raise BadValue("svg", said("its transform {kind} has a wrong count of numbers", kind=kind), text[:60])


def path_of_shape(name: str, given: Mapping[Any, Any]) -> str:
    """The path of a basic shape. Raises BadValue where its figures are no numbers."""

    def figure(key: str) -> float:
        text = str(given.get(key, "0")).strip()
        if not _NUMBER.fullmatch(text):
            raise BadValue("svg", said("{key} must be a plain number", key=key), text[:40])
        return float(text)

    if name in ("polygon", "polyline"):
        return f"M {given.get('points', '')} Z"
    if name == "rect":
        x, y, wide, high = (figure(key) for key in ("x", "y", "width", "height"))
        return f"M {x} {y} h {wide} v {high} h {-wide} Z"
    rx, ry = (figure("r"),) * 2 if name == "circle" else (figure("rx"), figure("ry"))
    x, y = figure("cx"), figure("cy")
    return f"M {x - rx} {y} A {rx} {ry} 0 1 1 {x + rx} {y} A {rx} {ry} 0 1 1 {x - rx} {y} Z"


def flatten_path(text: str, place: Matrix, *, most: int, closed: bool = True) -> list[complex]:
    """The points of one path, moved by ``place``. Raises BadValue for more than one, an open one where ``closed``, or
    more than ``most`` points.
    """
    pen = _Pen(place, most)
    for command, numbers in _commands(text, most):
        if pen.closed:
            raise BadValue("svg", said("must be one outline without holes or further parts"), command)
        pen.draw(command, numbers)
    if len(pen.points) < 2 and not closed:
        raise BadValue("svg", said("must be a line from one point to another"), text[:60])
    if not closed:
        return pen.points
    if len(pen.points) < 3:
        raise BadValue("svg", said("must be a path around an area"), text[:60])
    if not pen.closed and abs(pen.points[0] - pen.points[-1]) > 0.01:
        raise BadValue("svg", said("must be a closed path: it ends where it does not begin"), text[-40:])
    return pen.points


def _commands(text: str, most: int) -> list[tuple[str, list[float]]]:
    """Every command with its numbers, repeated ones spelled out."""
    found: list[tuple[str, list[float]]] = []
    command, numbers, waits, place = "", list[float](), False, _blank(text, 0)
    while place < len(text):
        here = text[place : place + 20]
        match = _match(text, place, command, len(numbers))
        if match[1]:
            if numbers:
                raise BadValue("svg", said("its path has too few numbers after {command}", command=command), here)
            command, waits = match[1], True
        elif not command or command in "Zz":
            raise BadValue("svg", said("its path has a number where a command must stand"), here)
        else:
            numbers.append(float(match[2]))
        place = _blank(text, match.end())
        if len(numbers) == _COUNTS[command.upper()] and (numbers or match[1]):
            found.append((command, numbers))
            numbers, waits = [], False
            command = {"M": "L", "m": "l"}.get(command, command)
        if len(found) > most:
            raise BadValue("svg", said("must have at most {most} points", most=most), f"more than {most}")
    if numbers or waits or not found or found[0][0] not in "Mm":
        raise BadValue("svg", said("must be a whole path that begins with M"), text[:40] or "nothing")
    return found


def _blank(text: str, place: int) -> int:
    match = _SKIPPED.match(text, place)
    return match.end() if match else place


def _match(text: str, place: int, command: str, done: int) -> re.Match[str]:
    """The next command or number; the flags of an arc may stand without a gap."""
    flag = _FLAG.match(text, place) if command in ("A", "a") and done in (3, 4) else None
    match = flag or _TOKEN.match(text, place)
    if match is None:
        raise BadValue(
            "svg", said("its path holds something that is no command and no number"), text[place : place + 20]
        )
    return match


class _Pen:
    """Walks along a path and keeps its points, moved to their place."""

    def __init__(self, place: Matrix, most: int) -> None:
        self.place, self.most = place, most
        self.points: list[complex] = []
        self.closed = False
        self._at = 0j
        self._handle: complex | None = None
        self._kind = ""

    def _moved(self, point: complex) -> complex:
        return complex(*self.place.apply(point.real, point.imag))

    def draw(self, command: str, given: list[float]) -> None:
        base = self._at if command.islower() else 0j
        kind = command.upper()
        pairs = [] if kind in "AHVZ" else [base + complex(x, y) for x, y in zip(given[::2], given[1::2], strict=True)]
        if kind == "Z":
            self.closed = True
        elif kind == "M":
            if self.points:
                raise BadValue("svg", said("must be one outline without holes or further parts"), "M")
            self._to(pairs[0])
        elif kind in "LHV":
            self._to(pairs[0] if kind == "L" else self._level(kind, given[0], relative=command.islower()))
        elif kind == "A":
            self._arc(given, base + complex(given[5], given[6]))
        else:
            self._bend(kind, pairs)
        self._kind = kind
        if kind not in "CSQT":
            self._handle = None

    def _level(self, kind: str, value: float, *, relative: bool) -> complex:
        if kind == "H":
            return complex(value + (self._at.real if relative else 0.0), self._at.imag)
        return complex(self._at.real, value + (self._at.imag if relative else 0.0))

    def _to(self, point: complex) -> None:
        self._at = point
        moved = self._moved(point)
        if not (math.isfinite(moved.real) and math.isfinite(moved.imag)):
            raise BadValue("svg", said("must have points of a sensible size"), "a number too large")
        self.points.append(moved)
        if len(self.points) > self.most:
            raise BadValue("svg", said("must have at most {most} points", most=self.most), f"more than {self.most}")

    def _bend(self, kind: str, pairs: list[complex]) -> None:
        smooth = self._handle if self._handle is not None and self._kind in ("CS" if kind in "CS" else "QT") else None
        reflected = 2.0 * self._at - smooth if smooth is not None else self._at
        controls = [reflected, *pairs] if kind in "ST" else pairs
        start = self._at
        if kind in "CS":
            one, two, end = controls
        else:
            one, two = start + (controls[0] - start) * 2.0 / 3.0, controls[1] + (controls[0] - controls[1]) * 2.0 / 3.0
            end = controls[1]

        def at(t: float) -> complex:
            u = 1.0 - t
            return u**3 * start + 3.0 * u * u * t * one + 3.0 * u * t * t * two + t**3 * end

        moved = [self._moved(point) for point in (start, one, two, end)]
        bend = 6.0 * max(abs(moved[0] - 2.0 * moved[1] + moved[2]), abs(moved[1] - 2.0 * moved[2] + moved[3]))
        self._along(at, math.sqrt(min(bend, 1e12) / (8.0 * _SAG)), end)
        self._handle = controls[-2] if kind in "CS" else controls[0]

    def _along(self, at: Callable[[float], complex], chords: float, end: complex) -> None:
        count = max(1, min(_MOST_CHORDS, math.ceil(chords)))
        for step in range(1, count):
            self._to(at(step / count))
        self._to(end)

    def _arc(self, given: list[float], end: complex) -> None:
        """An elliptical arc by its centre (SVG 1.1, appendix F.6)."""
        rx, ry, turn = abs(given[0]), abs(given[1]), cmath.exp(1j * math.radians(given[2]))
        start = self._at
        if rx == 0.0 or ry == 0.0 or start == end:
            self._to(end)
            return
        half = (start - end) / 2.0 / turn
        grow = math.sqrt(max(1.0, (half.real / rx) ** 2 + (half.imag / ry) ** 2))
        rx, ry = rx * grow, ry * grow
        unit = complex(half.real / rx, half.imag / ry)
        size = abs(unit)
        away = math.sqrt(max(0.0, 1.0 / size**2 - 1.0)) if size > 0.0 else 0.0
        sign = -1.0 if bool(given[3]) == bool(given[4]) else 1.0
        centre = sign * away * complex(unit.imag, -unit.real)
        first = cmath.phase(unit - centre)
        sweep = (cmath.phase(-unit - centre) - first) % (2.0 * math.pi)
        sweep = sweep if given[4] else sweep - 2.0 * math.pi
        middle = (start + end) / 2.0

        def at(t: float) -> complex:
            on = centre + cmath.exp(1j * (first + t * sweep))
            return middle + complex(on.real * rx, on.imag * ry) * turn

        size_mm = max(abs(self._moved(complex(r, 0.0)) - self._moved(0j)) for r in (rx, ry))
        self._along(at, abs(sweep) * math.sqrt(min(size_mm, 1e9) / (8.0 * _SAG)), end)
