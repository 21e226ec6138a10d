"""A lace measured from a picture dropped on the page; what was found is corrected there and kept with one repeat."""

from __future__ import annotations

import base64
import io
import math
import tempfile
from collections.abc import Mapping
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import JSONResponse, PlainTextResponse, Response

from galloon.errors import BadInput, BadValue
from galloon.web.answer import faults
from galloon.web.views.common import Refused, answered, changes_of, desk_of, name_of, shown, words_of
from galloon.web.words import Words

if TYPE_CHECKING:
    from galloon.reading import LaceReading, LevelView
    from galloon.reading.arrays import Bytes

#: Longer side of the pictures that are shown, px, and how well they are kept.
_SHOWN, _LEVEL, _QUALITY = 900, 1400, 86
#: Stretch of a lace, percent, that no picture tells, until she has measured it.
_STRETCH: Final = {"stretch_length": 40, "stretch_width": 15}
#: What of a lace already there a new reading takes away where it does not find it again.
_MEASURED: Final = (
    "edges", "width", "scallop_pitch", "scallop_depth", "second_pitch", "second_depth", "repeat", "second_edge",
    "half_turn", "mirror_across", "openness", "picture",
)  # fmt: skip


async def read(request: Request) -> Response:
    """The lace in the body of the request, a picture. Its scale comes from ``dpi`` in the query, or the ``card`` there,
    else from the file; where none says it, the answer asks.
    """
    if not request.app.state.guard.holds(request.headers.get("x-galloon-token")):
        return PlainTextResponse("That came from another page.", 403)
    asked = request.query_params.get("dpi", "").strip()
    if asked and not (asked.isdigit() and 20 <= int(asked) <= 4800):
        return PlainTextResponse("dpi must be a whole number from 20 to 4800.", 400)
    card = request.query_params.get("card") == "1"
    data = await request.body()
    try:
        return JSONResponse(await run_in_threadpool(_read, request, data, int(asked) if asked else None, card))
    except BadInput as error:
        return JSONResponse(faults(error, words_of(request)), 422)


def _read(request: Request, data: bytes, dpi: float | None, card: bool) -> dict[str, Any]:
    from galloon.reading import as_json, load_picture, overlay, read_lace

    words = words_of(request)
    with tempfile.NamedTemporaryFile(prefix="galloon-", suffix=".picture") as kept:
        kept.write(data)
        kept.flush()
        picture = load_picture(Path(kept.name))
    said = dpi if dpi is not None else picture.dpi
    if not card and said is None:
        return {"ask": words("read.ask")}
    scale = None if card or said is None else picture.mm_per_px(said)
    found = read_lace(picture.pixels, mm_per_px=scale, card=card, name="picture", level=True)
    drawn = io.BytesIO()
    _image(overlay(picture.pixels, found, _SHOWN)).save(drawn, "PNG")
    return {
        "lace": {
            **as_json(found),
            "warnings": [{"name": one.name, "says": words.said(one.says)} for one in found.warnings],
        },
        "scale": _scale(words, card, dpi, said),
        "picture": base64.b64encode(drawn.getvalue()).decode(),
        **_level(request, found),
    }


def _scale(words: Words, card: bool, typed: float | None, said: float | None) -> str:
    if card:
        return words("read.scale.card")
    return words("read.scale.typed" if typed is not None else "read.scale.file", dpi=f"{said:g}")


def _level(request: Request, found: LaceReading) -> dict[str, Any]:
    """The straightened lace and where things lie in it (mm); it is held here until it is kept."""
    view = found.level
    if view is None:
        return {}
    shown_view = io.BytesIO()
    image = _image(view.pixels)
    image.thumbnail((_LEVEL, _LEVEL))
    image.save(shown_view, "JPEG", quality=_QUALITY)
    wide, tall = view.size
    places = {key: round(getattr(view, key), 3) for key in ("top", "low", "top_depth", "low_depth", "start")}
    level = {**places, "first": view.first, "wide": round(wide, 3), "tall": round(tall, 3)}
    image_text = base64.b64encode(shown_view.getvalue()).decode()
    return {"level": {**level, "image": image_text}, "reading": desk_of(request).hold(view)}


def _image(pixels: Bytes) -> Any:
    from PIL import Image

    return Image.fromarray(pixels)


@answered
def keep_lace(request: Request, data: dict[str, Any]) -> Response:
    """Keeps a lace that was read: the one change of its table, with the repeat in ``box`` (mm) of its ``reading``.

    Of a lace that is there already, only what was measured changes.
    """
    desk, name = desk_of(request), name_of(request)
    changes = changes_of(data)
    if len(changes) != 1 or len(changes[0][0]) != 2 or changes[0][0][0] != "cloth" or type(changes[0][1]) is not dict:
        raise Refused(400, "That is no lace.")
    path, table = changes[0]
    picture = _picture(desk.held(data.get("reading")), data.get("box"))
    if picture is not None:
        table = {**table, "picture": desk.put_picture(picture)}
    known = desk.document(name).data.get("cloth", {}).get(path[1])
    rest = {key: value for key, value in known.items() if key not in _MEASURED} if isinstance(known, Mapping) else {}
    document = desk.keep(name, [(path, {**_STRETCH, **rest, **table})])
    said = words_of(request)("read.kept" if picture is not None else "read.kept.bare")
    return JSONResponse({"version": document.version, "says": said})


def _picture(view: LevelView | None, box: Any) -> Any:
    """One repeat as it is kept; None where the view is gone or the box does not fit it."""
    from galloon.brief import picture_from
    from galloon.reading import one_repeat

    if view is None or not isinstance(box, list) or len(box) != 4:
        return None
    if not all(isinstance(one, int | float) and math.isfinite(one) for one in box):
        raise Refused(400, "That is no place.")
    try:
        return picture_from(one_repeat(view, (box[0], box[1], box[2], box[3])))
    except BadValue:
        return None


@shown
def lace_picture(request: Request) -> Response:
    """The picture of a lace; its name follows from what it shows, so that it never changes."""
    png = desk_of(request).picture(str(request.path_params["name"]))
    if png is None:
        raise Refused(404, "There is no such picture.")
    return Response(png, media_type="image/png", headers={"cache-control": "private, max-age=31536000, immutable"})
