"""How the open edges are finished: elastic, fold-over, lace trim, scallop, hem or binding."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from galloon.errors import BadValue
from galloon.materials import Cloth, Elastic
from galloon.said import said


class FinishKind(StrEnum):
    """The kinds of edge finish, as the brief writes them."""

    ELASTIC = "elastic"
    FOLD_OVER = "fold-over"
    LACE_TRIM = "lace trim"
    SCALLOP = "scallop"
    HEM = "hem"
    BINDING = "binding"
    STRAP = "strap"


@dataclass(frozen=True)
class Finish:
    """One edge finish; ``elastic`` for elastic, fold-over and strap, and for a soft elastic behind a scallop;
    ``trim`` for lace trim.

    ``wide`` is the finished width of a hem or a binding (mm). A trim with ``band_lap`` (mm) is a band that stands above
    the cloth, which reaches so far under it; ``slit_from`` names the galloon that two trims are slit from.
    ``short`` (mm) is how much shorter than the finished edge the cloth is cut, where that is less than the trim asks.
    """

    kind: FinishKind
    elastic: Elastic | None = None
    trim: Cloth | None = None
    wide: float = 10.0
    band_lap: float | None = None
    slit_from: str = ""
    short: float | None = None

    def __post_init__(self) -> None:
        needs_elastic = self.kind in (FinishKind.ELASTIC, FinishKind.FOLD_OVER, FinishKind.STRAP)
        if needs_elastic and self.elastic is None:
            raise BadValue("finish", said("needs an elastic"), self.kind.value)
        if (self.kind is FinishKind.LACE_TRIM) != (self.trim is not None):
            raise BadValue("finish", said("a lace trim needs a lace, and only a lace trim takes one"), self.kind.value)

    @property
    def name(self) -> str:
        """How the guide calls it."""
        if self.kind is FinishKind.SCALLOP:
            return "scallop" if self.elastic is None else f"scallop with {self.elastic.name} behind"
        if self.trim is not None:
            return f"lace trim {self.trim.name}"
        return self.elastic.name if self.elastic is not None else self.kind.value


#: Finishes that catch the ends of straps: between cloth and elastic, in the fold, or in the turned edge.
CATCHING: Final = (FinishKind.ELASTIC, FinishKind.FOLD_OVER, FinishKind.HEM, FinishKind.BINDING)


@dataclass(frozen=True)
class Finishes:
    """The finish of each open edge; ``side`` of the edges of an open side, None where front and back meet there."""

    waist: Finish
    front_leg: Finish
    back_leg: Finish
    gusset_leg: Finish
    side: Finish | None = None

    def __post_init__(self) -> None:
        if self.side is not None and self.side.kind not in CATCHING:
            rule = said("must be an elastic, fold-over, hem or binding: it catches the ends of the straps")
            raise BadValue("finish.side", rule, self.side.name)

    def __iter__(self) -> Iterator[tuple[str, Finish]]:
        """Pairs of zone and finish."""
        return iter(
            (
                ("waist", self.waist),
                ("front_leg", self.front_leg),
                ("back_leg", self.back_leg),
                ("gusset_leg", self.gusset_leg),
                *((("side", self.side),) if self.side is not None else ()),
            )
        )

    def of(self, zone: str) -> Finish | None:
        """The finish of a zone such as front_waist, back_leg or front_side; None where it has none of its own."""
        last = zone.rpartition("_")[2]
        return dict(self).get(last if last in ("waist", "side") else zone)


def usual_side(front_leg: Finish, waist: Finish) -> Finish:
    """How the edge of an open side is finished unless said: as the front leg, else the waist, where that can catch
    straps; else with a hem.
    """
    return next((one for one in (front_leg, waist) if one.kind in CATCHING), Finish(FinishKind.HEM))
