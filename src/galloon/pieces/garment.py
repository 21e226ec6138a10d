"""One garment as drafted: everything that checks, cutting and sewing read."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from galloon.design import Design
from galloon.drafting import Draft, Frame, Lines, Reductions
from galloon.findings import Finding
from galloon.lace import DropNeed, Placement, Scene
from galloon.pieces.model import Piece
from galloon.styling import Part


@dataclass(frozen=True)
class Garment:
    """The pieces and how they came about.

    ``needs`` are the drops the laces ask for; ``notes`` what the drafting found.
    """

    scene: Scene
    parts: tuple[Part, ...]
    pieces: tuple[Piece, ...]
    placements: tuple[Placement, ...] = ()
    needs: tuple[DropNeed, ...] = ()
    notes: tuple[Finding, ...] = ()

    @property
    def design(self) -> Design:
        """The design it was made from."""
        return self.scene.design

    @property
    def frame(self) -> Frame:
        """The frame of its block."""
        return self.scene.frame

    @property
    def draft(self) -> Draft:
        """Its block with the drops in force."""
        return self.scene.draft

    @property
    def lines(self) -> Lines:
        """What the style asked."""
        return self.scene.lines

    @property
    def reductions(self) -> Reductions:
        """How much smaller the cloth is than the body."""
        return self.scene.reductions

    @property
    def angles(self) -> Mapping[str, float]:
        """How the cloth's length lies on each panel (degrees)."""
        return self.scene.angles

    @property
    def outer(self) -> tuple[Piece, ...]:
        """The pieces that are no lining."""
        return tuple(piece for piece in self.pieces if not piece.part.lining)

    def piece(self, name: str) -> Piece:
        """The piece called ``name``; KeyError if there is none."""
        for piece in self.pieces:
            if piece.name == name:
                return piece
        raise KeyError(f"no piece {name!r}")

    def covering(self, body: str) -> tuple[Piece, ...]:
        """Outer pieces that make front, back or gusset; those laid on others left out."""
        return tuple(piece for piece in self.outer if body in piece.part.bodies and not piece.part.laid_on)

    @property
    def side_seam(self) -> float:
        """Length of side seam left (mm), all parts of it together; 0 where there is none."""
        for piece in self.outer:
            parts = [edge.length for edge in piece.edges if edge.name == "side" or edge.name.startswith("upper side")]
            if parts and not piece.part.laid_on:
                return sum(parts) if piece.part.covers == "front" else self._whole_side(piece.part.covers)
        return 0.0

    def _whole_side(self, covers: str) -> float:
        return sum(edge.length for piece in self.covering(covers) for edge in piece.edges if "side" in edge.name)
