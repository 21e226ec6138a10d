"""Changes of a design: tried while a handle moves, kept when it is let go, undone and redone."""

from __future__ import annotations

from typing import Any

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from galloon.web.answer import answer
from galloon.web.desk import Change, Data, Document, changed
from galloon.web.handles import move, placed_again
from galloon.web.mends import mends
from galloon.web.views.common import Refused, answered, changes_of, desk_of, name_of, shown, words_of
from galloon.workflow.reckon import make_garment


def _asked(request: Request, data: dict[str, Any]) -> list[Change]:
    """The changes a request asks for: as it says, and those that bring its handle to where it was moved."""
    changes = changes_of(data)
    key, value = data.get("handle"), data.get("to")
    if key is None:
        return changes
    if not isinstance(key, str) or not isinstance(value, int | float):
        raise Refused(400, "That is no move.")
    desk, name = desk_of(request), name_of(request)
    uses = desk.read(desk.document(name).data).design.lace
    return [*changes, *move(desk.garment(name), uses, key, float(value))]


def _answer(request: Request, document: Document, tried: Data | None = None) -> JSONResponse:
    """The answer to a design as it is kept, or to data that are only ``tried``."""
    desk = desk_of(request)
    brief = desk.read(document.data if tried is None else tried)
    garment = desk.garment(document.name) if tried is None else make_garment(brief.design)
    said = answer(garment, brief, words_of(request))
    return JSONResponse({"version": document.version, "undo": len(document.past), "redo": len(document.future), **said})


@answered
def try_changes(request: Request, data: dict[str, Any]) -> Response:
    """The answer to a design with changes that are not kept."""
    desk, name = desk_of(request), name_of(request)
    document = desk.document(name)
    return _answer(request, document, changed(document.data, _asked(request, data)))


@answered
def keep(request: Request, data: dict[str, Any]) -> Response:
    """The answer to a design whose changes are kept."""
    document = desk_of(request).keep(name_of(request), _asked(request, data))
    return _answer(request, document)


@answered
def undo(request: Request, data: dict[str, Any]) -> Response:
    """One change back."""
    document = desk_of(request).undo(name_of(request))
    return _answer(request, document)


@answered
def redo(request: Request, data: dict[str, Any]) -> Response:
    """One change forward again."""
    document = desk_of(request).redo(name_of(request))
    return _answer(request, document)


@answered
def place_again(request: Request, data: dict[str, Any]) -> Response:
    """The lace as the program would lay it."""
    desk, name = desk_of(request), name_of(request)
    design = desk.read(desk.document(name).data).design
    document = desk.keep(name, placed_again(design))
    return _answer(request, document)


@answered
def mends_for(request: Request, data: dict[str, Any]) -> Response:
    """What would mend the finding of that name."""
    about = data.get("name")
    if not isinstance(about, str) or len(about) > 200:
        raise Refused(400, "That is no finding.")
    return JSONResponse({"mends": mends(desk_of(request), name_of(request), about, words_of(request))})


@answered
def shelve(request: Request, data: dict[str, Any]) -> Response:
    """Keeps the wearer or one cloth of a design on the shelf for other designs."""
    kind, name = data.get("kind"), data.get("name")
    if kind not in ("wearer", "cloth") or not isinstance(name, str):
        raise Refused(400, "That cannot be kept.")
    desk_of(request).shelve(name_of(request), kind, name)
    return JSONResponse({"kept": name})


@shown
def version(request: Request) -> Response:
    """The number of the newest version, for other windows on the same design."""
    return JSONResponse({"version": desk_of(request).document(name_of(request)).version})
