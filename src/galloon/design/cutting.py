"""How the maker wants her cutting planned, beyond what cloth and lace ask."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from galloon.errors import BadValue
from galloon.said import said

Order = Literal["shortest", "reading"]


@dataclass(frozen=True)
class CuttingWishes:
    """``order`` "reading": pieces one after another, none tucked beside another. ``centre_motif``: the middle of every
    piece on a scalloped edge lies on a motif. ``unmatched``: the motif may come out different on every piece.
    ``fold`` names the cloths that are laid folded along their length.
    """

    order: Order = "shortest"
    centre_motif: bool = False
    unmatched: bool = False
    fold: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.order not in ("shortest", "reading"):
            raise BadValue("cutting.order", said("must be shortest or reading"), self.order)
        if self.centre_motif and self.unmatched:
            raise BadValue("cutting.unmatched", said("cannot be true where centre_motif is true too"), self.unmatched)
