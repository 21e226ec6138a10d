"""A leftover: what is left of a cloth, as an outline with holes; x along the cloth's length, y across."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final

from galloon.errors import BadInput, BadValue, Fault, show
from galloon.store.check import checked_name
from galloon.store.trouble import refuse
from galloon.units import MM_PER, parse_length

_KEYS: Final = ("cloth", "outline", "holes", "note")
#: More corners than this in one outline are refused.
MOST_POINTS: Final = 5000
_MOST_HOLES: Final = 200
_FARTHEST: Final = 1_000_000.0
_RING: Final = "must be a list of points [x, y]"


def checked_leftover(name: str, data: Mapping[str, Any]) -> dict[str, Any]:
    """The leftover's data with lengths in mm and its area. Raises BadInput unless the outline is simple, its holes lie
    inside it and apart, and an area is left.
    """
    own = {key: value for key, value in data.items() if key not in ("units", "area")}
    unit = str(data.get("units", "mm"))
    if unit not in MM_PER:
        refuse("units", f"must be one of {', '.join(MM_PER)}", seen=unit)
    for key in own:
        if key not in _KEYS:
            refuse(key, f"is not a key of a leftover; those are {', '.join(_KEYS)}")
    if not isinstance(own.get("cloth"), str):
        refuse("cloth", "must name the cloth on the shelf that it is left of", seen=show(own.get("cloth", "")))
    try:
        rings = [points(own.get("outline"), "outline", unit), *_holes(own.get("holes", []), unit)]
        whole = _polygon(rings)
    except BadValue as error:
        raise BadInput(
            (Fault(f"shelf, leftover {show(name)}", None, error.subject, show(error.seen), error.rule),)
        ) from None
    note = {"note": checked_name(own["note"])} if own.get("note") else {}
    listed = [[list(point) for point in ring] for ring in rings]
    return {"cloth": own["cloth"], "outline": listed[0], "holes": listed[1:], "area": whole, **note}


def _holes(given: Any, unit: str) -> list[tuple[tuple[float, float], ...]]:
    if not isinstance(given, Sequence) or isinstance(given, str) or len(given) > _MOST_HOLES:
        raise BadValue("holes", f"must be a list of at most {_MOST_HOLES} outlines", type(given).__name__)
    return [points(hole, f"holes[{place + 1}]", unit) for place, hole in enumerate(given)]


def points(given: Any, subject: str, unit: str) -> tuple[tuple[float, float], ...]:
    """A ring of points in mm, anticlockwise, simple, with an area. Raises BadValue."""
    from galloon.cutting.outlines import checked_ring

    if not isinstance(given, Sequence) or isinstance(given, str):
        raise BadValue(subject, _RING, type(given).__name__)
    if len(given) > MOST_POINTS:
        raise BadValue(subject, f"must have at most {MOST_POINTS} points", len(given))
    return checked_ring(subject, [_point(one, subject, unit) for one in given])


def _point(given: Any, subject: str, unit: str) -> tuple[float, float]:
    if not isinstance(given, Sequence) or isinstance(given, str) or len(given) != 2:
        raise BadValue(subject, _RING, given)
    x, y = (parse_length(one, unit, subject) for one in given)
    if max(abs(x), abs(y)) > _FARTHEST:
        raise BadValue(subject, "must lie within 1 km of its origin", (x, y))
    return x, y


def _polygon(rings: Sequence[Sequence[tuple[float, float]]]) -> float:
    """The area (mm²) of the outline less its holes."""
    import shapely

    whole = shapely.Polygon(rings[0], rings[1:])
    if not whole.is_valid:
        raise BadValue("holes", "must lie inside the outline and apart from each other", shapely.is_valid_reason(whole))
    if whole.area <= 0.0:
        raise BadValue("outline", "must enclose an area", whole.area)
    return float(whole.area)
