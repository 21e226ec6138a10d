"""Corners at an open side: what is turned in at waist and leg reaches the side's own cut line when it is folded."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from galloon.design import Drops, Finish, FinishKind, OpenSide, Shape, Style
from galloon.geometry import coordinates
from galloon.materials import usual_elastic
from galloon.workflow.reckon import make_garment
from tests.support.designs import ELASTIC, MEDIUM, design, galloon, scalloped

SIDE = OpenSide(80.0, 50.0, usual_elastic("strap elastic 12 mm"), 3)
STYLE = Style(Shape.HIPSTER, Drops.level(60.0), 30.0)
EDGES = {
    "elastic": ELASTIC,
    "hem": Finish(FinishKind.HEM, wide=9.0),
    "fold-over": Finish(FinishKind.FOLD_OVER, usual_elastic("fold-over elastic 15 mm")),
    "binding": Finish(FinishKind.BINDING),
}


def opened(edge, **changes):
    plain = design(MEDIUM, style=changes.pop("style", STYLE), **changes)
    return make_garment(replace(plain, open_side=SIDE, finishes=replace(plain.finishes, side=edge)))


def folded_corner(piece, word):
    """The far corner of an allowance at the open side, turned in along its stitch line."""
    points = piece.edge_points(word)
    corner, inner = (points[0], points[1]) if word == "waist" else (points[-1], points[-2])
    along = (inner - corner) / abs(inner - corner)
    allowance = piece.edge(word).allowance
    placed = (piece.cut - corner) / along
    placed = placed[np.abs(placed) < 4.0 * allowance + 12.0]
    outside = placed.imag < 0.0 if word == "waist" else placed.imag > 0.0
    far = placed[outside & (np.abs(np.abs(placed.imag) - allowance) < 0.5)]
    tip = far[np.argmin(far.real)]
    return corner + along * tip.conjugate()


@pytest.mark.parametrize("edge", EDGES)
@pytest.mark.parametrize("name", ["front", "back"])
@pytest.mark.parametrize("word", ["waist", "leg"])
def test_what_is_turned_in_lies_on_the_cut_line_of_the_side(edge, name, word):
    piece = opened(EDGES[edge]).piece(name)
    ring = shapely.linearrings(coordinates(piece.cut))
    folded = folded_corner(piece, word)
    assert shapely.distance(shapely.points(folded.real, folded.imag), ring) < 0.6


@pytest.mark.parametrize("edge", EDGES)
def test_a_scallop_is_cut_off_where_the_side_runs_on(edge):
    piece = opened(
        EDGES[edge], uses=[scalloped("back")], lace=galloon(228.0), style=replace(STYLE, centre_back_seam=True)
    ).piece("back")
    side, corner = piece.edge_points("side"), piece.edge_points("leg")[-1]
    up = (side[1] - side[0]) / abs(side[1] - side[0])
    near = piece.cut[np.abs(piece.cut - corner) < 30.0]
    below = near[((near - corner) / up).real < 0.0]
    out = -((below - corner) / up).imag
    assert out.max() <= piece.edge("side").allowance + 0.05
