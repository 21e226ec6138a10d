"""Plans for a cloth with a width: the default one of fixed work, and the longer search."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from galloon.cutting.cloth.bounds import length_bound
from galloon.cutting.cloth.fill import Grid, Spot, best_fill, grid_of, length_of
from galloon.cutting.cloth.items import items_of
from galloon.cutting.cloth.longer import search_longer
from galloon.cutting.cloth.model import Cloth, ClothPiece, ClothRules
from galloon.cutting.cloth.press import pressed
from galloon.cutting.model import ANOTHER_RUN, Placed, Plan, Progress
from galloon.cutting.outlines import Ring, area, box, clashes, shifted
from galloon.errors import CannotMake
from galloon.said import in_a_row, said
from galloon.tolerance import CUT_STEP

_PLAIN = ClothRules()
#: Items set down at most, over all orders, before the default plan is cut off.
_SET_DOWN = 400


def plan_cloth(cloth: Cloth, pieces: Sequence[ClothPiece], rules: ClothRules = _PLAIN) -> Plan:
    """A layout found with a fixed amount of work: the same input always gives the same plan.

    Raises CannotMake when a piece is wider than the cloth, or the areas cannot fit on the length there is.
    """
    grid, bound = _grid(cloth, pieces, rules)
    spots = pressed(grid, best_fill(grid, _tries(grid, rules), bound))
    return _plan(cloth, grid, spots, bound)


def plan_cloth_longer(
    cloth: Cloth,
    pieces: Sequence[ClothPiece],
    rules: ClothRules = _PLAIN,
    *,
    seconds: float = 60.0,
    progress: Callable[[Progress], None] = lambda _: None,
    cancelled: Callable[[], bool] = lambda: False,
) -> Plan:
    """As ``plan_cloth``, searched on until the clock or ``cancelled`` ends it; not the same bytes every time.

    Never longer than the default plan of up to 20 pieces, unless ``cancelled`` ends even that one early; with more the
    library's search takes its place.
    """
    grid, bound = _grid(cloth, pieces, rules)
    spots = search_longer(grid, _tries(grid, rules), bound, seconds=seconds, progress=progress, cancelled=cancelled)
    return _plan(cloth, grid, spots, bound, ANOTHER_RUN)


def plan_cloth_plain(cloth: Cloth, pieces: Sequence[ClothPiece], rules: ClothRules = _PLAIN) -> Plan:
    """The plain reading order: pieces as given, none turned, each as near the cut end as it goes."""
    grid, bound = _grid(Cloth(cloth.width, True, cloth.folded, cloth.length), pieces, rules)
    return _plan(cloth, grid, pressed(grid, best_fill(grid, 0, bound)), bound)


def bound_cloth(cloth: Cloth, pieces: Sequence[ClothPiece], rules: ClothRules = _PLAIN) -> float:
    """A length (mm) that no layout is shorter than, reckoned without searching. Raises CannotMake as ``plan_cloth``."""
    # Turned pieces only matter on the line along the middle, which a piece crosses only where it is this tall.
    tall = any(high - low > cloth.lying / 2 for _, low, _, high in (box(piece.outline) for piece in pieces))
    items = items_of(cloth if tall else replace(cloth, nap=True), tuple(pieces), rules)
    return length_bound(items, cloth.lying, rules.clearance)


def _grid(cloth: Cloth, pieces: Sequence[ClothPiece], rules: ClothRules) -> tuple[Grid, float]:
    items = items_of(cloth, tuple(pieces), rules)
    return grid_of(items, cloth.lying, rules.clearance), length_bound(items, cloth.lying, rules.clearance)


def _tries(grid: Grid, rules: ClothRules) -> int:
    """Orders to try: fewer where each takes longer to set down."""
    return min(rules.tries, _SET_DOWN // len(grid.items))


def _plan(cloth: Cloth, grid: Grid, spots: Sequence[Spot], bound: float, *notes: str) -> Plan:
    outlines: list[Ring] = []
    placed: list[Placed] = []
    for item, spot in zip(grid.items, spots, strict=True):
        outlines.append(shifted(item.poses[spot.pose].outline, spot.x, spot.y))
        placed += item.placed(item.poses[spot.pose], outlines[-1])
    wrong = clashes(outlines, grid.clearance)
    if wrong:
        raise CannotMake("the cloth layout", "failed its own check for overlaps", wrong)
    length = length_of(grid, spots)
    low = min(bound, length)
    proven = low >= length - CUT_STEP
    open_still = in_a_row(" ", [said("It is not proven that nothing shorter exists."), *notes])
    return Plan(
        width=cloth.lying,
        length=length,
        lower_bound=length if proven else low,
        proven=proven,
        grid=None,
        use=sum(map(area, outlines)) / (cloth.lying * length),
        placed=tuple(placed),
        folded=cloth.folded,
        says=said("This is proven: no layout is shorter.") if proven else open_still,
    )
