"""Pages from templates: escaped by default, in the language of whoever asks."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Final

from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.requests import Request
from starlette.responses import HTMLResponse

from galloon.web.words import LANGUAGES, Words, chosen

#: The steps of one design in the order a maker goes through them.
STEPS: Final = ("measure", "cloth", "table", "ideas", "cutting", "sewing", "take")


class Pages:
    """Renders templates; ``token`` goes into every page for its forms and scripts."""

    def __init__(self, folder: Path, token: str) -> None:
        self._token = token
        self._jinja = Environment(
            loader=FileSystemLoader(folder), autoescape=True, undefined=StrictUndefined, trim_blocks=True,
            lstrip_blocks=True,
        )  # fmt: skip

    def words(self, request: Request) -> Words:
        """The words for whoever asks."""
        return Words(chosen(request.cookies.get("language", ""), request.headers.get("accept-language", "")))

    def show(self, request: Request, template: str, *, status: int = 200, **values: Any) -> HTMLResponse:
        """A template filled in."""
        words = self.words(request)
        text = self._jinja.get_template(template).render(
            t=words, token=self._token, languages=LANGUAGES, steps=STEPS, path=request.url.path, **values
        )
        return HTMLResponse(text, status, headers={"cache-control": "no-store"})
