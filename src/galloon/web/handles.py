"""What can be dragged on the table: where each handle stands, what it means, and the change that a move asks for."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final, Literal

import numpy as np
from numpy.typing import NDArray

from galloon.design import NARROWEST_GAP, Design, LaceUse, Lie, Meet, Use
from galloon.drafting import held_leg
from galloon.lace import Placement, v_level
from galloon.pieces import Garment
from galloon.units import format_length
from galloon.web.desk import Change
from galloon.web.words import Words

Axis = Literal["x", "y", "along"]
#: Furthest a handle can be moved from nothing, mm.
_FAR: Final = 400.0
#: Nearer than this to a peak or a valley a lace is slid right on to it, mm.
_SNAPS: Final = 1.0
#: Leg lines tried for a V, mm that the leg is raised at the side.
_RAISED: Final = np.arange(-90.0, 300.0, 0.5)


@dataclass(frozen=True)
class Handle:
    """One handle: ``at`` on its piece (mm); moving by d mm along ``along`` adds ``sign`` · d to ``value`` (mm)."""

    key: str
    piece: str
    at: complex
    along: complex
    value: float
    sign: float
    low: float
    high: float
    word: str
    says: str


def handles_of(garment: Garment, uses: Sequence[LaceUse]) -> tuple[Handle, ...]:
    """Every handle this garment has. ``uses`` are the brief's own: the garment may have left one of them out."""
    found = [*_waist(garment), *_leg(garment), *_side(garment), *_gap(garment), *_lace(garment, uses)]
    names = {piece.name for piece in garment.pieces}
    return tuple(handle for handle in found if handle.piece in names)


def _end(garment: Garment, piece: str, edge: str, *, start: bool) -> complex | None:
    try:
        points = garment.piece(piece).edge_points(edge)
    except (KeyError, StopIteration):
        return None
    return complex(points[0] if start else points[-1])


def _waist(garment: Garment) -> list[Handle]:
    draft, unit = garment.draft, garment.design.units
    places = (
        ("waist", "front", True, draft.side_drop),
        ("waist-front", "front", False, draft.front_drop),
        ("waist-back", "back", False, draft.back_drop),
    )
    found = []
    for key, piece, start, value in places:
        at = _end(garment, piece, "waist", start=start)
        if at is not None:
            found.append(
                Handle(key, piece, at, 1j, value, -1.0, 0.0, _FAR, f"handle.{key}", format_length(value, unit))
            )
    return found


def _leg(garment: Garment) -> list[Handle]:
    at = _end(garment, "front", "side", start=True)
    if at is None:
        return []
    raised = garment.design.style.leg_raise
    says = format_length(raised, garment.design.units)
    return [Handle("leg", "front", at, 1j, raised, 1.0, -90.0, 300.0, "handle.leg", says)]


