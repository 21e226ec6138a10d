"""What is set down one at a time: a copy, or on folded cloth two at once, in every way it may lie."""

from __future__ import annotations

from dataclasses import dataclass

from galloon.cutting.cloth.model import Cloth, ClothPiece, ClothRules
from galloon.cutting.limits import refuse_too_many, refuse_too_wide
from galloon.cutting.model import Placed
from galloon.cutting.outlines import Ring, box, shifted, turned
from galloon.errors import BadValue
from galloon.said import said


@dataclass(frozen=True)
class Pose:
    """One way for an item to lie; the outline has its least x and least y at 0."""

    flip: bool
    turn: bool
    outline: Ring
    height: float


@dataclass(frozen=True)
class Item:
    """Copies cut together (two through a folded cloth) and their poses; ``fold``: must lie on y = 0."""

    piece: str
    copies: tuple[int, ...]
    poses: tuple[Pose, ...]
    fold: bool
    kind: tuple[int, bool]

    def placed(self, pose: Pose, outline: Ring) -> tuple[Placed, ...]:
        """The copies that one outline on the cloth gives; the under layer comes out mirrored."""
        edge = "fold" if self.fold else ""
        flips = (pose.flip, not pose.flip)
        return tuple(
            Placed(self.piece, copy, flip, edge, pose.turn, outline)
            for copy, flip in zip(self.copies, flips, strict=False)
        )


def items_of(cloth: Cloth, pieces: tuple[ClothPiece, ...], rules: ClothRules) -> tuple[Item, ...]:
    """Every item to set down. Raises CannotMake for what fits nowhere or can never fit."""
    if not pieces:
        raise BadValue("pieces to cut", "must be at least one", 0)
    found: list[Item] = []
    for index, piece in enumerate(pieces):
        if piece.on_fold and not cloth.folded:
            raise BadValue(f"piece {piece.name}", "is cut on a fold, so the cloth must be folded", cloth.folded)
        _, low, _, high = box(piece.outline)
        refuse_too_wide(piece.name, high - low, cloth.lying)
        found += _items(cloth, piece, index)
    if cloth.length is not None:
        outlines = [item.poses[0].outline for item in found]
        refuse_too_many(outlines, cloth.lying * cloth.length, said("cutting from the cloth on hand"))
    return tuple(found)


def _items(cloth: Cloth, piece: ClothPiece, index: int) -> list[Item]:
    twins = piece.copies // 2 if piece.mirrored else 0
    singles = piece.copies - twins
    if piece.on_fold:
        return [_item(cloth, piece, (index, False), (number,)) for number in range(1, piece.copies + 1)]
    if cloth.folded and piece.mirrored:
        return [_item(cloth, piece, (index, False), (n, n + singles)) for n in range(1, singles + 1)]
    return [_item(cloth, piece, (index, n > singles), (n,)) for n in range(1, piece.copies + 1)]


def _item(cloth: Cloth, piece: ClothPiece, kind: tuple[int, bool], copies: tuple[int, ...]) -> Item:
    poses = tuple(_pose(piece, kind[1], turn) for turn in ((False,) if cloth.nap else (False, True)))
    return Item(piece.name, copies, poses, piece.on_fold, kind)


def _pose(piece: ClothPiece, flip: bool, turn: bool) -> Pose:
    # Half a turn of a piece that opens out from the fold shows as its half mirrored along the fold.
    laid = turned(piece.outline, flip=flip != (turn and piece.on_fold), half_turn=turn and not piece.on_fold)
    left, low, _, high = box(laid)
    return Pose(flip, turn, shifted(laid, -left, -low), high - low)
