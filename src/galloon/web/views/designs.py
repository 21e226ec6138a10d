"""The first page: the designs on the shelf, beginning one, taking one away, the language."""

from __future__ import annotations

from urllib.parse import quote

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import PlainTextResponse, RedirectResponse, Response

from galloon.errors import BadInput
from galloon.web.answer import why
from galloon.web.views.common import Refused, desk_of, form_of, name_of, pages_of, shown, words_of
from galloon.web.words import LANGUAGES


def address(name: str, step: str) -> str:
    """The address of one step of a design; a slash in its name is written so that it is no part of the path."""
    whole = name.replace("%", "%25").replace("/", "%2F")
    return f"/design/{quote(whole, safe='')}/{step}"


@shown
def home(request: Request) -> Response:
    """The designs on the shelf."""
    return pages_of(request).show(request, "home.html", names=desk_of(request).names(), address=address, said="")


async def begin(request: Request) -> Response:
    """A new design under the name given, from the starter brief."""
    try:
        name = (await form_of(request)).get("name", "").strip()
        await run_in_threadpool(desk_of(request).start, name)
    except Refused as refused:
        return PlainTextResponse(refused.text, refused.status)
    except BadInput as error:
        names = desk_of(request).names()
        said = why(error, words_of(request))
        return pages_of(request).show(request, "home.html", status=422, names=names, address=address, said=said)
    return RedirectResponse(address(name, "measure"), 303)


async def remove(request: Request) -> Response:
    """Takes a design off the shelf."""
    try:
        await form_of(request)
        await run_in_threadpool(desk_of(request).forget, name_of(request))
    except Refused as refused:
        return PlainTextResponse(refused.text, refused.status)
    except BadInput as error:
        return PlainTextResponse(why(error, words_of(request)), 404)
    return RedirectResponse("/", 303)


async def language(request: Request) -> Response:
    """Keeps the language chosen."""
    try:
        fields = await form_of(request)
    except Refused as refused:
        return PlainTextResponse(refused.text, refused.status)
    back = fields.get("back", "/")
    answer = RedirectResponse(
        back if back.startswith("/") and not back.startswith("//") and "\\" not in back else "/", 303
    )
    if fields.get("language") in LANGUAGES:
        answer.set_cookie("language", fields["language"], max_age=31_536_000, samesite="strict", httponly=True)
    return answer
