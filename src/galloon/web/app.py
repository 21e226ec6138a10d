"""The page's routes: each parses, calls, shows."""

from __future__ import annotations

import asyncio
import secrets
from collections.abc import Iterable
from pathlib import Path

from starlette.applications import Starlette
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles
from starlette.types import ASGIApp

from galloon.web import views
from galloon.web.desk import Desk
from galloon.web.guard import Guard
from galloon.web.lock import Lock
from galloon.web.pages import Pages

_HERE = Path(__file__).parent
#: Answers reckoned at the same time; a second thread would only share the first one's turn and slow both.
_AT_ONCE = 1


def build_app(shelf: Path | None = None, *, hosts: Iterable[str], password: str | None = None) -> ASGIApp:
    """The page as an ASGI app for the designs of one shelf, answering to ``hosts`` ("127.0.0.1:8000") only."""
    token = secrets.token_urlsafe(24)
    app = Starlette(routes=_routes())
    pages = Pages(_HERE / "templates", token)
    guard = Guard(Lock(app, password, pages), hosts=hosts, token=token)
    app.state.desk, app.state.guard, app.state.pages = Desk(shelf), guard, pages
    app.state.at_once = asyncio.Semaphore(_AT_ONCE)
    return guard


def _routes() -> list[Route | Mount]:
    design = "/design/{name}"
    return [
        Route("/", views.home),
        Route("/begin", views.begin, methods=["POST"]),
        Route("/language", views.language, methods=["POST"]),
        Route("/read", views.read, methods=["POST"]),
        Route("/picture/{name}.png", views.lace_picture),
        Route(f"{design}/remove", views.remove, methods=["POST"]),
        Route(f"{design}/try", views.try_changes, methods=["POST"]),
        Route(f"{design}/keep", views.keep, methods=["POST"]),
        Route(f"{design}/lace", views.keep_lace, methods=["POST"]),
        Route(f"{design}/motif", views.add_motif, methods=["POST"]),
        Route(f"{design}/outlines", views.outlines, methods=["POST"]),
        Route(f"{design}/undo", views.undo, methods=["POST"]),
        Route(f"{design}/redo", views.redo, methods=["POST"]),
        Route(f"{design}/mends", views.mends_for, methods=["POST"]),
        Route(f"{design}/place", views.place_again, methods=["POST"]),
        Route(f"{design}/shelve", views.shelve, methods=["POST"]),
        Route(f"{design}/version", views.version),
        Route(f"{design}/garment.svg", views.garment_card),
        Route(f"{design}/lace.svg", views.lace_drawing),
        Route(f"{design}/longer", views.longer),
        Route(f"{design}/look", views.look),
        Route(f"{design}/stop", views.stop, methods=["POST"]),
        Route(f"{design}/adopt", views.adopt, methods=["POST"]),
        Route(f"{design}/brief.toml", views.brief_file),
        Route(f"{design}/files/{{paper}}/{{file}}", views.file),
        Route(f"{design}/{{step}}", views.step),
        Mount("/static", StaticFiles(directory=_HERE / "static")),
    ]
