"""The table of edge finishes: what lies beyond the finished edge, the rows of stitching, ratios per zone, overlap,
sources.

Edit it here; a brief's own ``[elastic]`` wins over the ratios. Stitches are numbered after ISO 4915, seams after ISO
4916 (sub-numbers from memory); where editions number a stitch differently its name stands instead.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final, NamedTuple

from galloon import defaults
from galloon.defaults import PRACTICE
from galloon.design import Finish, FinishKind
from galloon.materials import usual_ratio
from galloon.said import said

ZIGZAG: Final = "304"
LOCKSTITCH: Final = "301"
OVERLOCK: Final = "504"
COVER: Final = "406"
THREE_STEP: Final = "3-step zigzag"
HAND: Final = "hand"

SUPERIMPOSED: Final = "1.01"
LAPPED: Final = "2.01"
BOUND: Final = "3.01"
HEMMED: Final = "6.02"
APPLIED: Final = "7"

#: A picot elastic sewn by a home sewer, 2001: narrow zigzag by the picot, turn, wide 3-step zigzag on the plain edge.
_PICOT_METHOD: Final = "a home sewer's picot method, 2001; ratios " + PRACTICE


class Ratio(NamedTuple):
    """Cut length over finished edge: least, usual and most."""

    low: float
    usual: float
    high: float


class Pass(NamedTuple):
    """One row of stitching: the stitch and how the machine is set for it."""

    stitch: str
    setting: str


@dataclass(frozen=True)
class FinishRow:
    """One finish. ``beyond`` says in words what is cut beyond (or short of) the finished edge; ``overlap`` (mm) joins
    its ends.

    ``ratios`` by zone: waist, front_leg, back_leg; empty where nothing is stretched on.
    """

    name: str
    beyond: str
    passes: tuple[Pass, ...]
    seam_class: str
    ratios: Mapping[str, Ratio]
    overlap: float
    source: str


def _ratios(waist: Ratio, front: Ratio, back: Ratio) -> Mapping[str, Ratio]:
    return MappingProxyType({"waist": waist, "front_leg": front, "back_leg": back})


_OVERLAP: Final = float(defaults.ELASTIC_OVERLAP)
_ATTACH: Final = Pass(ZIGZAG, said("zigzag 2.5 mm wide, 2 mm long"))
_HOLD: Final = Pass(THREE_STEP, said("3-step zigzag, as wide as the band, each step 1.5 mm long"))
_BIND: Final = Pass(ZIGZAG, said("zigzag 1 mm wide, 2.5 mm long"))
_NONE: Final[Mapping[str, Ratio]] = MappingProxyType({})

FINISH_TABLE: Final[Mapping[str, FinishRow]] = MappingProxyType(
    {
        row.name: row
        for row in (
            FinishRow(
                "turned elastic",
                "the width of the band without its picot, turned in",
                (_ATTACH, _HOLD),
                APPLIED,
                _ratios(Ratio(0.85, 0.88, 0.92), Ratio(0.95, 1.0, 1.0), Ratio(0.80, 0.85, 0.90)),
                _OVERLAP,
                _PICOT_METHOD,
            ),
            FinishRow(
                "fold-over",
                "nothing: the raw edge lies in the fold",
                (Pass(ZIGZAG, said("zigzag 3 mm wide, 2 mm long")),),
                BOUND,
                _ratios(Ratio(0.88, 0.92, 0.95), Ratio(0.95, 1.0, 1.0), Ratio(0.85, 0.90, 0.95)),
                _OVERLAP,
                PRACTICE,
            ),
            FinishRow(
                "lace trim",
                "cut short by the trim's width less the lap",
                (Pass(ZIGZAG, said("zigzag 2 mm wide, 2.5 mm long")),),
                LAPPED,
                _ratios(Ratio(0.90, 0.95, 1.0), Ratio(1.0, 1.0, 1.0), Ratio(0.90, 0.95, 1.0)),
                _OVERLAP,
                PRACTICE,
            ),
            FinishRow(
                "strap",
                "nothing: the strap lies on the edge",
                (Pass(ZIGZAG, said("zigzag 2.5 mm wide, 2 mm long")),),
                APPLIED,
                _ratios(*(Ratio(0.83, 0.87, 0.91),) * 3),
                2.0 * float(defaults.STRAP_END),
                PRACTICE + ": span on the body over 1.10 to 1.20",
            ),
            FinishRow(
                "scallop with soft elastic",
                "nothing: the lace is the edge",
                (Pass(ZIGZAG, said("zigzag 2 mm wide, 2 mm long")),),
                APPLIED,
                _ratios(Ratio(0.90, 0.95, 1.0), Ratio(1.0, 1.0, 1.0), Ratio(0.90, 0.95, 1.0)),
                _OVERLAP,
                PRACTICE,
            ),
            FinishRow("scallop", "nothing: the lace is the edge", (), "", _NONE, 0.0, PRACTICE),
            FinishRow(
                "hem",
                "the hem's width, turned in",
                (Pass(ZIGZAG, said("zigzag 2.5 mm wide, 2.5 mm long, or a two-needle cover stitch (406)")),),
                HEMMED,
                _NONE,
                0.0,
                PRACTICE,
            ),
            FinishRow(
                "binding",
                "nothing: the strip is folded round the edge",
                (_BIND, Pass(ZIGZAG, said("zigzag 2 mm wide, 2.5 mm long"))),
                BOUND,
                _NONE,
                _OVERLAP,
                PRACTICE,
            ),
        )
    }
)
_ROWS: Final[Mapping[FinishKind, str]] = MappingProxyType(
    {
        FinishKind.ELASTIC: "turned elastic",
        FinishKind.FOLD_OVER: "fold-over",
        FinishKind.LACE_TRIM: "lace trim",
        FinishKind.STRAP: "strap",
        FinishKind.HEM: "hem",
        FinishKind.BINDING: "binding",
    }
)


def finish_row(finish: Finish) -> FinishRow:
    """The line of the table that ``finish`` follows."""
    if finish.kind is FinishKind.SCALLOP:
        return FINISH_TABLE["scallop" if finish.elastic is None else "scallop with soft elastic"]
    return FINISH_TABLE[_ROWS[finish.kind]]


def asked_ratio(finish: Finish, zone: str) -> float:
    """Cut length over finished edge in ``zone``, before the elastic's own stretch bounds it; the gusset goes as the
    front leg. Nothing is stretched on to an open side, which the straps pull across: common practice, no source.
    """
    zone = {"gusset_leg": "front_leg", "side_leg": "back_leg"}.get(zone, zone)
    if zone.endswith("_side"):
        return 1.0
    if finish.elastic is not None:
        return usual_ratio(finish.elastic, zone)
    ratios = finish_row(finish).ratios
    return ratios[zone].usual if zone in ratios else 1.0
