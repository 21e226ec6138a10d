"""Motifs laid on a panel: their outlines from an SVG file, or lifted from the picture of a lace."""

from __future__ import annotations

from typing import Any, Final

import numpy as np
from starlette.requests import Request
from starlette.responses import JSONResponse, Response

from galloon.errors import BadInput, BadValue, Fault, show
from galloon.geometry import Points, ring_crossing
from galloon.materials import Cloth
from galloon.sheets.lace_picture import spans
from galloon.units import format_length
from galloon.web.spots import middle_of
from galloon.web.views.common import Refused, answered, desk_of, name_of, words_of

#: Most motifs of one design, and most outlines lifted from one picture.
_MOST: Final = 40
_LIFTED: Final = 12
#: Smallest motif that is offered, across its longer way, mm.
_LEAST: Final = 8.0


@answered
def add_motif(request: Request, data: dict[str, Any]) -> Response:
    """One more motif in the middle of ``panel``, cut from ``cloth``: the outline of the SVG text ``svg``, or the one at
    the place ``lifted`` among those of the cloth's picture.
    """
    panel, cloth = data.get("panel"), data.get("cloth")
    if panel not in ("front", "back") or not isinstance(cloth, str):
        raise Refused(400, "That is no motif.")
    desk, name = desk_of(request), name_of(request)
    ring = _outline(request, data, cloth)
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


def _outline(request: Request, data: dict[str, Any], cloth: str) -> tuple[tuple[float, float], ...]:
    from galloon.brief.svg_outline import outline_of_svg

    svg, place = data.get("svg"), data.get("lifted")
    if isinstance(svg, str):
        try:
            return outline_of_svg(svg)
        except BadValue as error:
            raise BadInput((Fault("motif", None, "SVG", show(str(error.seen)), error.rule),)) from None
    lifted = _lifted(_cloth(request, cloth))
    if type(place) is not int or not 0 <= place < len(lifted):
        raise Refused(400, "That is no motif.")
    return tuple((round(float(point.real), 2), round(float(point.imag), 2)) for point in lifted[place])


def _cloth(request: Request, name: str) -> Cloth:
    desk = desk_of(request)
    cloth = desk.read(desk.document(name_of(request)).data).design.cloths.get(name)
    if cloth is None:
        raise Refused(404, "There is no such cloth.")
    return cloth


def _lifted(cloth: Cloth) -> list[Points]:
    """Outlines of the solid motifs in a lace's picture (mm, about the middle of each), the largest first."""
    from galloon.reading import outlines_in

    if cloth.picture is None:
        return []
    picture, (length, width) = cloth.picture, spans(cloth)
    thread = np.frombuffer(picture.samples, np.uint8).reshape(picture.rows, picture.columns, 4)[..., 3]
    across, down = length / picture.columns, width / picture.rows
    found = []
    for points in outlines_in(np.ascontiguousarray(thread), across, least=_LEAST):
        ring = points[:, 0] + 1j * points[:, 1] * (down / across)
        middle = complex(ring.real.max() + ring.real.min(), ring.imag.max() + ring.imag.min()) / 2.0
        if ring_crossing(ring) is None:
            found.append(ring - middle)
    return found[:_LIFTED]


@answered
def outlines(request: Request, data: dict[str, Any]) -> Response:
    """The outlines that can be lifted from the picture of ``cloth``: how each is drawn, and how large it is."""
    cloth, words = _cloth(request, str(data.get("cloth", ""))), words_of(request)
    unit = desk_of(request).document(name_of(request)).data.get("units", "cm")
    found = []
    for ring in _lifted(cloth):
        wide, tall = float(np.ptp(ring.real)), float(np.ptp(ring.imag))
        steps = " ".join(f"{point.real:.1f} {-point.imag:.1f}" for point in ring)
        size = words(
            "motif.size", wide=words.said(format_length(wide, unit)), tall=words.said(format_length(tall, unit))
        )
        box = f"{-wide / 2.0 - 1.0:.1f} {-tall / 2.0 - 1.0:.1f} {wide + 2.0:.1f} {tall + 2.0:.1f}"
        found.append({"path": f"M{steps}Z", "box": box, "says": size})
    return JSONResponse({"outlines": found, "says": words("motif.lifted" if found else "motif.none")})