def _side(garment: Garment) -> list[Handle]:
    forward = garment.design.style.side_forward
    try:
        points = garment.piece("front").edge_points("side")
    except KeyError:
        return []
    if forward is None:
        return []
    at = complex(points[len(points) // 2])
    says = format_length(forward, garment.design.units)
    return [Handle("side", "front", at, 1.0 + 0j, forward, -1.0, 0.0, 150.0, "handle.side", says)]


def _gap(garment: Garment) -> list[Handle]:
    """Both ends of the back's open side: drawn in, they take half of what the gap gains on the body."""
    side, found = garment.design.open_side, []
    for end in ("waist", "leg") if side is not None else ():
        at = _end(garment, "back", "side", start=end == "leg")
        if at is not None:
            value, gain = float(getattr(side, end)), 2.0 / (1.0 - garment.reductions.back)
            says = format_length(value, garment.design.units)
            found.append(
                Handle(
                    f"gap-{end}", "back", at, 1.0 + 0j, value, -gain, NARROWEST_GAP, 150.0, f"handle.gap-{end}", says
                )
            )
    return found


def _lace(garment: Garment, uses: Sequence[LaceUse]) -> list[Handle]:
    found = []
    for index, use in enumerate(uses):
        if use not in garment.design.lace:
            continue
        for one in garment.placements:
            if one.use is use.use and one.cloth == use.cloth:
                found += _on_lace(garment, index, use, one)
                break
    return found


def _on_lace(garment: Garment, index: int, use: LaceUse, one: Placement) -> list[Handle]:
    cloth = garment.design.cloths[one.cloth]
    if one.use not in (Use.SCALLOPED_LEG, Use.PANEL, Use.V_INSET) or cloth.lace is None or cloth.lace.first is None:
        return []
    repeat = cloth.lace.motif or cloth.lace.first.pitch
    run = one.valley[1] - one.valley[0]
    along = run / abs(run)
    slide = Handle(
        f"slide-{index}", one.piece, (one.valley[0] + one.valley[1]) / 2.0, along, one.phase % repeat, -1.0,
        -repeat, 2.0 * repeat, "handle.slide", format_length(one.phase % repeat, garment.design.units),
    )  # fmt: skip
    if one.use is Use.V_INSET:
        return [slide, *_on_v(garment, index, use, one)]
    if one.use is not Use.SCALLOPED_LEG:
        return [slide]
    level = one.lie == Lie.UPRIGHT.value
    turn = Handle(
        f"turn-{index}", one.piece, one.far[1], 1j, 0.0 if level else 40.0, 1.0, 0.0, 40.0,
        "handle.turn", f"{one.tilt:.0f}°",
    )  # fmt: skip
    return [slide, turn]


def _on_v(garment: Garment, index: int, use: LaceUse, one: Placement) -> list[Handle]:
    at = _end(garment, one.piece, "inset", start=False)
    if at is None or one.figures is None:
        return []
    depth, levels = one.figures["v_depth"], _v_levels(garment, use, one.piece)
    top = at.imag + depth
    says = format_length(depth, garment.design.units)
    return [
        Handle(
            f"v-{index}", one.piece, at, 1j, depth, -1.0, top - float(levels.max()), top - float(levels.min()),
            "handle.v", says,
        )
    ]  # fmt: skip


def _v_levels(garment: Garment, use: LaceUse, panel: str) -> NDArray[np.float64]:
    """Where the V's point lies (mm, y up) for every leg line of ``_RAISED``; the lace hangs on that line."""
    frame = garment.draft.frame
    legs = [held_leg(frame, frame.leg - float(raised)) for raised in _RAISED]
    return np.array([v_level(use, garment.design, frame, panel, leg) for leg in legs])


def _mm(value: float) -> str:
    return f"{value:.1f} mm"


def _move_waist(garment: Garment, uses: Sequence[LaceUse], key: str, value: float) -> list[Change]:
    draft = garment.draft
    drops = {"front": draft.front_drop, "side": draft.side_drop, "back": draft.back_drop}
    if key == "waist":
        by = value - drops["side"]
        drops = {name: max(0.0, drop + by) for name, drop in drops.items()}
    else:
        drops[key.removeprefix("waist-")] = value
    if max(drops.values()) - min(drops.values()) < 0.05:
        return [(("style", "waist_drop"), _mm(drops["side"]))]
    return [(("style", "waist_drop"), {name: _mm(drop) for name, drop in drops.items()})]


def _move_leg(garment: Garment, uses: Sequence[LaceUse], key: str, value: float) -> list[Change]:
    return [(("style", "leg_raise"), _mm(value))]


def _move_side(garment: Garment, uses: Sequence[LaceUse], key: str, value: float) -> list[Change]:
    return [(("style", "side_seam"), "side" if value < 0.5 else _mm(value))]


def _move_gap(garment: Garment, uses: Sequence[LaceUse], key: str, value: float) -> list[Change]:
    side = garment.design.open_side
    if side is None:
        return []
    ends = {"waist": side.waist, "leg": side.leg, key.removeprefix("gap-"): value}
    if abs(ends["waist"] - ends["leg"]) < 0.05:
        return [(("open_side", "gap"), _mm(ends["waist"]))]
    return [(("open_side", "gap"), {end: _mm(gap) for end, gap in ends.items()})]


def _move_slide(garment: Garment, uses: Sequence[LaceUse], key: str, value: float) -> list[Change]:
    """A peak or a valley on the centre line where it is that, else how far beyond a peak it lies."""
    index = int(key.split("-")[1])
    facts = garment.design.cloths[uses[index].cloth].lace
    if facts is None or facts.first is None:
        return []
    repeat = facts.motif or facts.first.pitch
    value %= repeat
    for meet, reads in ((Meet.PEAK, 0.0), (Meet.VALLEY, facts.first.pitch / 2.0)):
        if abs(math.remainder(value - reads, repeat)) <= _SNAPS:
            return [(("lace", index, "meet"), meet.value), (("lace", index, "phase"), None)]
    return [(("lace", index, "meet"), None), (("lace", index, "phase"), _mm(value))]


def _move_v(garment: Garment, uses: Sequence[LaceUse], key: str, value: float) -> list[Change]:
    """The V's point hangs on the leg line: the leg line that brings it nearest, and of those the nearest."""
    handle = next(one for one in handles_of(garment, uses) if one.key == key)
    levels = _v_levels(garment, uses[int(key.split("-")[1])], handle.piece)
    off = np.abs(levels - (handle.at.imag + handle.value - value))
    far = np.abs(_RAISED - garment.design.style.leg_raise)
    return [(("style", "leg_raise"), _mm(float(_RAISED[np.argmin(off + 1e-3 * far)])))]


def _move_turn(garment: Garment, uses: Sequence[LaceUse], key: str, value: float) -> list[Change]:
    lie = Lie.UPRIGHT if value < 20.0 else Lie.ALONG_LEG
    return [(("lace", int(key.split("-")[1]), "lie"), lie.value)]


_MOVES: Final[Mapping[str, Callable[[Garment, Sequence[LaceUse], str, float], list[Change]]]] = {
    "waist": _move_waist,
    "leg": _move_leg,
    "side": _move_side,
    "gap": _move_gap,
    "slide": _move_slide,
    "turn": _move_turn,
    "v": _move_v,
}


def move(garment: Garment, uses: Sequence[LaceUse], key: str, value: float) -> list[Change]:
    """The changes of the brief that bring a handle to ``value`` (mm); none for a handle that is not there."""
    handle = next((one for one in handles_of(garment, uses) if one.key == key), None)
    if handle is None or value != value:
        return []
    held = min(handle.high, max(handle.low, value))
    return _MOVES[key.split("-")[0]](garment, uses, key, held)


def placed_again(design: Design) -> list[Change]:
    """Lets the program choose again: the waist as low as the lace asks, no lie or meeting point of the maker's own."""
    changes: list[Change] = [(("style", "waist_drop"), "auto")]
    for index, _ in enumerate(design.lace):
        changes += [(("lace", index, "lie"), None), (("lace", index, "meet"), None), (("lace", index, "phase"), None)]
    return changes


def as_data(handle: Handle, to_sheet: Callable[[str, complex], complex], words: Words) -> dict[str, Any]:
    """What the page needs to draw and to drag it; sheet coordinates, y down."""
    at, along = to_sheet(handle.piece, handle.at), handle.along
    return {
        "key": handle.key,
        "x": round(at.real, 2),
        "y": round(-at.imag, 2),
        "ax": round(along.real, 5),
        "ay": round(-along.imag, 5),
        "value": round(handle.value, 2),
        "sign": handle.sign,
        "low": handle.low,
        "high": handle.high,
        "word": words(handle.word),
        "says": words.said(handle.says),
    }
