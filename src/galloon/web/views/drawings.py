"""Drawings of their own: the finished garment, one lace."""

from __future__ import annotations

from starlette.requests import Request
from starlette.responses import Response

from galloon.export import to_svg
from galloon.sheets import garment_views
from galloon.web.figure import lace_strip
from galloon.web.views.common import Refused, desk_of, name_of, shown, words_of

_FRESH = {"cache-control": "no-store"}


@shown
def garment_card(request: Request) -> Response:
    """Front and back of the finished garment."""
    desk = desk_of(request)
    garment = desk.garment(name_of(request))
    svg = to_svg(garment_views(garment, words=False).pages[0], title=garment.design.title)
    return Response(svg, media_type="image/svg+xml", headers=_FRESH)


@shown
def lace_drawing(request: Request) -> Response:
    """One cloth of a design as a strip."""
    desk, name = desk_of(request), request.query_params.get("cloth", "")
    cloth = desk.read(desk.document(name_of(request)).data).design.cloths.get(name)
    if cloth is None:
        raise Refused(404, "There is no such cloth.")
    svg = lace_strip(cloth, words_of(request)("lace.alt", name=name))
    return Response(svg, media_type="image/svg+xml", headers=_FRESH)
