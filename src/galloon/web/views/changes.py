"""Changes of a design: tried while a handle moves, kept when it is let go, undone and redone."""

from __future__ import annotations

import math
from typing import Any, Final

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from galloon.errors import CannotMake
from galloon.web.adapt import renamed, with_what_follows
from galloon.web.answer import answer, faults
from galloon.web.desk import Change, Data, Document, changed
from galloon.web.handles import move, placed_again
from galloon.web.mends import mends
from galloon.web.spots import moved_spot
from galloon.web.views.common import Refused, answered, changes_of, desk_of, name_of, shown, words_of
from galloon.workflow.reckon import make_garment

#: Longest name of a cloth, letters.
_NAME: Final = 60


def _asked(request: Request, data: dict[str, Any]) -> list[Change]:
    """The changes a request asks for: as it says, and those that bring its handle to where it was moved."""
    desk, name = desk_of(request), name_of(request)
    kept = desk.document(name).data
    changes = with_what_follows(kept, changes_of(data))
    changes += _renaming(kept, data.get("rename"))
    key, value = data.get("handle"), data.get("to")
    if key is None:
        return changes
    if isinstance(key, str) and isinstance(value, int | float):
        uses = desk.read(kept).design.lace
        return [*changes, *move(desk.garment(name), uses, key, float(value))]
    if isinstance(key, str) and isinstance(value, list) and len(value) == 2 and all(map(_is_place, value)):
        return [*changes, *moved_spot(desk.garment(name), desk.read(kept), key, complex(*value))]
    raise Refused(400, "That is no move.")


def _is_place(value: Any) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)


def _renaming(kept: Data, asked: Any) -> list[Change]:
    """The changes of a cloth's new name, asked for as [old, new]."""
    if asked is None:
        return []
    if not isinstance(asked, list) or [type(one) for one in asked] != [str, str] or len(asked[1]) > _NAME:
        raise Refused(400, "That is no name.")
    return renamed(kept, *asked)


def _answer(request: Request, document: Document, tried: Data | None = None) -> JSONResponse:
    """The answer to a design as it is kept, or to data that are only ``tried``."""
    desk = desk_of(request)
    words = words_of(request)
    brief = desk.read(document.data if tried is None else tried)
    try:
        garment = desk.garment(document.name) if tried is None else make_garment(brief.design)
        said = answer(garment, brief, words)
    except CannotMake as error:
        if tried is not None:
            raise
        said = faults(error, words)
    return JSONResponse({"version": document.version, "undo": len(document.past), "redo": len(document.future), **said})


@answered
def try_changes(request: Request, data: dict[str, Any]) -> Response:
    """The answer to a design with changes that are not kept."""
    desk, name = desk_of(request), name_of(request)
    document = desk.document(name)
    return _answer(request, document, changed(document.data, _asked(request, data)))


@answered
def keep(request: Request, data: dict[str, Any]) -> Response:
    """The answer to a design whose changes are kept. A handle stays where no pattern can be made beyond it."""
    desk, name = desk_of(request), name_of(request)
    changes = _asked(request, data)
    if "handle" in data:
        make_garment(desk.read(desk.tried(name, changes)).design)
    document = desk.keep(name, changes)
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
