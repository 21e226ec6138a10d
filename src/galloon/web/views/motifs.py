"""A motif's outline from an SVG file, put on a panel of the design."""

from __future__ import annotations

from typing import Any, Final

from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from galloon.errors import BadInput, BadValue, Fault, show
from galloon.web.spots import middle_of
from galloon.web.views.common import Refused, answered, desk_of, name_of

#: Most motifs of one design.
_MOST: Final = 40


@answered
def add_motif(request: Request, data: dict[str, Any]) -> Response:
    """One more motif with the outline of the SVG text ``svg``, in the middle of ``panel``, cut from ``cloth``."""
    svg, panel, cloth = data.get("svg"), data.get("panel"), data.get("cloth")
    if not isinstance(svg, str) or panel not in ("front", "back") or not isinstance(cloth, str):
        raise Refused(400, "That is no motif.")
    from galloon.brief.svg_outline import outline_of_svg

    desk, name = desk_of(request), name_of(request)
    try:
        ring = outline_of_svg(svg)
    except BadValue as error:
        raise BadInput((Fault("motif", None, "SVG", show(str(error.seen)), error.rule),)) from None
    kept = desk.document(name).data.get("motif", [])
    if len(kept) >= _MOST:
        raise BadInput((Fault("motif", None, "motif", "", f"a design has at most {_MOST} motifs"),))
    motif: dict[str, Any] = {"outline": [[f"{x:g} mm", f"{y:g} mm"] for x, y in ring], "panel": panel}
    motif |= {"cloth": cloth} if cloth else {}
    middle = middle_of(desk.garment(name), panel)
    if middle is not None:
        motif["at"] = [f"{middle.real:.1f} mm", f"{min(0.0, middle.imag):.1f} mm"]
    document = desk.keep(name, [(("motif", len(kept)), motif)])
    return JSONResponse({"version": document.version})
