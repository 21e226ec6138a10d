"""The steps of one design as pages."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from starlette.requests import Request
from starlette.responses import Response

from galloon.brief import Brief
from galloon.design import SHAPES, Coverage, LaceUse, Use
from galloon.errors import BadInput, CannotMake
from galloon.units import MM_PER
from galloon.web.adapt import CHOICES
from galloon.web.answer import answer, faults, picked, why
from galloon.web.desk import Document
from galloon.web.edge_finishes import OPEN_SIDE, ZONES, choices, chosen
from galloon.web.figure import figure, lace_strip, stretch_picture
from galloon.web.pages import STEPS
from galloon.web.plan_drawing import told_plan
from galloon.web.sheet import draw_sheet, lay_sheet
from galloon.web.views.common import Refused, desk_of, name_of, pages_of, shown, words_of
from galloon.web.views.designs import address
from galloon.web.words import Words
from galloon.workflow.job import reckon_design

#: The measurements in the order they are taken; those that may be left out.
MEASURES: Final = ("waist", "top_hip", "hip", "thigh", "height", "waist_to_hip", "crotch_length")
#: What is changed in the brief to sew the sides up or to open them.
_SIDES: Final = {
    "sewn": [[["open_side"], None], [["finish", "side"], None]],
    "open": [[["open_side"], {"gap": "80 mm"}]],
}
#: What is asked of a cloth, by whether it is a lace.
LACE_FIELDS: Final = (
    "width", "scallop_pitch", "scallop_depth", "repeat",
    "stretch_length", "stretch_width", "recovery", "on_hand", "price",
)  # fmt: skip
CLOTH_FIELDS: Final = ("width", "stretch_length", "stretch_width", "recovery", "opacity", "on_hand", "price")
PANELS: Final = ("front", "back", "gusset", "gusset_lining", "front_lining", "back_lining", "upper_back")
PAPERS: Final = (("a4", "A4"), ("letter", "Letter"), ("a3", "A3"), ("a0", "A0"))

Shown = Callable[[Document, Brief, Words, Request], dict[str, Any]]


def _measure(document: Document, brief: Brief, words: Words, request: Request) -> dict[str, Any]:
    wearer = document.data.get("wearer", {})
    figures = {key: figure(key, words("figure.alt", what=words(f"measure.{key}"))) for key in MEASURES}
    odd = {one.about.removeprefix("wearer "): words.said(one.says) for one in brief.findings}
    shelf = [name for name, _ in desk_of(request).things("wearer")]
    whole = wearer if isinstance(wearer, Mapping) else {}
    return {"measures": MEASURES, "wearer": whole, "figures": figures, "odd": odd, "shelf": shelf}


def _points(use: LaceUse, unit: str) -> str | None:
    """An overlay's corners one on a line, as they are typed; None for any other use and for one bounded otherwise."""
    if use.use is not Use.OVERLAY or not use.corners:
        return None
    return "\n".join("  ".join(f"{round(part / MM_PER[unit], 3):g}" for part in corner) for corner in use.corners)


def _edges(document: Document, laces: list[str], shelf: list[str], words: Words) -> dict[str, Any]:
    """Every edge's finish, and what there is to choose from."""
    own = document.data.get("elastic", {})
    among = choices(list(own) if isinstance(own, Mapping) else [], shelf, laces, words)
    said = document.data.get("finish", {})
    zones = (*ZONES, OPEN_SIDE) if "open_side" in document.data else ZONES
    return {"finishes": among, "edges": [(zone, *chosen(said.get(zone), among)) for zone in zones]}


