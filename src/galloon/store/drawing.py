"""A pattern drawn elsewhere: closed outlines with named edges."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from galloon.errors import BadInput, BadValue, Fault, show
from galloon.store.check import checked_name
from galloon.store.leftover import points
from galloon.store.trouble import refuse


def checked_drawing(name: str, data: Mapping[str, Any]) -> dict[str, Any]:
    """``{"pieces": {piece: {"outline": ring, "edges": [{"name", "start", "end"}]}}}`` in mm, indices into the ring.

    Raises BadInput unless each outline is simple and anticlockwise and its edges follow one another all round.
    """
    pieces = data.get("pieces")
    if not isinstance(pieces, Mapping) or not pieces or set(data) - {"pieces", "units"}:
        refuse(
            "pieces",
            "must hold one table for each piece of the drawing, and nothing else",
            file=f"drawing {show(name)}",
        )
    try:
        return {"pieces": {checked_name(one): _piece(one, table) for one, table in pieces.items()}}
    except BadValue as error:
        fault = Fault(f"shelf, drawing {show(name)}", None, error.subject, show(error.seen), error.rule)
        raise BadInput((fault,)) from None


def _piece(name: str, table: Any) -> dict[str, Any]:
    if not isinstance(table, Mapping) or set(table) - {"outline", "edges"}:
        raise BadValue(f"pieces.{name}", "must have an outline and edges", table)
    ring = points(table.get("outline"), f"pieces.{name}.outline", "mm")
    if [list(one) for one in table["outline"]] != [list(one) for one in ring]:
        raise BadValue(f"pieces.{name}.outline", "must run anticlockwise, its first point not repeated", len(ring))
    edges = table.get("edges", [])
    if not isinstance(edges, Sequence) or isinstance(edges, str):
        raise BadValue(f"pieces.{name}.edges", "must be a list", edges)
    made = [_edge(name, edge, len(ring)) for edge in edges]
    for edge, after in zip(made, [*made[1:], *made[:1]], strict=True):
        if edge["end"] % len(ring) != after["start"] % len(ring):
            raise BadValue(f"pieces.{name}.edges", "must follow one another all round", edge["name"])
    return {"outline": [list(point) for point in ring], "edges": made}


def _edge(piece: str, edge: Any, count: int) -> dict[str, Any]:
    if not isinstance(edge, Mapping) or set(edge) != {"name", "start", "end"}:
        raise BadValue(f"pieces.{piece}.edges", "must have name, start and end", edge)
    for key in ("start", "end"):
        if not isinstance(edge[key], int) or isinstance(edge[key], bool) or not 0 <= edge[key] <= count:
            raise BadValue(f"pieces.{piece}.edges.{key}", f"must be a place in the outline, 0 to {count}", edge[key])
    return {"name": checked_name(edge["name"]), "start": edge["start"], "end": edge["end"]}
