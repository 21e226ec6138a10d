"""Operations that a lace use asks for beside those its edges call for by themselves."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Final

from galloon.design import Use
from galloon.lace import Placement
from galloon.sewing.bench import Bench, Care, Operation
from galloon.sewing.operations import stages
from galloon.sewing.words import say
from galloon.styling import Pass
from galloon.styling.finish_table import LAPPED, LOCKSTITCH, ZIGZAG

LaceBuilder = Callable[[Bench, Placement], Iterable[Operation]]


def applique(bench: Bench, placement: Placement) -> Iterator[Operation]:
    """Motifs sewn round their outlines, before the panel they lie on is sewn to anything."""
    panel = placement.piece
    use = next((use for use in bench.garment.design.lace if use.use is Use.APPLIQUE), None)
    straight = use is not None and use.stitch == "straight"
    yield Operation(
        f"applique {panel}",
        stages.LACE,
        say("applique"),
        say("applique.do", panel=panel),
        free=tuple(sorted(key for key in bench.sewable if key.startswith(f"{panel}/"))),
        pieces=(panel,),
        sewn=Pass(LOCKSTITCH, say("setting.laid straight")) if straight else Pass(ZIGZAG, say("setting.lap")),
        seam_class=LAPPED,
        care=Care("", say("trim.cut away" if use is not None and use.cut_away else "laid.keep"), say("press.lace")),
    )


#: Uses with work of their own; all others follow from the edges of their pieces.
LACE_BUILDERS: Final[Mapping[Use, LaceBuilder]] = {Use.APPLIQUE: applique}


def lace_operations(bench: Bench) -> Iterator[Operation]:
    """What each placed lace asks for; once for each use and piece."""
    seen = set()
    for placement in bench.garment.placements:
        builder = LACE_BUILDERS.get(placement.use)
        if builder is not None and (placement.use, placement.piece) not in seen:
            seen.add((placement.use, placement.piece))
            yield from builder(bench, placement)