def _cloth(document: Document, brief: Brief, words: Words, request: Request) -> dict[str, Any]:
    cloths = document.data.get("cloth", {})
    strips = {name: lace_strip(cloth, words("lace.alt", name=name)) for name, cloth in brief.design.cloths.items()}
    tables = {name: table for name, table in cloths.items() if isinstance(table, Mapping)}
    uses = [use for use in document.data.get("lace", []) if isinstance(use, Mapping)]
    laces = [name for name, cloth in brief.design.cloths.items() if cloth.lace is not None]
    elastics = [name for name, _ in desk_of(request).things("elastic")]
    return {
        "cloths": tables,
        "laces": laces,
        "pictured": any(cloth.picture is not None for cloth in brief.design.cloths.values()),
        **_edges(document, laces, elastics, words),
        "motifs": [{"panel": "front", "turn": "", "mirrored": False, **one} for one in document.data.get("motif", [])],
        "corners": [_points(use, brief.design.units) for use in brief.design.lace],
        "uses": uses,
        "choices": list(CHOICES),
        "needed": {
            str(name) for name in (*document.data.get("panels", {}).values(), *(use.get("cloth") for use in uses))
        },
        "strips": strips,
        "fields": {True: LACE_FIELDS, False: CLOTH_FIELDS},
        "panels": PANELS,
        "chosen": document.data.get("panels", {}),
        "shelf": [name for name, _ in desk_of(request).things("cloth")],
        "stretch": stretch_picture(words("cloth.stretch")),
        "script": {**words.all("read."), **words.all("cloth.s"), **words.all("cloth.w"), **words.all("cloth.r")},
    }


def _table(document: Document, brief: Brief, words: Words, request: Request) -> dict[str, Any]:
    try:
        said = answer(desk_of(request).garment(document.name), brief, words)
    except CannotMake as error:
        said = {"box": "0 0 100 60", "drawing": "", "handles": [], "figures": [], "says": [], "verdict": "fail"}
        said |= faults(error, words)
    return {
        "said": said,
        "shapes": [shape.value for shape in SHAPES],
        "coverages": [one.value for one in Coverage],
        "sides": _SIDES,
        "picked": picked(brief.design),
        "script": {**words.all("mend."), **words.all("table."), **words.all("app."), **words.all("status.")},
    }


def _cutting(document: Document, brief: Brief, words: Words, request: Request) -> dict[str, Any]:
    made = reckon_design(brief.design, brief.findings)
    plans = [told_plan(brief.design.cloths[row.cloth], row.plan, brief.design.units, words) for row in made.cutting]
    return {"plans": plans, "script": words.all("cutting.")}


def _sewing(document: Document, brief: Brief, words: Words, request: Request) -> dict[str, Any]:
    return {"sewing": reckon_design(brief.design, brief.findings).sewing}


def _take(document: Document, brief: Brief, words: Words, request: Request) -> dict[str, Any]:
    return {"papers": PAPERS}


def _projector(document: Document, brief: Brief, words: Words, request: Request) -> dict[str, Any]:
    garment = desk_of(request).garment(document.name)
    sheet = lay_sheet(garment)
    return {"box": sheet.view_box, "drawing": draw_sheet(garment, sheet, words)}


def _ideas(document: Document, brief: Brief, words: Words, request: Request) -> dict[str, Any]:
    return {"script": words.all("ideas.")}


_SHOWN: Final[Mapping[str, Shown]] = {
    "measure": _measure,
    "cloth": _cloth,
    "table": _table,
    "ideas": _ideas,
    "cutting": _cutting,
    "sewing": _sewing,
    "take": _take,
    "projector": _projector,
}


@shown
def step(request: Request) -> Response:
    """One step of a design."""
    name, which = name_of(request), str(request.path_params["step"])
    if which not in _SHOWN:
        raise Refused(404, "There is no such page.")
    desk, words = desk_of(request), words_of(request)
    document = desk.document(name)
    try:
        brief = desk.read(document.data)
        values = _SHOWN[which](document, brief, words, request)
    except (BadInput, CannotMake) as error:
        return pages_of(request).show(request, "fault.html", status=422, said=why(error, words))
    common = {
        "name": name,
        "step": which,
        "title": document.data.get("title") or name,
        "units": document.data.get("units", "cm"),
        "base": address(name, "").rstrip("/"),
        "version": document.version,
        "undos": len(document.past),
        "redos": len(document.future),
    }
    assert which in STEPS or which == "projector"
    return pages_of(request).show(request, f"{which}.html", **common, **values)
