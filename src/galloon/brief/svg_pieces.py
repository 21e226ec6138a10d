"""Reads a pattern drawn elsewhere from the text of an SVG file: pieces as closed outlines with named edges, mm.

A group is a piece and each path in it one edge: laid end to end they go once round the piece. A closed shape outside
such a group is a piece with one edge. Names are the label an editor shows, else the id.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final

from lxml import etree

from galloon.brief.svg_file import drawn_in, name_of, place_of, refused
from galloon.brief.svg_path import flatten_path, path_of_shape
from galloon.design import MOST_OUTLINE_POINTS
from galloon.errors import BadValue
from galloon.said import said

#: Ends of two edges that lie this close (mm) are one corner; a pattern is cut no finer.
JOIN: Final = 0.5
#: Largest piece, mm across; finest detail kept, mm.
_LARGEST: Final = 3000.0
_DETAIL: Final = 1e-4
_LABEL: Final = "{http://www.inkscape.org/namespaces/inkscape}label"

Edge = tuple[str, list[complex]]


def pieces_of_svg(text: str) -> dict[str, dict[str, Any]]:
    """``{piece: {"outline": ring, "edges": [{"name", "start", "end"}]}}``, anticlockwise, y upwards.

    Raises BadValue, naming the line of the file, for a drawing that is not safe or whose edges do not close.
    """
    root, shapes = drawn_in(text)
    if not shapes:
        raise BadValue("svg", said("must hold at least one closed piece"), "no shape")
    grouped: dict[etree._Element, list[etree._Element]] = {}
    for shape in shapes:
        above = shape.getparent()
        grouped_here = above is not None and name_of(above) == "g" and not _closed(shape)
        holder = above if grouped_here and above is not None else shape
        grouped.setdefault(holder, []).append(shape)
    found: dict[str, dict[str, Any]] = {}
    for holder, edges in grouped.items():
        name = _named(holder)
        if name in found:
            raise refused(holder, said("two pieces have the same name, {name}", name=repr(name)))
        found[name] = _piece(holder, [(_named(one), _points(one, root)) for one in edges])
    return found


def _closed(shape: etree._Element) -> bool:
    kind = name_of(shape)
    return kind != "polyline" if kind != "path" else shape.get("d", "").rstrip()[-1:] in ("Z", "z")


def _named(element: etree._Element) -> str:
    name = (element.get(_LABEL) or element.get("id") or "").strip()
    if not name:
        raise refused(element, said("must have a name: a label or an id"))
    return str(name)


def _points(shape: etree._Element, root: etree._Element) -> list[complex]:
    """An edge's or a piece's points, mm, y upwards, none twice in a row."""
    kind, closed = name_of(shape), _closed(shape)
    try:
        path = shape.get("d", "") if kind == "path" else path_of_shape(kind, dict(shape.attrib))
        path = path.rstrip("Z ") if kind == "polyline" else path
        drawn = flatten_path(path, place_of(shape, root), most=MOST_OUTLINE_POINTS, closed=closed)
    except BadValue as error:
        raise refused(shape, error.rule, error.seen) from None
    kept = [drawn[0].conjugate()]
    for point in drawn[1:]:
        if abs(point.conjugate() - kept[-1]) > _DETAIL:
            kept.append(point.conjugate())
    if closed and len(kept) > 1 and abs(kept[0] - kept[-1]) > _DETAIL:
        kept.append(kept[0])
    return kept


def _piece(holder: etree._Element, edges: Sequence[Edge]) -> dict[str, Any]:
    ordered = _joined(holder, edges)
    ring = [point for _, line in ordered for point in line[:-1]]
    if _area(ring) < 0.0:
        ordered = [(name, line[::-1]) for name, line in reversed(ordered)]
        ring = [point for _, line in ordered for point in line[:-1]]
    if len(ring) > MOST_OUTLINE_POINTS:
        raise refused(holder, said("must have at most {most} points", most=MOST_OUTLINE_POINTS), len(ring))
    xs, ys = [one.real for one in ring], [one.imag for one in ring]
    if max(max(xs) - min(xs), max(ys) - min(ys)) > _LARGEST:
        raise refused(holder, said("must be at most {most:g} cm across", most=_LARGEST / 10))
    listed, place = [], 0
    for name, line in ordered:
        listed.append({"name": name, "start": place, "end": place + len(line) - 1})
        place += len(line) - 1
    corner = complex(min(xs), min(ys))
    moved = [point - corner for point in ring]
    return {"outline": [[round(one.real, 4), round(one.imag, 4)] for one in moved], "edges": listed}


def _joined(holder: etree._Element, edges: Sequence[Edge]) -> list[Edge]:
    """The edges end to end, turned where need be; the ends that meet made one point."""
    (name, line), *rest = edges
    ordered = [(name, list(line))]
    while rest:
        end = ordered[-1][1][-1]
        near = min(rest, key=lambda edge: min(abs(edge[1][0] - end), abs(edge[1][-1] - end)))
        rest.remove(near)
        turned = near[1] if abs(near[1][0] - end) <= abs(near[1][-1] - end) else near[1][::-1]
        _meet(holder, ordered[-1][0], end, near[0], turned[0])
        ordered.append((near[0], [end, *turned[1:]]))
    _meet(holder, ordered[-1][0], ordered[-1][1][-1], name, line[0])
    ordered[-1][1][-1] = line[0]
    return ordered


def _meet(holder: etree._Element, before: str, end: complex, after: str, start: complex) -> None:
    if abs(start - end) > JOIN:
        gap = f"{abs(start - end):.1f} mm apart"
        raise refused(
            holder,
            said(
                "edge {before} must end where {after} begins, within {within:g} mm",
                before=repr(before),
                after=repr(after),
                within=JOIN,
            ),
            gap,
        )


def _area(ring: Sequence[complex]) -> float:
    """Twice the signed area, mm²."""
    return sum((one.conjugate() * two).imag for one, two in zip(ring, [*ring[1:], ring[0]], strict=True))
