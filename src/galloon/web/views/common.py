"""What every handler needs: the desk, the words, the checked body of a request, an answer for what went wrong."""

from __future__ import annotations

import json
from collections.abc import Awaitable, Callable
from typing import Any, Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response

from galloon.errors import BadInput, BadValue, CannotMake, CannotWrite
from galloon.web.answer import faults, why
from galloon.web.desk import Change, Desk
from galloon.web.pages import Pages
from galloon.web.words import Words

#: Most changes in one request, deepest path, longest text and list of a value.
_MOST: Final = 200
_DEEPEST: Final = 6
_LONGEST: Final = 4000

Handler = Callable[[Request], Awaitable[Response]]


class Refused(Exception):
    """A request that is not one of this page's own; ``status`` is what it is answered with."""

    def __init__(self, status: int, text: str) -> None:
        self.status, self.text = status, text
        super().__init__(text)


def desk_of(request: Request) -> Desk:
    """The designs."""
    desk: Desk = request.app.state.desk
    return desk


def pages_of(request: Request) -> Pages:
    """The templates."""
    pages: Pages = request.app.state.pages
    return pages


def words_of(request: Request) -> Words:
    """The words for whoever asks."""
    return pages_of(request).words(request)


def name_of(request: Request) -> str:
    """The design a request is about."""
    return str(request.path_params["name"]).replace("%2F", "/").replace("%25", "%")


async def body_of(request: Request) -> dict[str, Any]:
    """The JSON of a request that carries this program's token. Raises Refused."""
    if not request.app.state.guard.holds(request.headers.get("x-galloon-token")):
        raise Refused(403, "That came from another page.")
    try:
        data = json.loads(await request.body() or b"{}")
    except (ValueError, RecursionError) as error:
        raise Refused(400, "That is not JSON.") from error
    if not isinstance(data, dict):
        raise Refused(400, "That is not what was expected.")
    return data


def changes_of(data: dict[str, Any]) -> list[Change]:
    """The checked changes of a request. Raises Refused."""
    given = data.get("changes", [])
    if not isinstance(given, list) or len(given) > _MOST:
        raise Refused(400, "Those are no changes.")
    found: list[Change] = []
    for one in given:
        if not isinstance(one, list) or len(one) != 2 or not _is_path(one[0]) or not _is_value(one[1], 0):
            raise Refused(400, "That is no change.")
        found.append((tuple(one[0]), one[1]))
    return found


def _is_path(path: Any) -> bool:
    return (
        isinstance(path, list)
        and 1 <= len(path) <= _DEEPEST
        and isinstance(path[0], str)
        and all((isinstance(key, str) and len(key) <= 200) or (type(key) is int and 0 <= key < 100) for key in path)
    )


def _is_value(value: Any, depth: int) -> bool:
    if isinstance(value, str):
        return len(value) <= _LONGEST
    if isinstance(value, dict):
        return depth < _DEEPEST and len(value) <= _MOST and all(_is_value(one, depth + 1) for one in value.values())
    if isinstance(value, list):
        return depth < _DEEPEST and len(value) <= _LONGEST and all(_is_value(one, depth + 1) for one in value)
    return value is None or isinstance(value, bool | int | float)


def answered(work: Callable[[Request, dict[str, Any]], Response]) -> Handler:
    """A handler of JSON requests whose ``work`` runs beside the loop; what goes wrong becomes an answer."""

    async def handler(request: Request) -> Response:
        try:
            data = await body_of(request)
            async with request.app.state.at_once:
                return await run_in_threadpool(work, request, data)
        except Refused as refused:
            return PlainTextResponse(refused.text, refused.status)
        except (BadInput, CannotMake) as error:
            return JSONResponse(faults(error, words_of(request)), 422)
        except (BadValue, IndexError, TypeError, KeyError, ValueError):
            return PlainTextResponse("That change does not fit this design.", 400)
        except CannotWrite as error:
            return PlainTextResponse(str(error), 507)

    return handler


def shown(work: Callable[[Request], Response]) -> Handler:
    """A handler of pages and files whose ``work`` runs beside the loop."""

    async def handler(request: Request) -> Response:
        try:
            return await run_in_threadpool(work, request)
        except Refused as refused:
            return PlainTextResponse(refused.text, refused.status)
        except (BadInput, CannotMake) as error:
            return pages_of(request).show(request, "fault.html", status=404, said=why(error, words_of(request)))

    return handler


async def form_of(request: Request) -> dict[str, str]:
    """The fields of a form that carries this program's token. Raises Refused."""
    form = await request.form(max_fields=40, max_files=0)
    fields = {key: value for key, value in form.items() if isinstance(value, str)}
    if not request.app.state.guard.holds(fields.get("token")):
        raise Refused(403, "That came from another page.")
    return fields
