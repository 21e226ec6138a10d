"""The longer search on a cloth: an outside strip packing library proposes, our exact checks dispose.

What passes them is compacted and checked again.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from typing import Any, TypeAlias

from galloon.cutting.cloth.compact import compacted
from galloon.cutting.cloth.fill import Grid, Spot, best_fill, length_of
from galloon.cutting.cloth.press import pressed
from galloon.cutting.cloth.searches import Searches
from galloon.cutting.model import Progress
from galloon.cutting.outlines import box, clashes, grown, shifted
from galloon.tolerance import CUT_STEP

#: When it began and how many seconds it has; who hears of it; whether it is to end.
How: TypeAlias = tuple[float, float, Callable[[Progress], None], Callable[[], bool]]
#: With more items than this, and so many seconds, our own orders are tried only where the library finds nothing.
_FEW, _SHORT = 20, 10.0
#: Seconds between two checks of what the library proposes, and what its start and end take of the time.
_CHECK_EVERY, _AROUND = 3.0, 1.0
#: Share of a core that checks may take from the search.
_CHECKS_TAKE = 0.03
#: Most that compaction takes off a layout of the library, as a share of its length; mostly it is under 0.7 %.
_GAINS = 0.01
#: Share of the width that the library is given on top of it; compaction takes it back.
_ROOM = 1e-4
#: Seconds after its time at which a search that has not ended is given up.
_LATEST = 20.0


def search_longer(
    grid: Grid,
    tries: int,
    bound: float,
    *,
    seconds: float,
    progress: Callable[[Progress], None],
    cancelled: Callable[[], bool],
) -> tuple[Spot, ...]:
    """The best valid layout found: the library's, or our own of ``tries`` orders, or of one order if cancelled.

    Items on a fold are searched by our own fill alone. Ends at ``bound``, which no layout can beat.
    """
    begun = time.monotonic()
    if any(item.fold for item in grid.items):
        return _more_fills(grid, tries, bound, (begun, seconds, progress, cancelled))
    with Searches(_task(grid, seconds)) as searches:
        few = len(grid.items) <= _FEW or seconds < _SHORT
        first = _filled(grid, tries if few else 0, bound, cancelled)
        best = _listen(grid, first, bound, searches, (begun, seconds, progress, cancelled))
    if best == first and not few and not cancelled():
        best = min(best, _filled(grid, tries, bound, cancelled), key=lambda s: length_of(grid, s))
    return best


def _listen(
    grid: Grid,
    best: tuple[Spot, ...],
    bound: float,
    searches: Searches,
    how: How,
) -> tuple[Spot, ...]:
    """The best layout heard of.

    The shortest one waiting is checked every few seconds, for checks cost time too; at the end all that compaction may
    make the best, as long as there is time.
    """
    begun, seconds, progress, cancelled = how
    waiting: dict[int, dict[str, Any]] = {}
    due = begun + _CHECK_EVERY
    while length_of(grid, best) > bound + CUT_STEP:
        waiting.update(searches.news())
        worth = length_of(grid, best) * (1 + _GAINS)
        waiting = {seed: found for seed, found in waiting.items() if found["width"] < worth}
        ends = not searches.running or cancelled() or time.monotonic() > begun + seconds + _LATEST
        if waiting and (ends or time.monotonic() >= due):
            started = time.monotonic()
            best = _better(grid, best, waiting.pop(min(waiting, key=lambda seed: waiting[seed]["width"])))
            now = time.monotonic()
            due = now + max(_CHECK_EVERY, (now - started) / _CHECKS_TAKE)
        progress(Progress(time.monotonic() - begun, length_of(grid, best), bound))
        if ends and (not waiting or cancelled() or time.monotonic() > begun + seconds):
            break
    return best


def _more_fills(grid: Grid, tries: int, bound: float, how: How) -> tuple[Spot, ...]:
    begun, seconds, progress, cancelled = how
    usual = _filled(grid, tries, bound, cancelled)
    if length_of(grid, usual) <= bound + CUT_STEP:
        return usual

    def stop() -> bool:
        gone = time.monotonic() - begun
        progress(Progress(gone, length_of(grid, usual), bound))
        return cancelled() or gone > seconds

    found = _filled(grid, 10**9, bound, stop)
    return min(usual, found, key=lambda s: length_of(grid, s))


def _filled(grid: Grid, tries: int, bound: float, stop: Callable[[], bool]) -> tuple[Spot, ...]:
    """Our own best layout of so many orders, compacted unless nothing can be shorter."""
    found = pressed(grid, best_fill(grid, tries, bound, stop))
    return found if length_of(grid, found) <= bound + CUT_STEP else _closer(grid, found) or found


def _kinds(grid: Grid) -> dict[str, list[int]]:
    """Items that may change places: those of one piece and one hand."""
    kinds: dict[str, list[int]] = {}
    for number, item in enumerate(grid.items):
        kinds.setdefault(f"{item.kind[0]}{'m' if item.kind[1] else ''}", []).append(number)
    return kinds


def _task(grid: Grid, seconds: float) -> dict[str, Any]:
    items = []
    for name, numbers in _kinds(grid).items():
        poses = grid.items[numbers[0]].poses
        shape = list(grown(poses[0].outline, grid.clearance / 2).exterior.coords)[:-1]
        turns = [180.0 if pose.turn else 0.0 for pose in poses]
        items.append({"id": name, "shape": shape, "demand": len(numbers), "orientations": turns})
    # The library takes outlines that touch for clashing: without a little more room nothing could fill the width.
    height = (grid.width + grid.clearance * 1.005) * (1 + _ROOM)
    return {"height": height, "seconds": max(1, round(seconds - _AROUND)), "items": items}


def _better(grid: Grid, best: tuple[Spot, ...], proposal: dict[str, Any]) -> tuple[Spot, ...]:
    """The proposal compacted, as it is or pushed together, if it passes the check and is shorter than ``best``."""
    free = {name: list(numbers) for name, numbers in _kinds(grid).items()}
    spots: dict[int, Spot] = {}
    for name, rotation, x, y in proposal["placed"]:
        number = free[name].pop(0)
        spots[number] = _spot(grid, number, round(rotation) % 360 == 180, (x, y))
    given = tuple(spots[number] for number in range(len(grid.items)))
    # Pushing repairs more than a trace of overlap, but may throw a piece far that only touched another.
    found = _closer(grid, given) or _closer(grid, pressed(grid, given))
    return min(best, found or best, key=lambda one: length_of(grid, one))


def _closer(grid: Grid, spots: tuple[Spot, ...]) -> tuple[Spot, ...] | None:
    """The layout compacted, which also repairs a trace of overlap, or as it was; None if neither passes the check."""
    valid = [one for one in (compacted(grid, spots), spots) if _valid(grid, one)]
    return min(valid, key=lambda one: length_of(grid, one), default=None)


def _spot(grid: Grid, number: int, turned: bool, at: tuple[float, float]) -> Spot:
    poses = grid.items[number].poses
    index = next(k for k, pose in enumerate(poses) if pose.turn == turned)
    _, _, right, top = box(poses[0].outline)
    half = grown(poses[0].outline, grid.clearance / 2).bounds[0]
    # The library turns about the origin; our turned pose has been moved back into the first quadrant. Its strip
    # begins where the grown outline does.
    x, y = (at[0] - right, at[1] - top) if turned else at
    return Spot(index, x + half, min(max(y + half, 0.0), grid.width - poses[index].height))


def _valid(grid: Grid, spots: Sequence[Spot]) -> bool:
    outlines = [shifted(item.poses[s.pose].outline, s.x, s.y) for item, s in zip(grid.items, spots, strict=True)]
    inside = all(-1e-6 <= y <= grid.width + 1e-6 for ring in outlines for _, y in ring)
    return inside and not clashes(outlines, grid.clearance)
