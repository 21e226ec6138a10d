"""The panels of one garment as bands of a girth or of an opening."""

from __future__ import annotations

import math

from galloon.drafting import Edge
from galloon.geometry import unit
from galloon.materials.tension import Band, Stretchiness, stretchiness, together
from galloon.pieces import Garment, Piece
from galloon.styling import layers_of, usual_angle


def layers(garment: Garment, piece: Piece, direction: complex) -> Stretchiness:
    """How a piece with its lining stretches along ``direction`` on the pattern."""
    design = garment.design
    turn = math.degrees(math.atan2(direction.imag, direction.real))
    cloth = design.cloths[piece.part.cloth]
    outer = stretchiness(cloth, turn - cloth_angle(garment, piece))
    covers = piece.part.covers
    linings = layers_of(design, covers)[1:] if covers in ("front", "back", "gusset") else ()
    return together(
        [outer, *(stretchiness(design.cloths[name], turn - usual_angle(design.cloths[name])) for name in linings)]
    )


def cloth_angle(garment: Garment, piece: Piece) -> float:
    """Degrees from the piece's x axis to the length of its cloth."""
    cloth = garment.design.cloths[piece.part.cloth]
    across = 0.0 if cloth.stretches_most == "length" else 90.0
    return piece.part.greatest_stretch + across


def edge_bands(garment: Garment, name: str) -> list[Band]:
    """Outer pieces' edges called ``name`` as bands in series: one leg, or the whole waist (both halves)."""
    both = 2.0 if name == "waist" else 1.0
    bands = []
    for piece in garment.outer:
        for edge in piece.edges:
            if edge.name == name:
                chord = chord_of(piece.part.edge(name))
                bands.append(Band(piece.name, both * edge.length, layers(garment, piece, chord)))
    return bands


def chord_of(edge: Edge) -> complex:
    """Unit direction from the start of an edge to its end."""
    return unit(edge.end - edge.start)


def hip_bands(garment: Garment) -> list[Band]:
    """Front and back at the hip as bands round the whole body."""
    frame = garment.frame
    bands = []
    for body in ("front", "back"):
        pieces = garment.covering(body)
        if pieces:
            bands.append(Band(body, 2.0 * frame.hip(body), layers(garment, pieces[0], 1.0 + 0.0j)))
    return bands
