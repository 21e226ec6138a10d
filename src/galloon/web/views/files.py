"""What can be taken away: the files of the pattern and the brief."""

from __future__ import annotations

from typing import Final

from starlette.requests import Request
from starlette.responses import Response

from galloon.brief import dump_brief
from galloon.web.views.common import Refused, desk_of, name_of, shown
from galloon.workflow.job import make_files, reckon_design

_TYPES: Final = {
    "pattern.pdf": "application/pdf",
    "pattern-full.pdf": "application/pdf",
    "guide.pdf": "application/pdf",
    "pattern.svg": "image/svg+xml",
    "pattern.dxf": "image/vnd.dxf",
    "report.json": "application/json",
}
_PAPERS: Final = ("a4", "letter", "a3", "a0")


@shown
def file(request: Request) -> Response:
    """One file of the pattern for one paper."""
    paper, name = request.path_params["paper"], request.path_params["file"]
    if paper not in _PAPERS or name not in _TYPES:
        raise Refused(404, "There is no such file.")
    desk = desk_of(request)
    brief = desk.read(desk.document(name_of(request)).data)
    data = make_files(reckon_design(brief.design, brief.findings), paper)[name]
    return Response(data, media_type=_TYPES[name], headers=_as(name))


@shown
def brief_file(request: Request) -> Response:
    """The brief as a maker may edit it."""
    text = dump_brief(desk_of(request).document(name_of(request)).data)
    return Response(text, media_type="text/plain; charset=utf-8", headers=_as("brief.toml"))


def _as(name: str) -> dict[str, str]:
    return {"content-disposition": f'attachment; filename="{name}"', "cache-control": "no-store"}
