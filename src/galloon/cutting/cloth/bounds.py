"""Lengths of cloth that no layout can beat."""

from __future__ import annotations

import numpy as np

from galloon.cutting.cloth.items import Item, Pose
from galloon.cutting.limits import area_bound, longest
from galloon.cutting.outlines import Ring, grown
from galloon.cutting.sections import levels_of, sections


def length_bound(items: tuple[Item, ...], width: float, clearance: float) -> float:
    """The greatest of: the areas laid out at full width; the longest item; what lies on the fold, one after another;

    and what the middle line must take.

    An item taller than half the width crosses the line along the middle of the cloth wherever it lies, so that line is
    at least as long as the least that each such item cuts from it, blade included.
    """
    outlines = [item.poses[0].outline for item in items]
    middle = [
        min(_least_on_middle(pose, width, clearance) for pose in item.poses)
        for item in items
        if not item.fold and item.poses[0].height > width / 2
    ]
    crossing = sum(middle) - 1.01 * clearance if middle else 0.0
    on_fold = [_on_fold(item.poses[0].outline) for item in items if item.fold]
    fold = sum(on_fold) + clearance * max(0, len(on_fold) - 1)
    return max(area_bound(outlines, width), longest(outlines), crossing, fold)


def _on_fold(outline: Ring) -> float:
    """Length (mm) that a half piece takes of the fold line y = 0."""
    sides = zip(outline, (*outline[1:], outline[0]), strict=True)
    return sum(abs(x - u) for (x, y), (u, v) in sides if abs(y) < 1e-6 and abs(v) < 1e-6)


def _least_on_middle(pose: Pose, width: float, clearance: float) -> float:
    polygon = grown(pose.outline, clearance / 2)
    low, high = pose.height - width / 2, width / 2
    levels = np.unique(np.concatenate([levels_of([polygon]), [low, high]]))
    cut = sections(polygon, levels)
    inside = (levels[:-1] >= low - 1e-9) & (levels[1:] <= high + 1e-9)
    if not inside.any():
        return 0.0
    bottom = np.nansum(cut.right0 - cut.left0, axis=1)[inside]
    top = np.nansum(cut.right1 - cut.left1, axis=1)[inside]
    return float(min(bottom.min(), top.min()))
