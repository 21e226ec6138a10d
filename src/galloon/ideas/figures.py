"""The figures of one idea, taken from what the engine reckoned of it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

import numpy as np

from galloon import defaults
from galloon.findings import Finding, Status
from galloon.geometry import Points, flatten, ring_area
from galloon.pieces import Garment, Piece, ring_of
from galloon.sewing import ShoppingRow, Step, sewing_steps
from galloon.workflow import Judged

#: Findings that tell how a garment wears; each warning among them costs comfort.
COMFORT: Final = frozenset(
    {
        "panel strain",
        "side seams sit at the side",
        "hold of the panels",
        "scallop holds without elastic",
        "gusset width",
        "V inset ends at the side",
        "centre seam through the gusset",
        "trim lies flat",
        "waistband lies close",
        "leg opens over the thigh",
        "waist opens over the hips",
    }
)


@dataclass(frozen=True)
class Figures:
    """What is known of one idea; lengths in mm, shares as fractions.

    ``back`` compares the back with that of a full brief. ``needs`` are what is needed of each cloth before its first
    wash: with ``planned`` by a true cutting plan, without it from a bound that no plan is shorter than. ``buy`` is what
    has to be bought of all cloths, ``cost`` the worth of the cloth that goes in (None: no price is known). ``scraps``
    is the share of the area that comes from pieces on hand too short for much else. ``strain`` is worn over usual
    strain of the hardest pulled panel, ``warnings`` the names of all warnings.
    """

    back: float
    side_seam: float
    drop: tuple[float, float, float]
    needs: tuple[tuple[str, float], ...]
    planned: bool
    buy: float
    cost: float | None
    scraps: float
    strain: float
    steps: int
    pieces: int
    warnings: tuple[str, ...]

    @property
    def harsh(self) -> int:
        """How many warnings tell of comfort."""
        return sum(name in COMFORT for name in self.warnings)


def figures_of(
    judged: Judged,
    whole_back: float,
    *,
    planned: bool,
    steps: Iterable[Step] | None = None,
    leftovers: Mapping[str, float] = MappingProxyType({}),
) -> Figures:
    """The figures of a reckoned garment; ``whole_back`` is the area (mm²) of a full brief's back on the body.

    ``leftovers`` are the areas (mm²) that come from leftovers of a cloth rather than from its length on hand.

    Raises CannotMake where it cannot be sewn in any order.
    """
    garment = judged.garment
    draft = garment.draft
    sewn = tuple(sewing_steps(garment) if steps is None else steps)
    return Figures(
        back_area(garment) / whole_back,
        garment.side_seam,
        (draft.front_drop, draft.side_drop, draft.back_drop),
        tuple((row.cloth, row.need) for row in judged.shopping if row.cloth in garment.design.cloths),
        planned,
        sum(row.buy for row in judged.shopping if row.cloth in garment.design.cloths),
        _cost(garment, judged.shopping),
        _from_scraps(garment, judged.shopping, leftovers),
        _strain(judged.findings),
        len(sewn),
        sum(piece.part.quantity for piece in garment.pieces),
        tuple(finding.name for finding in judged.findings if finding.status is Status.WARN),
    )


def back_area(garment: Garment) -> float:
    """Area (mm²) of the whole back as it lies on the body: the drafted area over what the cloth is reduced by."""
    return 2.0 * abs(ring_area(drafted_ring(garment, "back"))) / (1.0 - garment.reductions.back)


def drafted_ring(garment: Garment, body: str) -> Points:
    """The outline of half of the drafted front or back, whatever pieces it is made of."""
    edges = garment.draft.panels[body].edges
    return np.concatenate([flatten(edge.curve, 0.2)[:-1] for edge in edges])


def _cost(garment: Garment, rows: Iterable[ShoppingRow]) -> float | None:
    cloths = garment.design.cloths
    worth = [
        price * row.need / 1000.0
        for row in rows
        if row.cloth in cloths and (price := cloths[row.cloth].price) is not None
    ]
    return sum(worth) if worth else None


def _from_scraps(garment: Garment, rows: Iterable[ShoppingRow], leftovers: Mapping[str, float]) -> float:
    areas = _areas(garment.pieces)
    for row in rows:
        if row.cloth in garment.design.cloths and row.cloth not in areas:
            areas[row.cloth] = row.need * garment.design.cloths[row.cloth].width
    total = sum(areas.values())
    scraps = sum(
        area if is_scrap(garment.design.cloths[name].on_hand) else min(area, leftovers.get(name, 0.0))
        for name, area in areas.items()
    )
    return scraps / total if total else 0.0


def is_scrap(on_hand: float | None) -> bool:
    """Whether so much of a cloth (mm) counts as a leftover: there is some, and too little for much else."""
    return on_hand is not None and 0.0 < on_hand <= float(defaults.SCRAP_LENGTH)


def _areas(pieces: Iterable[Piece]) -> dict[str, float]:
    """By cloth, the area (mm²) of all copies of all its pieces."""
    found: dict[str, float] = {}
    for piece in pieces:
        area = abs(ring_area(ring_of(piece))) * piece.part.quantity
        found[piece.part.cloth] = found.get(piece.part.cloth, 0.0) + area
    return found


def _strain(findings: Iterable[Finding]) -> float:
    """The greatest of worn over usual strain among the panels."""
    shares = [
        finding.value / finding.limit
        for finding in findings
        if finding.name == "panel strain" and finding.value is not None and finding.limit
    ]
    return max(shares, default=0.0)


def failing(findings: Iterable[Finding], passed_over: Mapping[str, bool]) -> Finding | None:
    """The first finding that fails, those whose name is passed over left out."""
    return next((one for one in findings if one.status is Status.FAIL and not passed_over.get(one.name)), None)
