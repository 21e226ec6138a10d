"""Garments of invented makers, built in code, for tests that need one to draw, cut or sew."""

from functools import cache

from galloon.body import Wearer
from galloon.design import (
    Allowances,
    Coverage,
    Design,
    Finish,
    Finishes,
    FinishKind,
    LaceUse,
    Lie,
    Meet,
    Panels,
    Shape,
    Style,
    Use,
)
from galloon.materials import Cloth, Edges, Kind, LaceEdges, PullTest, Scallops, SecondEdge, usual_elastic
from galloon.workflow.reckon import make_garment

PULL = PullTest("width", 50.0, 500.0, 0.32)
MESH = Cloth("mesh", Kind.MESH, 1500.0, 0.5, 0.7, None, 0.95, opacity=0.6, pull_tests=(PULL,))
JERSEY = Cloth("jersey", Kind.KNIT, 1400.0, 0.2, 0.4, None, 0.9, opacity=0.95)


def galloon_lace(name="heron", width=250.0, depth=11.0, pitch=42.0):
    edge = Scallops(pitch, depth)
    edges = LaceEdges(Edges.DOUBLE, edge, edge, 2.0 * pitch, True, SecondEdge.MIRROR, True)
    return Cloth(name, Kind.LACE, width, 0.55, 0.15, 0.40, 0.92, edges, openness=0.4)


def elastic(name="picot elastic 8 mm"):
    return Finish(FinishKind.ELASTIC, usual_elastic(name))


def leg_use(panel, lie=None, meet=None):
    return LaceUse(Use.SCALLOPED_LEG, "heron", (panel,), lie, meet)


def design(title, wearer, style, *uses, units="cm", waist=None, lace=None, seam=6.0):
    """Panels named in ``uses`` are of lace, the others of mesh; legs along a scallop have no elastic."""
    laced = {panel for use in uses for panel in use.panels}
    scalloped = {panel for use in uses for panel in use.panels if use.lie_on(panel) is Lie.ALONG_LEG}
    legs = {p: Finish(FinishKind.SCALLOP) if p in scalloped else elastic() for p in ("front", "back")}
    front, back = ("heron" if panel in laced else "mesh" for panel in ("front", "back"))
    return Design(
        title,
        wearer,
        {"heron": lace or galloon_lace(), "mesh": MESH, "jersey": JERSEY},
        Panels(front, back, "mesh", "jersey"),
        style,
        Finishes(waist or elastic("picot elastic 10 mm"), legs["front"], legs["back"], elastic()),
        allowances=Allowances(seam),
        lace=tuple(uses),
        units=units,
    )


MEDIUM = Wearer(740.0, 1010.0, 210.0, 730.0, top_hip=900.0, thigh=590.0, height=1690.0, name="Imke")
SMALL = Wearer(620.0, 860.0, 190.0, 640.0, name="Pim")
LARGE = Wearer(1180.0, 1400.0, 235.0, 960.0, name="Oda")


@cache
def garments():
    """Name to garment: without lace, with lace laid in several ways, a small thong in inches, a large brief."""
    fold_over = Finish(FinishKind.FOLD_OVER, usual_elastic("fold-over elastic 15 mm"))
    seamed = Style(shape=Shape.HIPSTER, leg_raise=15.0, centre_back_seam=True)
    designs = {
        "plain": design("Plain brief", MEDIUM, Style()),
        "along leg": design("Heron hipster", MEDIUM, seamed, leg_use("back")),
        "upright": design("Heron upright", MEDIUM, seamed, leg_use("back", meet=Meet.PEAK), leg_use("front")),
        "all along": design("Heron all round", MEDIUM, seamed, leg_use("back"), leg_use("front", Lie.ALONG_LEG)),
        "thong": design(
            "Thong", SMALL, Style(Shape.THONG, leg_raise=80.0, coverage=Coverage.LOW), units="in", seam=6.35
        ),
        "large": design("Large & soft <full> brief", LARGE, Style(Shape.BRIEF), waist=fold_over),
    }
    return {name: make_garment(each) for name, each in designs.items()}
