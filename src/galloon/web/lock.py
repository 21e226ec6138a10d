"""A password before everything, for a page that is offered on a network."""

from __future__ import annotations

import secrets
import time
from typing import Final

from starlette.requests import Request
from starlette.responses import RedirectResponse, Response
from starlette.types import ASGIApp, Receive, Scope, Send

from galloon.web.pages import Pages

_COOKIE: Final = "galloon_pass"
#: Least time between two guesses, s.
_BETWEEN: Final = 0.5


class Lock:
    """ASGI middleware: lets everything through where there is no password, else only who has given it."""

    def __init__(self, app: ASGIApp, password: str | None, pages: Pages) -> None:
        self._app, self._password, self._pages = app, password, pages
        self._key = secrets.token_urlsafe(32)
        self._last = -_BETWEEN

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Lets a request through, or asks for the password."""
        if self._password is None or scope["type"] != "http" or scope["path"].startswith("/static/"):
            await self._app(scope, receive, send)
            return
        request = Request(scope, receive)
        if secrets.compare_digest(request.cookies.get(_COOKIE, "").encode(), self._key.encode()):
            await self._app(scope, receive, send)
            return
        answer = await self._ask(request)
        await answer(scope, receive, send)

    async def _ask(self, request: Request) -> Response:
        """The question, or the way on; guesses that follow one another too fast are not looked at."""
        guessed = request.method == "POST" and request.url.path == "/password"
        if guessed and await self._right(request):
            answer = RedirectResponse("/", 303)
            answer.set_cookie(_COOKIE, self._key, httponly=True, samesite="strict")
            return answer
        return self._pages.show(request, "password.html", status=401, wrong=guessed)

    async def _right(self, request: Request) -> bool:
        form = await request.form(max_fields=4)
        last, self._last = self._last, time.monotonic()
        given = str(form.get("password", "")).encode()
        return self._last - last >= _BETWEEN and secrets.compare_digest(given, str(self._password).encode())
