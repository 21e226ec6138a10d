"""The gusset's leg edge, beside a straight lace leg or a curved one: no hook, so that elastic can be turned in."""

import numpy as np
import pytest

from galloon import defaults
from galloon.design import Coverage, Drops, Lie, Shape, Style
from galloon.workflow.reckon import make_garment
from tests.support.designs import LARGE, MEDIUM, design, galloon, scalloped


def least_radius(curve):
    """Of a chain of cubics, from finite differences of many points."""
    found = []
    for piece in curve:
        points = np.array([piece.at(t) for t in np.linspace(0.0, 1.0, 2001)])
        first, second = np.gradient(points), np.gradient(np.gradient(points))
        bend = np.abs((np.conj(first) * second).imag) / np.abs(first) ** 3
        found.append(1.0 / bend[3:-3].max())
    return min(found)


@pytest.mark.parametrize("wearer", [MEDIUM, LARGE])
@pytest.mark.parametrize("panels", [("back",), ("front", "back")])
def test_its_edge_never_bends_more_sharply_than_elastic_can_be_turned(wearer, panels):
    uses = [scalloped(panel, lie=Lie.ALONG_LEG) for panel in panels]
    style = Style(centre_back_seam=True, centre_front_seam=True)
    garment = make_garment(design(wearer, uses=uses, lace=galloon(255.0), style=style))
    edge = garment.piece("gusset").part.edge("leg")
    assert least_radius(edge.curve) > defaults.GUSSET_BEND - 0.5
    placement = next(one for one in garment.placements if one.piece == "back")
    assert 0.0 <= placement.gusset_kink < 35.0


@pytest.mark.parametrize("wearer", [MEDIUM, LARGE])
@pytest.mark.parametrize("coverage", list(Coverage))
@pytest.mark.parametrize("raised", [0.0, 20.0, 60.0])
def test_nor_beside_a_curved_leg(wearer, coverage, raised):
    style = Style(Shape.BRIEF, Drops.level(30.0), raised, coverage=coverage)
    gusset = make_garment(design(wearer, style=style)).piece("gusset")
    assert least_radius(gusset.part.edge("leg").curve) > defaults.GUSSET_BEND - 0.5
