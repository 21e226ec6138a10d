"""Points, cubic curves, polylines and rings in the plane; knows no garment words.

A point is a complex number x + y·j in millimetres: sums, turns and mirrors are plain arithmetic.
"""

from galloon.geometry.crossings import Crossing, crossings
from galloon.geometry.cubic import (
    Cubic,
    Curve,
    Points,
    chord_count,
    cubic_length,
    curve_through,
    cut_curve,
    end_direction,
    flatten,
    line,
    map_curve,
    meeting_point,
    moved,
    polyline,
    reversed_curve,
    sample,
    start_direction,
)
from galloon.geometry.cutting_line import arc, cut_at_length, cut_at_line, line_crossings
from galloon.geometry.plane import angle_between, cross, dot, mirrored, signed_distance, unit
from galloon.geometry.polyline import (
    clip_ring_length,
    coordinates,
    distance_between,
    greatest_turn,
    length_of,
    nearest_distance,
    point_along,
    ring_area,
    ring_is_simple,
)

__all__ = [
    "Crossing",
    "Cubic",
    "Curve",
    "Points",
    "angle_between",
    "arc",
    "chord_count",
    "clip_ring_length",
    "coordinates",
    "cross",
    "crossings",
    "cubic_length",
    "curve_through",
    "cut_at_length",
    "cut_at_line",
    "cut_curve",
    "distance_between",
    "dot",
    "end_direction",
    "flatten",
    "greatest_turn",
    "length_of",
    "line",
    "line_crossings",
    "map_curve",
    "meeting_point",
    "mirrored",
    "moved",
    "nearest_distance",
    "point_along",
    "polyline",
    "reversed_curve",
    "ring_area",
    "ring_is_simple",
    "sample",
    "signed_distance",
    "start_direction",
    "unit",
]
