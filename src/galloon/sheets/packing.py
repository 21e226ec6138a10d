"""Boxes set on shelves, tallest first: a simple layout whose outcome depends on the boxes alone."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

#: Room between boxes, mm.
GAP: Final = 10.0

Size = tuple[float, float]
Spot = tuple[float, float]


def shelves(sizes: Sequence[Size], width: float) -> tuple[tuple[Spot, ...], Size]:
    """Lower left corners of the boxes, in the order given, and the size of the whole.

    Nothing is wider than ``width`` but a box that is so itself.
    The first shelf is the uppermost; y counts from the foot of the whole, upwards.
    """
    order = sorted(range(len(sizes)), key=lambda index: (-sizes[index][1], index))
    across, tops = [0.0] * len(sizes), [0.0] * len(sizes)
    x = down = high = wide = 0.0
    for index in order:
        if x > 0.0 and x + sizes[index][0] > width:
            x, down, high = 0.0, down + high + GAP, 0.0
        across[index], tops[index] = x, down
        high = max(high, sizes[index][1])
        x += sizes[index][0] + GAP
        wide = max(wide, x - GAP)
    whole = (wide, down + high)
    return tuple((across[i], whole[1] - tops[i] - sizes[i][1]) for i in range(len(sizes))), whole


def widths_worth_trying(sizes: Sequence[Size], most: float) -> tuple[float, ...]:
    """Shelf widths, up to ``most``, that just hold the first one, two, three … boxes side by side."""
    order = sorted(range(len(sizes)), key=lambda index: (-sizes[index][1], index))
    found, x = {max(width for width, _ in sizes)}, 0.0
    for index in order:
        x += sizes[index][0] + (GAP if x else 0.0)
        found.add(x)
    least = max(width for width, _ in sizes)
    return tuple(sorted(width for width in found if least <= width <= max(most, least)))
