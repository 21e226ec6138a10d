"""What each finish does to an edge: the word in the report and the allowance beyond the finished edge."""

from __future__ import annotations

from galloon import defaults
from galloon.design import Finish, FinishKind

#: Finishes whose allowance is turned to the wrong side along the stitch line.
TURNED = frozenset({"elastic", "hem"})


def report_word(finish: Finish) -> str:
    """The finish as the report names it."""
    return {
        FinishKind.ELASTIC: "elastic",
        FinishKind.FOLD_OVER: "elastic",
        FinishKind.STRAP: "elastic",
        FinishKind.LACE_TRIM: "trim",
        FinishKind.SCALLOP: "scallop",
        FinishKind.HEM: "hem",
        FinishKind.BINDING: "binding",
    }[finish.kind]


def edge_allowance(finish: Finish) -> float:
    """Cloth beyond the finished edge (mm): positive when turned, none at a fold-over, negative under a laid-on lace."""
    if finish.kind is FinishKind.ELASTIC and finish.elastic is not None:
        picot = float(defaults.PICOT) if finish.elastic.form == "picot" else 0.0
        return max(3.0, finish.elastic.width - picot)
    if finish.band_lap is not None:
        return finish.band_lap
    if finish.kind is FinishKind.LACE_TRIM and finish.trim is not None:
        return -max(0.0, finish.trim.width - trim_lap(finish))
    if finish.kind is FinishKind.HEM:
        return finish.wide
    return 0.0


def trim_lap(finish: Finish) -> float:
    """How far a laid-on lace laps over the cloth (mm)."""
    width = finish.trim.width if finish.trim is not None else 0.0
    return min(float(defaults.TRIM_LAP), width / 2.0)
