"""Can these pieces be cut from this leftover? Every yes has passed an exact check of its outlines."""

from __future__ import annotations

from collections.abc import Sequence

from shapely.affinity import translate
from shapely.geometry import Polygon

from galloon.cutting.cloth.items import Item, items_of
from galloon.cutting.cloth.model import Cloth, ClothPiece, ClothRules
from galloon.cutting.limits import refuse_too_many
from galloon.cutting.model import Placed
from galloon.cutting.outlines import Ring, area, clashes, shifted
from galloon.cutting.remnant.model import Fit, Remnant, RemnantRules
from galloon.cutting.remnant.search import At, answers, room_of
from galloon.errors import BadValue
from galloon.tolerance import CUT_TOUCH

#: Steps to the remnant's longer side, coarse then fine, and the share of the moves each is given.
_LEVELS = ((100, 0.4), (200, 0.6))

_PLAIN = RemnantRules()


def plan_remnant(remnant: Remnant, pieces: Sequence[ClothPiece], rules: RemnantRules = _PLAIN) -> Fit:
    """Looks for places for all the pieces, kept to the cloth's directions (half turns only, none with a nap).

    The same input gives the same answer. Raises CannotMake at once when the areas, or one piece, can never fit.
    """
    shape = remnant.shape
    left, low, right, top = shape.bounds
    if any(piece.on_fold for piece in pieces):
        raise BadValue("pieces for a remnant", "are cut open, not on a fold", [p.name for p in pieces if p.on_fold])
    items = items_of(Cloth(top - low, remnant.nap), tuple(pieces), ClothRules(rules.clearance))
    outlines = [item.poses[0].outline for item in items]
    refuse_too_many(outlines, shape.area, "cutting from this remnant")
    use = sum(map(area, outlines)) / shape.area
    local = translate(shape, -left, -low)
    for level, (steps, share) in enumerate(_LEVELS):
        step = max(right - left, top - low) / steps
        room = room_of(local, items, rules.clearance, step)
        for lies in answers(room, int(rules.moves * share), seed=level):
            placed = [_outline(item, lie, step, (left, low)) for item, lie in zip(items, lies, strict=True)]
            if holds(shape, placed, rules.clearance):
                return Fit(True, _placed(items, lies, placed), use, "All pieces fit; the places are checked.")
    return Fit(False, (), use, "No places were found for all pieces. That does not prove there are none.")


def holds(shape: Polygon, outlines: Sequence[Ring], clearance: float) -> bool:
    """True when every outline lies on the cloth and none comes too near another; by exact geometry."""
    room = shape.buffer(CUT_TOUCH, quad_segs=2)
    return all(room.covers(Polygon(ring)) for ring in outlines) and not clashes(outlines, clearance)


def _outline(item: Item, lie: At, step: float, origin: tuple[float, float]) -> Ring:
    x, y = origin
    return shifted(item.poses[lie.pose].outline, x + lie.column * step, y + lie.row * step)


def _placed(items: Sequence[Item], lies: Sequence[At], outlines: Sequence[Ring]) -> tuple[Placed, ...]:
    return tuple(
        placed
        for item, lie, outline in zip(items, lies, outlines, strict=True)
        for placed in item.placed(item.poses[lie.pose], outline)
    )
