"""What every request must pass: its host, its origin, its size, its token; and what every answer must forbid."""

from __future__ import annotations

import secrets
from collections.abc import Iterable
from contextlib import suppress
from typing import Final

from starlette.types import ASGIApp, Message, Receive, Scope, Send

#: Largest body of a request, bytes; of an upload of a picture.
MOST_BODY: Final = 256 * 1024
MOST_PICTURE: Final = 40 * 1024 * 1024

_POLICY: Final = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob:; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
_HEADERS: Final = (
    (b"content-security-policy", _POLICY.encode()),
    (b"x-content-type-options", b"nosniff"),
    (b"referrer-policy", b"same-origin"),
    (b"cross-origin-opener-policy", b"same-origin"),
    (b"cross-origin-resource-policy", b"same-origin"),
    (b"permissions-policy", b"camera=(), microphone=(), geolocation=(), payment=()"),
)


class TooLarge(Exception):
    """A body that grew over its limit while it was read."""


class Guard:
    """ASGI middleware. ``hosts`` are the names this page answers to, with their port."""

    def __init__(self, app: ASGIApp, *, hosts: Iterable[str], token: str) -> None:
        self._app, self._token = app, token
        self._hosts = frozenset(hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Lets a request through, or refuses it."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        refused = self._refused(scope)
        if refused is not None:
            await _refuse(send, *refused)
            return
        limit = MOST_PICTURE if scope["path"] == "/read" else MOST_BODY

        async def bounded() -> Message:
            nonlocal limit
            message = await receive()
            limit -= len(message.get("body", b""))
            if limit < 0:
                raise TooLarge
            return message

        async def closed(message: Message) -> None:
            if message["type"] == "http.response.start":
                message["headers"] = [*message.get("headers", ()), *_HEADERS]
                if limit < 0:
                    message["status"] = 413
            await send(message)

        with suppress(TooLarge):
            await self._app(scope, bounded, closed)

    def _refused(self, scope: Scope) -> tuple[int, str] | None:
        headers = {key.lower(): value for key, value in scope["headers"]}
        if headers.get(b"host", b"").decode("latin-1") not in self._hosts:
            return 421, "This page answers on its own address only."
        length = headers.get(b"content-length", b"0")
        most = MOST_PICTURE if scope["path"] == "/read" else MOST_BODY
        if not length.isdigit() or len(length) > 12 or int(length) > most:
            return 413, "That is too large."
        origin = headers.get(b"origin")
        if origin is not None and origin.decode("latin-1").partition("://")[2] not in self._hosts:
            return 403, "That came from another page."
        if headers.get(b"sec-fetch-site", b"same-origin") not in (b"same-origin", b"none"):
            return 403, "That came from another page."
        return None

    def holds(self, given: str | None) -> bool:
        """Whether a token is this program's own."""
        return given is not None and secrets.compare_digest(given.encode(), self._token.encode())


async def _refuse(send: Send, status: int, text: str) -> None:
    body = text.encode()
    headers = [(b"content-type", b"text/plain; charset=utf-8"), (b"content-length", str(len(body)).encode()), *_HEADERS]
    await send({"type": "http.response.start", "status": status, "headers": headers})
    await send({"type": "http.response.body", "body": body})
