"""The usual kinds of elastic, found by a name such as "picot elastic 10 mm"."""

from __future__ import annotations

import re
from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, NamedTuple

from galloon.defaults import PRACTICE
from galloon.materials.model import Elastic


class UsualKind(NamedTuple):
    """A usual kind: widths sold (mm), stretch (fraction), and middle ratios per zone; all common practice, no
    source.
    """

    form: str
    widths: tuple[float, float]
    stretch: float
    ratio: Mapping[str, float]


def _ratio(waist: float, front: float, back: float) -> Mapping[str, float]:
    return MappingProxyType({"waist": waist, "front_leg": front, "back_leg": back})


_KINDS: Final[Mapping[str, UsualKind]] = MappingProxyType(
    {
        "picot elastic": UsualKind("picot", (5.0, 25.0), 1.00, _ratio(0.88, 1.00, 0.85)),
        "plush elastic": UsualKind("plush", (5.0, 40.0), 1.00, _ratio(0.88, 1.00, 0.85)),
        "plain elastic": UsualKind("plain", (3.0, 40.0), 1.00, _ratio(0.90, 0.98, 0.88)),
        "fold-over elastic": UsualKind("fold-over", (10.0, 30.0), 0.90, _ratio(0.92, 1.00, 0.90)),
        "strap elastic": UsualKind("strap", (5.0, 30.0), 0.60, _ratio(0.87, 0.87, 0.87)),
        "clear elastic": UsualKind("clear", (5.0, 15.0), 1.50, _ratio(0.95, 1.00, 0.95)),
        "soft elastic": UsualKind("plain", (3.0, 12.0), 1.20, _ratio(0.95, 1.00, 0.95)),
    }
)
_NAME = re.compile(r"^(?P<kind>[a-z-]+ elastic)(?: (?P<width>\d{1,3}(?:\.\d{1,2})?) ?mm)?$")


def usual_kinds() -> Mapping[str, UsualKind]:
    """The table of usual kinds by name."""
    return _KINDS


def usual_ratio(elastic: Elastic, zone: str) -> float:
    """Cut length over finished edge in ``zone`` (waist, front_leg, back_leg): the elastic's own figure, else its usual
    kind's, else 1: laid on without stretching.
    """
    if zone in elastic.ratio:
        return float(elastic.ratio[zone])
    forms = [kind.ratio[zone] for kind in _KINDS.values() if kind.form == elastic.form]
    return forms[0] if forms else 1.0


def usual_elastic(name: str) -> Elastic | None:
    """The usual elastic called ``name`` ("plush elastic 12 mm"; 8 mm where no width is said), or None if there is
    none.
    """
    match = _NAME.match(" ".join(name.lower().split()))
    kind = _KINDS.get(match["kind"]) if match else None
    if match is None or kind is None:
        return None
    width = float(match["width"]) if match["width"] else max(kind.widths[0], 8.0)
    if not kind.widths[0] <= width <= kind.widths[1]:
        return None
    return Elastic(name, kind.form, width, kind.stretch, kind.ratio, source=PRACTICE)
