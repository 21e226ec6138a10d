"""Operations that a lace use asks for beside those its edges call for by themselves."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Final

from galloon.design import Use
from galloon.lace import Placement
from galloon.sewing.bench import Bench, Operation
from galloon.sewing.operations.laid import applique, insertion, overlay

LaceBuilder = Callable[[Bench, Placement], Iterable[Operation]]


#: Uses with work of their own; all others follow from the edges of their pieces.
LACE_BUILDERS: Final[Mapping[Use, LaceBuilder]] = {
    Use.OVERLAY: overlay,
    Use.INSERTION: insertion,
    Use.APPLIQUE: applique,
}


def lace_operations(bench: Bench) -> Iterator[Operation]:
    """What each placed lace asks for; once for each use and piece."""
    seen = set()
    for placement in bench.garment.placements:
        builder = LACE_BUILDERS.get(placement.use)
        if builder is not None and (placement.use, placement.piece) not in seen:
            seen.add((placement.use, placement.piece))
            yield from builder(bench, placement)
