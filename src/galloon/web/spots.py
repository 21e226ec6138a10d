"""What can be dragged freely on the table: the corners of an overlay and motifs on their places."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, Final

from galloon.brief import Brief
from galloon.design import Use
from galloon.pieces import Garment
from galloon.units import format_length
from galloon.web.desk import Change
from galloon.web.words import Words

#: How far beyond its panel a corner may be dragged, mm.
_BEYOND: Final = 60.0
#: An outline of more points than this has no handles: it was drawn, not built of corners.
_MOST: Final = 12


@dataclass(frozen=True)
class Spot:
    """A point on a piece (mm) that can be moved between ``low`` and ``high``; ``path`` is where the brief has it."""

    key: str
    piece: str
    at: complex
    low: complex
    high: complex
    word: str
    path: tuple[str | int, ...]


def spots_of(garment: Garment, brief: Brief) -> tuple[Spot, ...]:
    """Every spot of the garment of a brief, in the brief's order."""
    return (*_corners(garment, brief), *_motifs(garment, brief))


def _host(garment: Garment, panel: str) -> str | None:
    """The piece whose measures are the panel's own; none for the back of a wrap, which has those of the front."""
    for piece in garment.outer:
        if piece.part.covers == panel and not piece.part.laid_on:
            return piece.name
    return None


def _corners(garment: Garment, brief: Brief) -> Iterator[Spot]:
    for index, (table, use) in enumerate(zip(brief.data.get("lace", []), brief.design.lace, strict=False)):
        for panel in use.panels[:1]:
            key = "corners" if use.corners else "outline"
            ring = use.corners or use.outline
            host = _host(garment, panel)
            if use.use is not Use.OVERLAY or host is None or len(ring) != len(table.get(key, ())) or len(ring) > _MOST:
                continue
            low, high = _reach(garment, host)
            for place, (x, y) in enumerate(ring):
                path = ("lace", index, key, place)
                yield Spot(f"corner-{index}-{place}", host, complex(x, y), low, high, "handle.corner", path)


def _reach(garment: Garment, host: str) -> tuple[complex, complex]:
    cut, room = garment.piece(host).cut, complex(_BEYOND, _BEYOND)
    low = complex(cut.real.min(), cut.imag.min()) - room
    return low, complex(cut.real.max(), cut.imag.max()) + room


def _motifs(garment: Garment, brief: Brief) -> Iterator[Spot]:
    wearer = brief.design.wearer
    reach, deep = wearer.hip / 2.0, wearer.crotch_length / 2.0
    for index, motif in enumerate(brief.design.motifs):
        host = _host(garment, motif.panel)
        if motif.at is None or host is None:
            continue
        low, high = complex(-reach, -deep), complex(reach, 0.0)
        yield Spot(f"motif-{index}", host, complex(*motif.at), low, high, "handle.motif", ("motif", index, "at"))


def moved_spot(garment: Garment, brief: Brief, key: str, to: complex) -> list[Change]:
    """The change of the brief that brings a spot to a point; none for a spot that is not there."""
    for spot in spots_of(garment, brief):
        if spot.key == key:
            x = min(spot.high.real, max(spot.low.real, to.real))
            y = min(spot.high.imag, max(spot.low.imag, to.imag))
            return [(spot.path, [f"{x:.1f} mm", f"{y:.1f} mm"])]
    return []


def spot_data(spot: Spot, to_sheet: Callable[[str, complex], complex], words: Words, unit: str) -> dict[str, Any]:
    """What the page needs to draw and to drag it; sheet coordinates, y down, its own values y up."""
    at = to_sheet(spot.piece, spot.at)
    x, y = (words.said(format_length(one, unit)) for one in (spot.at.real, -spot.at.imag))
    return {
        "key": spot.key,
        "x": round(at.real, 2),
        "y": round(-at.imag, 2),
        "free": [round(spot.at.real, 2), round(spot.at.imag, 2)],
        "value": round(spot.at.real, 2),
        "low": round(spot.low.real, 1),
        "high": round(spot.high.real, 1),
        "word": words(spot.word, number=int(spot.key.rsplit("-", 1)[1]) + 1),
        "says": words("handle.at", x=x, y=y),
    }


def middle_of(garment: Garment, panel: str) -> complex | None:
    """A point well inside a panel, in its own measures; None where it has no piece of its own."""
    from galloon.web.sheet import inside

    host = _host(garment, panel)
    return None if host is None else inside(garment.piece(host).stitch)
