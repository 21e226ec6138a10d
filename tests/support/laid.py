"""What holds for every piece laid on a panel: it lies on its panels, is sewn once, and closes."""

import numpy as np
import shapely

from galloon.geometry import coordinates
from galloon.sewing import sewing_steps
from galloon.sewing.replay import replay
from tests.support.sound import assert_sound


def area(ring):
    return shapely.make_valid(shapely.polygons(coordinates(np.asarray(ring))))


def assert_laid(garment):
    """Every promise on laid pieces, and on the garment they lie on."""
    assert_sound(garment)
    pieces = {piece.name: piece for piece in garment.pieces}
    for piece in garment.pieces:
        assert all(name in pieces for name in piece.part.laid_on)
        if piece.part.laid_on:
            marks = [one for name in piece.part.laid_on for one in pieces[name].part.laid if one.name == piece.name]
            assert marks, f"{piece.name} lies nowhere"
        for laid in piece.part.laid:
            ring = area(laid.ring)
            assert ring.area > 0.0
            assert shapely.difference(ring, area(piece.stitch).buffer(0.05)).area < 1.0
    assert replay(garment, sewing_steps(garment)) == ()
