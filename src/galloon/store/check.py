"""Holds data that come to the shelf to the brief's own rules, and brings them into one form: millimetres."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import replace
from typing import Any, Final

from galloon.brief import Lookup, brief_from, to_data
from galloon.errors import BadValue, show
from galloon.store.trouble import refuse

#: Kinds a brief can name, in the order they are listed.
NAMED_IN_BRIEFS: Final = ("wearer", "cloth", "elastic", "block")
#: Things that stand in for the rest of a brief while one is checked; nothing is made of them.
_WEARER: Final = {"waist": 740, "hip": 1010, "waist_to_hip": 210, "crotch_length": 730}
_CLOTH: Final = {"kind": "knit", "width": 1500, "stretch_width": 50, "stretch_length": 50}
_LARGEST: Final = 4_000_000


def checked_name(name: str) -> str:
    """The name. Raises BadInput unless a brief could hold it."""
    from galloon.brief.fields import read_name

    try:
        return read_name(name)
    except BadValue as error:
        refuse("name", error.rule, seen=str(error.seen))


def checked(kind: str, name: str, data: Mapping[str, Any], shelf: Lookup) -> dict[str, Any]:
    """The data of one wearer, cloth, elastic or block in millimetres, its picture one that the shelf has. Raises
    BadInput with every fault.
    """
    brief = _around(kind, name, data)
    read = brief_from(brief, file=f"shelf, {kind} {show(name)}", shelf=shelf)
    whole = to_data(replace(read.design, units="mm"))
    found = whole.get(kind, {})
    return dict(found[name] if kind in ("cloth", "elastic") else found)


def _around(kind: str, name: str, data: Mapping[str, Any]) -> dict[str, Any]:
    """A brief with just this thing in it."""
    own = {key: value for key, value in data.items() if key != "units"}
    units = data.get("units", "mm")
    cloth = name if kind == "cloth" else "cloth"
    brief: dict[str, Any] = {
        "units": units,
        "wearer": _lengths(_WEARER),
        "cloth": {cloth: own if kind == "cloth" else {**_CLOTH, "width": "1500 mm"}},
        "panels": {"front": cloth, "back": cloth, "gusset": cloth},
    }
    if kind == "elastic":
        return {**brief, "elastic": {name: own}, "finish": {"waist": name}}
    return {**brief, kind: own} if kind in ("wearer", "block") else brief


def _lengths(table: Mapping[str, float]) -> dict[str, str]:
    return {key: f"{value:g} mm" for key, value in table.items()}


def checked_brief(name: str, data: Mapping[str, Any], shelf: Lookup | None) -> dict[str, Any]:
    """The data of a brief as written. Raises BadInput with every fault."""
    return dict(brief_from(data, file=f"shelf, brief {show(name)}", shelf=shelf).data)


def to_text(data: Any) -> str:
    """Plain data as JSON, the same data always the same text. Raises BadInput for what JSON cannot hold."""
    try:
        text = json.dumps(data, ensure_ascii=False, sort_keys=True, allow_nan=False, separators=(",", ":"))
        text.encode("utf-8")
    except (TypeError, ValueError, RecursionError) as error:
        refuse("data", f"cannot be kept on the shelf ({error})")
    if len(text) > _LARGEST:
        refuse("data", f"must be smaller than {_LARGEST / 1e6:g} MB", seen=f"{len(text) / 1e6:.1f} MB")
    return text
