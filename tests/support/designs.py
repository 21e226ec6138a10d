"""Designs built in code for the tests: an imaginary maker's laces, cloths and briefs."""

from dataclasses import replace

from galloon.body import Wearer
from galloon.design import (
    Design,
    Finish,
    Finishes,
    FinishKind,
    LaceUse,
    Lie,
    Panels,
    ProvenBlock,
    Style,
    Use,
)
from galloon.materials import (
    Cloth,
    Edges,
    Kind,
    LaceEdges,
    PullTest,
    Scallops,
    SecondEdge,
    usual_elastic,
)

ELASTIC = Finish(FinishKind.ELASTIC, usual_elastic("picot elastic 8 mm"))
SCALLOP = Finish(FinishKind.SCALLOP)
MEDIUM = Wearer(740.0, 1010.0, 210.0, 730.0, top_hip=900.0, thigh=590.0, height=1690.0)
#: The invented wearer of the fact of the trade in test_trade_fact.
LARGE = Wearer(900.0, 1180.0, 210.0, 820.0)
MESH = Cloth("mesh", Kind.MESH, 1500.0, 0.50, 0.70, recovery=0.95, opacity=0.6)
TESTED_MESH = replace(MESH, pull_tests=(PullTest("width", 50.0, 500.0, 0.32),))
#: A narrow stretch lace to lay on edges.
EDGING = Cloth("edging", Kind.LACE, 18.0, 0.60, 0.10, lace=LaceEdges(Edges.SINGLE, Scallops(14.0, 4.0)))
RIGID = Cloth("tulle", Kind.RIGID, 1400.0)


def galloon(solid=228.0, *, pitch=42.0, depth=11.0, repeat=84.0, **facts):
    """A double-scalloped lace whose solid width is ``solid`` mm."""
    scallops = Scallops(pitch, depth)
    symmetry = {key: facts.pop(key) for key in ("mirror_across", "second_edge", "half_turn") if key in facts}
    edges = LaceEdges(
        Edges.DOUBLE,
        scallops,
        scallops,
        repeat,
        symmetry.get("mirror_across", True),
        symmetry.get("second_edge", SecondEdge.MIRROR),
        symmetry.get("half_turn", False),
    )
    given = {"stretch_bias": 0.40, "recovery": 0.92, **facts}
    return Cloth("heron", Kind.LACE, solid + 2.0 * depth, 0.55, 0.15, lace=edges, **given)


def scalloped(panel="back", **keys):
    """A scalloped-leg use on one panel."""
    return LaceUse(Use.SCALLOPED_LEG, "heron", (panel,), **keys)


def design(wearer=MEDIUM, *, uses=(), lace=None, cloths=(), style=None, **changes):
    """A design whose panels of lace follow from its uses; anything can be changed by name."""
    laced = {panel for use in uses for panel in use.panels if use.use is Use.SCALLOPED_LEG}
    along = {p for use in uses for p in use.panels if use.use is Use.SCALLOPED_LEG and use.lie_on(p) is Lie.ALONG_LEG}
    known = {cloth.name: cloth for cloth in (MESH, lace or galloon(), *cloths)}
    legs = {panel: SCALLOP if panel in along else ELASTIC for panel in ("front", "back")}
    given = {
        "title": "Test",
        "panels": Panels(*("heron" if panel in laced else "mesh" for panel in ("front", "back")), "mesh", "mesh"),
        "style": style or Style(centre_back_seam=bool(laced)),
        "finishes": Finishes(ELASTIC, legs["front"], legs["back"], ELASTIC),
        "block": ProvenBlock(),
        "lace": tuple(uses),
        **changes,
    }
    return Design(wearer=wearer, cloths=known, **given)
