"""A brief's text to the design it describes, or all that is wrong with it at once."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Final

from galloon.brief.build_materials import findings_on_cloth
from galloon.brief.build_wearer import findings_on
from galloon.brief.faults import Faults
from galloon.brief.lace_picture import build_picture, lost_pictures
from galloon.brief.model import Brief, Lookup, PictureFile, SvgOutline
from galloon.brief.parse import parse_toml
from galloon.design import Design
from galloon.errors import BadInput
from galloon.findings import Finding
from galloon.said import said

UNITS: Final = ("mm", "cm", "in")


def read_brief(
    text: str,
    *,
    file: str,
    shelf: Lookup | None = None,
    svg: SvgOutline | None = None,
    picture: PictureFile | None = None,
) -> Brief:
    """The brief in ``text``; ``file`` is its name in messages.

    ``shelf`` answers for things that the brief names instead of spelling out, ``svg`` reads motif files, ``picture``
    picture files. Raises BadInput with every fault found.
    """
    return brief_from(parse_toml(text, file), text=text, file=file, shelf=shelf, svg=svg, picture=picture)


def brief_from(
    data: Mapping[str, Any],
    *,
    file: str,
    text: str = "",
    shelf: Lookup | None = None,
    svg: SvgOutline | None = None,
    picture: PictureFile | None = None,
) -> Brief:
    """The brief whose plain data is ``data``; as ``read_brief``, without lines where there is no ``text``."""
    # Only reading a brief needs pydantic, which takes longer to import than the rest of the program.
    from galloon.brief import schema, tables
    from galloon.brief.assemble import assemble
    from galloon.brief.shelf import take_from_shelf

    units = data.get("units")
    unit = units if units in UNITS else _likely_unit(data)
    faults = Faults(file, text, data, unit_at=lambda path: schema.unit_at(path, unit))
    _check_units(data, faults)
    reader = tables.Reader(take_from_shelf(data, shelf, faults), unit, faults)
    reader.top()
    kept = getattr(shelf, "picture", None)
    design = assemble(reader, svg, lambda said, path: build_picture(said, path, picture, kept, faults))
    if design is None or faults.found:
        raise BadInput(faults.told())
    return Brief(design, (*_findings(design), *lost_pictures(reader.data, design)), data, file)


def _likely_unit(data: Mapping[str, Any]) -> str:
    """The unit in which the hip girth is one a body can have, to judge the rest of a brief that names none."""
    wearer = data.get("wearer")
    hip = wearer.get("hip") if isinstance(wearer, Mapping) else None
    if not isinstance(hip, int | float):
        return "cm"
    return "mm" if hip >= 400 else "cm" if hip >= 65 else "in"


def _check_units(data: Mapping[str, Any], faults: Faults) -> None:
    if "units" not in data:
        faults.missing(
            ("units",), said('Write units = "cm" (or "mm" or "in") at the top: it says what bare numbers mean.')
        )
    elif data["units"] not in UNITS:
        faults.refuse(("units",), said("must be one of {words}", words=", ".join(UNITS)))


def _findings(design: Design) -> tuple[Finding, ...]:
    on_cloth = [finding for cloth in design.cloths.values() for finding in findings_on_cloth(cloth, design.units)]
    return (*findings_on(design.wearer, design.units), *on_cloth)
