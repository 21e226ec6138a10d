"""What a garment is made up of by weight: every cloth, lace and elastic in it, for the fibre worksheet."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from galloon.materials import Cloth, Elastic, fibre_shares, mixed
from galloon.pieces import Garment
from galloon.sewing.model import ElasticRow

_MM2_PER_M2: Final = 1e6


@dataclass(frozen=True)
class Ingredient:
    """One cloth, lace or elastic in the garment: ``area`` mm² or ``length`` mm, and ``weight`` in grams where the maker
    told what it weighs.
    """

    name: str
    where: tuple[str, ...]
    fibre: str
    area: float | None
    length: float | None
    weight: float | None

    @property
    def shares(self) -> Mapping[str, float]:
        """Fractions by fibre; empty where she has not told them."""
        return fibre_shares(self.fibre)

    @property
    def known(self) -> bool:
        """Whether both its weight and its fibres are told."""
        return self.weight is not None and bool(self.shares)


def make_up(garment: Garment, elastics: Sequence[ElasticRow]) -> tuple[Ingredient, ...]:
    """Cloths in the order of the pieces, then what is laid on the edges. Areas are inside the cut lines, before
    anything is trimmed away.
    """
    return (*_cloths(garment), *_edges(garment, elastics))


def fibres(ingredients: Sequence[Ingredient]) -> dict[str, float]:
    """Fractions by fibre of all that is known of the garment, the heaviest first."""
    return mixed((each.weight or 0.0, each.shares) for each in ingredients if each.known)


def _cloths(garment: Garment) -> Iterator[Ingredient]:
    for name in dict.fromkeys(piece.part.cloth for piece in garment.pieces):
        mine = [piece for piece in garment.pieces if piece.part.cloth == name]
        area = sum(piece.area * piece.part.quantity * (2.0 if piece.part.fold else 1.0) for piece in mine)
        cloth = garment.design.cloths[name]
        yield Ingredient(name, tuple(piece.name for piece in mine), cloth.fibre, area, None, _weight(cloth, area))


def _weight(cloth: Cloth, area: float) -> float | None:
    return None if cloth.weight is None else cloth.weight * area / _MM2_PER_M2


def _edges(garment: Garment, elastics: Sequence[ElasticRow]) -> Iterator[Ingredient]:
    trims = {finish.name: finish.trim for _, finish in garment.design.finishes if finish.trim is not None}
    bands = {elastic.name: elastic for elastic in garment.design.elastics}
    for kind in dict.fromkeys(str(row.kind) for row in elastics):
        rows = [row for row in elastics if row.kind == kind]
        where = tuple(dict.fromkeys(str(row.edge) for row in rows))
        length = sum(row.cut_length * row.count for row in rows)
        trim = trims.get(kind)
        if trim is not None:
            area = length * trim.width
            yield Ingredient(trim.name, where, trim.fibre, area, length, _weight(trim, area))
        else:
            yield _band(kind, where, length, bands.get(kind))


def _band(kind: str, where: tuple[str, ...], length: float, elastic: Elastic | None) -> Ingredient:
    per_metre = elastic.weight if elastic is not None else None
    weight = None if per_metre is None else per_metre * length / 1000.0
    return Ingredient(kind, where, elastic.fibre if elastic is not None else "", None, length, weight)
