"""What is on the shelf in words: a line for the list, and a thing spelled out as a brief has it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from galloon.units import format_length

if TYPE_CHECKING:
    from galloon.store import Thing


def summary(thing: Thing) -> str:
    """The thing in one line."""
    return _SUMMARIES[thing.kind](thing.data)


def _wearer(data: Mapping[str, Any]) -> str:
    return f"waist {format_length(data['waist'])}, hip {format_length(data['hip'])}"


def _cloth(data: Mapping[str, Any]) -> str:
    on_hand = format_length(data["on_hand"]) if "on_hand" in data else "length not known"
    return f"{data.get('edges', data['kind'])}, {format_length(data['width'])} wide, on hand: {on_hand}"


def _elastic(data: Mapping[str, Any]) -> str:
    return f"{data.get('form', '')} {format_length(data['width'], 'mm')} wide, stretches {data['stretch']:g} %".strip()


def _block(data: Mapping[str, Any]) -> str:
    return ", ".join(f"{key.replace('_', ' ')} {format_length(value)}" for key, value in data.items())


def _leftover(data: Mapping[str, Any]) -> str:
    xs, ys = zip(*data["outline"], strict=True)
    box = f"{format_length(max(xs) - min(xs))} by {format_length(max(ys) - min(ys))}"
    return f"of {data['cloth']}, {data['area'] / 100.0:.0f} cm² within {box}"


def _drawing(data: Mapping[str, Any]) -> str:
    return ", ".join(data["pieces"])


def _brief(data: Mapping[str, Any]) -> str:
    return str(data.get("title", "Untitled"))


_SUMMARIES = {
    "wearer": _wearer,
    "cloth": _cloth,
    "elastic": _elastic,
    "block": _block,
    "leftover": _leftover,
    "drawing": _drawing,
    "brief": _brief,
}


def spelled_out(thing: Thing) -> str:
    """The thing as TOML that a brief could hold; a brief as it was written."""
    from galloon.brief import dump_brief

    if thing.kind == "brief":
        return dump_brief(thing.data)
    named = thing.kind in ("cloth", "elastic")
    inner = {thing.name: dict(thing.data)} if named else dict(thing.data)
    return dump_brief({"units": "mm", thing.kind: inner})
