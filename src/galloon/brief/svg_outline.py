"""Reads a motif's outline from the text of an SVG file: one closed shape, in millimetres, y upwards, about its middle.

The file is data, never followed: no entities, no document type, no scripts, nothing that points elsewhere.
"""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from lxml import etree

from galloon.brief.svg_file import drawn_in, name_of, place_of, refused
from galloon.brief.svg_path import flatten_path, path_of_shape
from galloon.design import MOST_OUTLINE_POINTS
from galloon.errors import BadValue
from galloon.said import said

#: Largest outline, mm across; and the finest detail kept.
_LARGEST: Final = 1000.0
_DETAIL: Final = 1e-6

Ring = tuple[tuple[float, float], ...]


def outline_of_svg(text: str) -> Ring:
    """The closed outline in an SVG file. Raises BadValue, naming the line of the file, for what it will not read."""
    root, shapes = drawn_in(text)
    if len(shapes) != 1:
        found = f"{len(shapes)} shapes" if shapes else "no shape"
        raise BadValue("svg", said("must hold just one closed shape, such as one path"), found)
    shape = shapes[0]
    place = place_of(shape, root)
    try:
        path = shape.get("d", "") if name_of(shape) == "path" else path_of_shape(name_of(shape), dict(shape.attrib))
        points = flatten_path(path, place, most=MOST_OUTLINE_POINTS)
    except BadValue as error:
        raise refused(shape, error.rule, error.seen) from None
    return _centred(shape, points)


def _centred(shape: etree._Element, points: list[complex]) -> Ring:
    """The outline with y upwards, about the middle of its box, its first point not repeated."""
    ring = [points[0]]
    ring += [point for before, point in pairwise(points) if abs(point - before) > _DETAIL]
    if len(ring) > 1 and abs(ring[0] - ring[-1]) <= _DETAIL:
        ring.pop()
    xs, ys = [one.real for one in ring], [-one.imag for one in ring]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    if not (0.0 < wide <= _LARGEST and 0.0 < high <= _LARGEST):
        raise refused(
            shape,
            said("its outline must be at most {most:g} cm across", most=_LARGEST / 10),
            f"{wide:.6g} x {high:.6g} mm",
        )
    middle = ((max(xs) + min(xs)) / 2.0, (max(ys) + min(ys)) / 2.0)
    return tuple((round(x - middle[0], 6), round(y - middle[1], 6)) for x, y in zip(xs, ys, strict=True))
