"""A lace measured from a picture dropped on the page; the picture is looked at and thrown away."""

from __future__ import annotations

import base64
import io
import tempfile
from pathlib import Path
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response

from galloon.errors import BadInput
from galloon.web.answer import faults
from galloon.web.views.common import words_of


async def read(request: Request) -> Response:
    """The lace in the body of the request, a picture; ``dpi`` in the query, or none for a photo with a card."""
    if not request.app.state.guard.holds(request.headers.get("x-galloon-token")):
        return PlainTextResponse("That came from another page.", 403)
    asked = request.query_params.get("dpi", "").strip()
    if asked and not (asked.isdigit() and 20 <= int(asked) <= 4800):
        return PlainTextResponse("dpi must be a whole number from 20 to 4800.", 400)
    data = await request.body()
    try:
        return JSONResponse(await run_in_threadpool(_read, data, int(asked) if asked else None))
    except BadInput as error:
        return JSONResponse(faults(error, words_of(request)), 422)


def _read(data: bytes, dpi: int | None) -> dict[str, Any]:
    from PIL import Image

    from galloon.reading import as_json, load_picture, overlay, read_lace

    with tempfile.NamedTemporaryFile(prefix="galloon-", suffix=".picture") as kept:
        kept.write(data)
        kept.flush()
        picture = load_picture(Path(kept.name))
    scale = None if dpi is None else picture.mm_per_px(dpi)
    found = read_lace(picture.pixels, mm_per_px=scale, card=dpi is None, name="picture")
    drawn = io.BytesIO()
    Image.fromarray(overlay(picture.pixels, found, 900)).save(drawn, "PNG")
    shown = base64.b64encode(drawn.getvalue()).decode()
    return {"lace": as_json(found), "picture": shown}
