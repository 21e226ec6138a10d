"""What else must change so that a change fits the rest: a panel's cloth and the lace uses that are cut from it."""

from __future__ import annotations

import copy
from collections.abc import Mapping, Sequence
from typing import Any, Final

from galloon.design import CUT_FROM_LACE, Use
from galloon.web.desk import Change, Data, changed

#: A panel cut from the lace and a V cover a panel, the others lie on what is there.
_COVERS: Final = (*CUT_FROM_LACE, Use.V_INSET)
#: Uses a maker can choose; an overlay begins with corners of ours, an applique waits for its motifs.
CHOICES: Final = (
    Use.SCALLOPED_LEG.value, Use.PANEL.value, Use.V_INSET.value, Use.INSERTION.value, Use.EDGE_TRIM.value,
    Use.WAISTBAND.value, Use.SPLIT_EDGING.value, Use.OVERLAY.value, Use.APPLIQUE.value,
)  # fmt: skip
#: Corners an overlay begins with: a triangle beside the waist of any panel, for her to drag.
_CORNERS: Final = (("60 mm", "-70 mm"), ("160 mm", "-150 mm"), ("160 mm", "-70 mm"))
#: Keys that mean something to every use; the rest go when the use is changed.
_COMMON: Final = ("use", "cloth", "panel")
_OTHER: Final = {"front": "back", "back": "front"}

Table = dict[str, Any]


def with_what_follows(data: Data, changes: Sequence[Change]) -> list[Change]:
    """The changes, and those that panels and lace uses need to go on fitting one another."""
    found: list[Change] = []
    for path, value in changes:
        found.append((path, value))
        now = changed(data, found)
        if len(path) == 2 and path[0] == "panels" and path[1] in _OTHER:
            found += _for_panel(now, str(path[1]), value)
        elif path[0] == "lace" and len(path) >= 2:
            found += _for_use(now, int(path[1]), path[2:3] == ("use",))
    return found


def renamed(data: Data, old: str, new: str) -> list[Change]:
    """The changes that give one cloth of a design another name everywhere."""
    cloths = data.get("cloth", {})
    if old not in cloths or not new.strip() or (new in cloths and new != old):
        return []
    swapped = {new if name == old else name: table for name, table in cloths.items()}
    tables = {key: _swapped(data[key], old, new) for key in ("panels", "lace", "motif", "split") if key in data}
    finish = {zone: _finish(said, old, new) for zone, said in data.get("finish", {}).items()}
    return [(("cloth",), swapped), *(((key,), table) for key, table in tables.items()), (("finish",), finish or None)]


def _swapped(table: Any, old: str, new: str) -> Any:
    if isinstance(table, list):
        return [_swapped(one, old, new) for one in table]
    if isinstance(table, Mapping):
        return {key: new if value == old else value for key, value in table.items()}
    return table


def _finish(said: Any, old: str, new: str) -> Any:
    return f"{said.removesuffix(old)}{new}" if isinstance(said, str) and said.endswith(f" {old}") else said


def _for_panel(data: Data, panel: str, cloth: Any) -> list[Change]:
    """A panel of another cloth: what covered it is cut from that lace now, or goes with the old one."""
    table = data.get("cloth", {}).get(cloth, {})
    lace = isinstance(table, Mapping) and table.get("kind") == "lace"
    uses: list[Table] = []
    covered = False
    for use in copy.deepcopy(list(data.get("lace", []))):
        if use.get("use") not in _COVERS or use.get("panel", "back") not in (panel, "both"):
            uses.append(use)
            continue
        if use.get("panel") == "both":
            uses.append({**use, "panel": _OTHER[panel]})
        if use["use"] == Use.V_INSET.value and not lace:
            uses.append({**use, "panel": panel, "upper_cloth": cloth})
        elif lace:
            uses.append({**use, "panel": panel, "cloth": cloth})
            covered = True
    if lace and not covered:
        scalloped = isinstance(table, Mapping) and "scallop" in str(table.get("edges", ""))
        uses.append({"use": (Use.SCALLOPED_LEG if scalloped else Use.PANEL).value, "cloth": cloth, "panel": panel})
    return [(("lace",), uses or None), *_edge(data, panel), *_seam(data, uses)]


def _for_use(data: Data, index: int, other: bool) -> list[Change]:
    """A use that was changed: its panels are cut from it, a V has a cloth above it."""
    uses = data.get("lace", [])
    if not 0 <= index < len(uses):
        return []
    use = uses[index]
    found: list[Change] = []
    if other:
        use = {key: value for key, value in use.items() if key in _COMMON}
        found.append((("lace", index), use))
    kind = use.get("use")
    if kind == Use.OVERLAY.value and not any(use.get(key) for key in ("corners", "outline", "between")):
        found.append((("lace", index, "corners"), [list(corner) for corner in _CORNERS]))
    if kind in (Use.OVERLAY.value, Use.APPLIQUE.value) and use.get("panel") not in ("front", "back", "both"):
        found.append((("lace", index, "panel"), "front"))
    for panel in _OTHER if use.get("panel") == "both" else (use.get("panel", "back"),):
        if kind in CUT_FROM_LACE:
            found += [(("panels", panel), use.get("cloth")), *_edge(data, panel)]
        elif _bare(data, uses, index, panel) and kind != Use.V_INSET.value:
            found.append((("panels", panel), _plain(data)))
    if kind == Use.V_INSET.value and not use.get("upper_cloth"):
        found.append((("lace", index, "upper_cloth"), _plain(data)))
    return [*found, *_seam(data, [use])]


def _bare(data: Data, uses: Sequence[Table], index: int, panel: str) -> bool:
    """Whether a panel of the lace of one use is cut from it by no other."""
    cloth = uses[index].get("cloth")
    others = [one for place, one in enumerate(uses) if place != index and one.get("use") in CUT_FROM_LACE]
    cut = any(one.get("cloth") == cloth and one.get("panel") in (panel, "both") for one in others)
    return data.get("panels", {}).get(panel) == cloth and not cut


def _plain(data: Data) -> Any:
    """A cloth that is no lace, the one of the gusset first."""
    cloths = {name: one for name, one in data.get("cloth", {}).items() if isinstance(one, Mapping)}
    gusset = data.get("panels", {}).get("gusset")
    plain = [name for name, one in cloths.items() if one.get("kind") != "lace"]
    return gusset if gusset in plain else next(iter(plain), gusset)


def _edge(data: Data, panel: str) -> list[Change]:
    """The leg's finish is chosen anew where the lace's own edge comes to it or leaves it."""
    return [(("finish", f"{panel}_leg"), None)] if data.get("finish", {}).get(f"{panel}_leg") else []


def _seam(data: Data, uses: Sequence[Table]) -> list[Change]:
    """A lace that lies along both legs of the back needs a seam at its centre."""
    along = any(use.get("use") == Use.SCALLOPED_LEG and use.get("panel") in ("back", "both") for use in uses)
    return (
        [(("style", "centre_back_seam"), True)] if along and not data.get("style", {}).get("centre_back_seam") else []
    )
