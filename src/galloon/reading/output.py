"""A lace reading as the JSON of the contract and as a TOML block ready for a brief."""

from __future__ import annotations

import re
from typing import Any, Final

from galloon.reading.model import Figure, LaceReading
from galloon.units import MM_PER

FORMAT: Final = "galloon-lace 1"
_FIGURES: Final = ("width", "scallop_pitch", "scallop_depth", "second_pitch", "second_depth", "repeat", "openness")


def as_json(reading: LaceReading) -> dict[str, Any]:
    """The reading in the form of the contract; millimetres. The second edge appears where it differs."""
    out: dict[str, Any] = {"format": FORMAT, "edges": reading.edges}
    for name in _FIGURES:
        found: Figure | None = getattr(reading, name)
        if found is None and name.startswith("second_"):
            continue
        out[name] = None if found is None else _interval(found)
    out |= {
        "mirror_across": reading.mirror_across,
        "second_edge": reading.second_edge,
        "half_turn": reading.half_turn,
        "confidence": reading.confidence,
        "warnings": [{"name": doubt.name, "says": doubt.says} for doubt in reading.warnings],
    }
    return out


def _interval(found: Figure) -> dict[str, float]:
    return {"value": round(found.value, 4), "low": round(found.low, 4), "high": round(found.high, 4)}


def as_toml_block(reading: LaceReading, name: str, units: str = "cm") -> str:
    """A ``[cloth.NAME]`` block in a brief's own units; what a picture cannot tell stands as a comment to fill in."""
    lines = [f"[cloth.{_key(name)}]", 'kind = "lace"', f'edges = "{reading.edges}"']
    for key in ("width", "scallop_pitch", "scallop_depth", "second_pitch", "second_depth", "repeat"):
        found: Figure | None = getattr(reading, key)
        if found is not None:
            lines.append(_line(key, found, units))
        elif key == "width" or (key == "repeat" and reading.edges != "none"):
            lines.append(f"# {key} =            # not to be told from this picture; measure it")
    lines.append(f"mirror_across = {_word(reading.mirror_across)}")
    if reading.second_edge is not None:
        lines += [f'second_edge = "{reading.second_edge}"', f"half_turn = {_word(reading.half_turn)}"]
    if reading.openness is not None:
        lines.append(f"openness = {reading.openness.value:.2f}")
    lines += ["# stretch_length =    # percent, along the lace: pull a marked length and measure", "# stretch_width ="]
    lines += [f"# {doubt.name}: {doubt.says}" for doubt in reading.warnings]
    return "\n".join(lines) + "\n"


def _line(key: str, found: Figure, units: str) -> str:
    places = {"mm": 2, "cm": 3, "in": 4}[units]
    value, half = found.value / MM_PER[units], found.half / MM_PER[units]
    return f"{key} = {value:.{places}f}".ljust(26) + f"# ± {half:.{places}f} {units}"


def _word(value: bool) -> str:
    return "true" if value else "false"


def _key(name: str) -> str:
    """A TOML key: bare where it can be, else quoted with everything unprintable escaped."""
    if re.fullmatch(r"[A-Za-z0-9_-]+", name):
        return name
    out = []
    for ch in name:
        if ch in '"\\':
            out.append("\\" + ch)
        elif ch.isprintable():
            out.append(ch)
        else:
            out.append(f"\\U{ord(ch):08X}")
    return '"' + "".join(out) + '"'
