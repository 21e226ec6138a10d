"""What no layout can beat: area arithmetic, and the refusals that follow from it at once."""

from __future__ import annotations

from collections.abc import Sequence

from galloon.cutting.outlines import Ring, area, box
from galloon.errors import CannotMake
from galloon.said import Term, said


def area_bound(outlines: Sequence[Ring], width: float) -> float:
    """Length that the pieces' areas alone would fill, mm."""
    return sum(area(ring) for ring in outlines) / width


def refuse_too_wide(name: str, across: float, width: float) -> None:
    """Raises CannotMake when a piece is wider across than the cloth, however it lies."""
    if across > width + 1e-6:
        raise CannotMake(
            said("piece {piece}", piece=Term(name)),
            said(
                "is {across:.1f} mm across and the cloth is {width:.1f} mm wide, so it fits nowhere",
                across=across,
                width=width,
            ),
            hint=said("Use a wider cloth, or divide the piece with a seam."),
        )


def refuse_too_many(outlines: Sequence[Ring], room: float, what: str) -> None:
    """Raises CannotMake when the pieces' areas add up to more than ``room`` (mm²), with the arithmetic."""
    need = sum(area(ring) for ring in outlines)
    if need > room * (1 + 1e-9):
        raise CannotMake(
            what,
            said(
                "{count} pieces take {need:.0f} cm² and there are only {room:.0f} cm²: {short:.0f} cm² too little, "
                "however they are laid",
                count=len(outlines),
                need=need / 100,
                room=room / 100,
                short=(need - room) / 100,
            ),
            hint=said("Take a longer cloth, fewer pieces, or a smaller shape."),
        )


def longest(outlines: Sequence[Ring]) -> float:
    """Greatest extent along x of any outline, mm."""
    return max(right - left for left, _, right, _ in map(box, outlines))
