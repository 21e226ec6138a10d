"""A design: everything one brief says, as checked values in millimetres, degrees and fractions."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from types import MappingProxyType
from typing import Final

from galloon.body import Wearer
from galloon.design.cutting import CuttingWishes
from galloon.design.finish import Finishes
from galloon.design.lace_use import LaceUse, Motif
from galloon.design.open_side import OpenSide
from galloon.design.style import Style
from galloon.errors import BadValue
from galloon.materials import Cloth, Elastic
from galloon.said import said
from galloon.units import limits


@dataclass(frozen=True)
class ProvenBlock:
    """Figures of the maker's own block that win over the draft's; mm on the flat, relaxed pattern, None where not
    known.

    Hip, waist and gusset figures are full widths of the piece; ``side`` runs along the side seam from waist to leg,
    ``centre_front`` and ``centre_back`` from waist to gusset seam.
    """

    side: float | None = None
    centre_front: float | None = None
    centre_back: float | None = None
    gusset_length: float | None = None
    gusset_front: float | None = None
    gusset_back: float | None = None
    gusset_narrowest: float | None = None
    front_hip: float | None = None
    back_hip: float | None = None
    front_waist: float | None = None
    back_waist: float | None = None

    def __post_init__(self) -> None:
        for item in fields(self):
            value = getattr(self, item.name)
            if value is not None and not 10.0 <= value <= 1500.0:
                raise BadValue(f"block.{item.name}", limits(1, 150, "cm"), f"{value / 10:g} cm")


@dataclass(frozen=True)
class Panels:
    """Names of the cloths each panel is cut from; empty where there is none."""

    front: str
    back: str
    gusset: str
    gusset_lining: str = ""
    front_lining: str = ""
    back_lining: str = ""
    upper_back: str = ""

    def items(self) -> tuple[tuple[str, str], ...]:
        """Panel name and cloth name, those without a cloth left out."""
        return tuple(item for item in vars(self).items() if item[1])


#: Least allowance (mm) of a lace that laps over a seam and is cut back round its motifs; common practice, no source.
LEAST_LAP: Final = 15.0


@dataclass(frozen=True)
class Allowances:
    """Seam allowance, and what the upper and under layer of a lapped lace seam get; mm."""

    seam: float = 6.0
    lapped_upper: float = 20.0
    lapped_under: float = 8.0

    def __post_init__(self) -> None:
        for item in fields(self):
            value = getattr(self, item.name)
            if not 0.0 <= value <= 40.0:
                raise BadValue(f"allowance.{item.name}", limits(0, 4, "cm"), f"{value:g} mm")
        if self.lapped_upper < LEAST_LAP:
            rule = said("must lie between 1.5 and 4 cm: it is cut back round the motifs")
            raise BadValue("allowance.lapped_upper", rule, f"{self.lapped_upper:g} mm")


@dataclass(frozen=True)
class Design:
    """The whole brief. ``girth_reduction`` and ``length_reduction`` (fractions) win over what the cloth would give."""

    title: str
    wearer: Wearer
    cloths: Mapping[str, Cloth]
    panels: Panels
    style: Style
    finishes: Finishes
    block: ProvenBlock = ProvenBlock()
    allowances: Allowances = Allowances()
    lace: tuple[LaceUse, ...] = ()
    motifs: tuple[Motif, ...] = ()
    units: str = "cm"
    girth_reduction: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    length_reduction: float | None = None
    cutting: CuttingWishes = field(default_factory=CuttingWishes)
    open_side: OpenSide | None = None

    def __post_init__(self) -> None:
        names = [name for _, name in self.panels.items()] + [use.cloth for use in self.lace]
        names += [use.upper_cloth for use in self.lace if use.upper_cloth]
        for name in names:
            if name not in self.cloths:
                raise BadValue(
                    "cloth", said("must be one of {words}", words=", ".join(self.cloths) or "none given"), name
                )
        for name in self.cutting.fold:
            if name not in self.cloths or self.cloths[name].lace is not None:
                raise BadValue("cutting.fold", said("must name cloths of the brief that are no lace"), name)
        if self.open_side is None and self.finishes.side is not None:
            raise BadValue("finish.side", said("needs an open side: give [open_side] its gap"), self.finishes.side.name)
        if self.open_side is not None and self.finishes.side is None:
            raise BadValue("finish.side", said("must be given where the sides are open"), "nothing")
        for panel, reduction in self.girth_reduction.items():
            if not -0.1 <= reduction <= 0.5:
                raise BadValue(f"reduction.{panel}", limits(-10, 50, "%"), f"{reduction * 100:g} %")
        if self.length_reduction is not None and not -0.05 <= self.length_reduction <= 0.3:
            raise BadValue("reduction.length", limits(-5, 30, "%"), f"{self.length_reduction * 100:g} %")

    @property
    def elastics(self) -> tuple[Elastic, ...]:
        """Every elastic it uses, each as often as it is used: of the finishes, and of the straps of an open side."""
        finished = tuple(finish.elastic for _, finish in self.finishes if finish.elastic is not None)
        return finished if self.open_side is None else (*finished, self.open_side.elastic)

    def cloth_of(self, panel: str) -> Cloth:
        """The cloth ``panel`` is cut from; KeyError where it has none."""
        return self.cloths[dict(self.panels.items())[panel]]
