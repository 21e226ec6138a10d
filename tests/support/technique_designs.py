"""Designs drawn at random over every lace use, seam plan, edge finish and shape, each as a brief may ask for it."""

from hypothesis import strategies as st

from galloon.design import (
    LAPPED_SEAMS,
    SHAPES,
    Allowances,
    Coverage,
    Design,
    Drops,
    Finish,
    Finishes,
    FinishKind,
    GussetPlan,
    LaceUse,
    Lie,
    Meet,
    Motif,
    OpenSide,
    Panels,
    Shape,
    Split,
    Style,
    Use,
)
from galloon.materials import (
    Cloth,
    Edges,
    Elastic,
    Kind,
    LaceEdges,
    PullTest,
    Scallops,
    SecondEdge,
    usual_elastic,
)
from tests.support.sound import wearers

#: The uses a panel's own cloth comes from, and those that need the panel's cloth to be something else.
BODY = ("none", "scalloped along", "scalloped upright", "panel", "panel waist", "panel leg", "V inset")
FINISHES = ("picot", "plush", "plain", "fold-over", "strap", "trim", "hem", "binding")


def _scalloped(name, edges, width, pitch, depth, **facts):
    first = Scallops(pitch, depth)
    second = first if edges is Edges.DOUBLE else None
    relation = SecondEdge.MIRROR if second else SecondEdge.OTHER
    lace = LaceEdges(edges, first, second, 2.0 * pitch, facts.pop("mirror", True), relation)
    return Cloth(name, Kind.LACE, width, stretch_bias=0.4, recovery=0.92, lace=lace, **facts)


@st.composite
def cloths(draw):
    """One of each: mesh, jersey, tulle, a deep galloon, an allover, an edging, an insertion."""
    pitch, depth = draw(st.floats(15.0, 60.0)), draw(st.floats(3.0, 25.0))
    deep = draw(st.floats(90.0, 330.0)) + 2.0 * depth
    stretch = {"stretch_length": draw(st.floats(0.2, 0.8)), "stretch_width": draw(st.floats(0.05, 0.4))}
    narrow = draw(st.floats(10.0, 70.0))
    made = (
        Cloth("mesh", Kind.MESH, 1500.0, draw(st.floats(0.1, 0.9)), draw(st.floats(0.2, 1.2)), recovery=0.95),
        Cloth("jersey", Kind.KNIT, 1400.0, 0.2, 0.4),
        Cloth("tulle", Kind.RIGID, 1400.0),
        _scalloped("galloon", Edges.DOUBLE, deep, pitch, depth, mirror=draw(st.booleans()), **stretch),
        Cloth("allover", Kind.LACE, 1300.0, 0.5, 0.3, lace=LaceEdges(Edges.NONE)),
        _scalloped("edging", Edges.SINGLE, narrow, 14.0, min(4.0, narrow / 3.0), stretch_length=0.6, stretch_width=0.1),
        Cloth("insertion", Kind.LACE, draw(st.floats(15.0, 60.0)), 0.5, 0.1, lace=LaceEdges(Edges.STRAIGHT)),
    )
    return {cloth.name: cloth for cloth in made}


def body_use(kind, panel, cloth, meet):
    """The use by which lace makes ``panel``, or None."""
    legs = {"scalloped along": Lie.ALONG_LEG, "scalloped upright": Lie.UPRIGHT}
    if kind in legs:
        return LaceUse(Use.SCALLOPED_LEG, cloth, (panel,), legs[kind], meet)
    if kind == "V inset":
        return LaceUse(Use.V_INSET, cloth, (panel,), meet=meet, upper_cloth="mesh")
    if kind.startswith("panel"):
        return LaceUse(Use.PANEL, cloth, (panel,), meet=meet, edge_on=kind.removeprefix("panel").strip())
    return None


@st.composite
def laid_uses(draw):
    """Up to two uses on what the panels are made of."""
    pick = draw(st.lists(st.sampled_from(LAID), max_size=2, unique=True))
    sides = draw(st.sampled_from([("front",), ("back",), ("front", "back")]))
    return tuple(use for name in pick for use in draw(_LAID_USES[name](sides)))


def _overlay(sides):
    corners = st.builds(
        lambda x, wide, y, tall: ((x, y), (x + wide, y - tall), (x + wide, y)),
        st.floats(0.0, 120.0), st.floats(40.0, 250.0), st.floats(-140.0, -40.0), st.floats(30.0, 160.0),
    )  # fmt: skip
    bound = st.one_of(
        corners.map(lambda ring: {"corners": ring}),
        corners.map(lambda ring: {"outline": ring}),
        st.just({"between": ("waist", "leg")}),
    )
    return st.builds(
        lambda keys, cloth, cut, lie, mirrored: (
            LaceUse(Use.OVERLAY, cloth, sides[:1], lie, cut_away=cut, mirrored=mirrored, **keys),
        ),
        bound, st.sampled_from(["galloon", "allover"]), st.booleans(), st.sampled_from([None, Lie.UPRIGHT]),
        st.sampled_from([None, False]),
    )  # fmt: skip


def _insertion(sides):
    return st.builds(
        lambda seam, cut: (LaceUse(Use.INSERTION, "insertion", ("front", "back"), over_seam=seam, cut_away=cut),),
        st.sampled_from(["side", "centre front", "centre back"]),
        st.booleans(),
    )


def _edge_trim(sides):
    return st.sampled_from(["", "waist", "leg"]).map(lambda on: (LaceUse(Use.EDGE_TRIM, "edging", sides, edge_on=on),))


def _waistband(sides):
    return st.sampled_from(["galloon", "edging", "insertion"]).map(
        lambda cloth: (LaceUse(Use.WAISTBAND, cloth, ("front", "back")),)
    )


def _split_edging(sides):
    return st.sampled_from(["galloon", "edging"]).map(lambda cloth: (LaceUse(Use.SPLIT_EDGING, cloth, sides),))


def _applique(sides):
    return st.just((LaceUse(Use.APPLIQUE, "galloon", sides[:1]),))


_LAID_USES = {
    "overlay": _overlay,
    "insertion": _insertion,
    "edge trim": _edge_trim,
    "waistband": _waistband,
    "split edging": _split_edging,
    "applique": _applique,
}
LAID = tuple(_LAID_USES)


@st.composite
def finish(draw, known):
    """Any finish but a bare scallop, which only a scalloped edge has."""
    kind = draw(st.sampled_from(FINISHES))
    if kind == "trim":
        return Finish(FinishKind.LACE_TRIM, trim=known["edging"])
    if kind in ("hem", "binding"):
        return Finish(FinishKind(kind), wide=draw(st.floats(4.0, 15.0)))
    if kind in ("fold-over", "strap"):
        return Finish(FinishKind(kind), usual_elastic(f"{kind} elastic 15 mm"))
    return Finish(FinishKind.ELASTIC, usual_elastic(f"{kind} elastic {draw(st.sampled_from([6, 8, 12]))} mm"))


def _scallops(panel_kind, plain, draw):
    """The leg finish of a panel: a scallop, bare or with soft elastic, where its lace makes the leg."""
    if panel_kind not in ("scalloped along", "panel leg", "V inset"):
        return plain
    soft = usual_elastic("clear elastic 6 mm") if draw(st.booleans()) else None
    return Finish(FinishKind.SCALLOP, soft)


@st.composite
def styles(draw, limited):
    """Shape, lines and the whole of a seam plan. ``limited``: a lace may ask for the waist itself."""
    shape = draw(st.sampled_from(Shape))
    preset = SHAPES[shape]
    uneven = st.builds(Drops, *[st.floats(0.0, 90.0)] * 3)
    level = st.floats(0.0, 110.0).map(Drops.level)
    drops = [st.just(Drops.level(preset.waist_drop)), level, uneven, *([st.none()] * 2 if limited else [])]
    return Style(
        shape,
        draw(st.one_of(drops)),
        draw(st.just(preset.leg_raise) | st.floats(0.0, 90.0)),
        draw(st.just(preset.coverage) | st.sampled_from(Coverage)),
        draw(st.booleans()),
        draw(st.booleans()),
        draw(st.just(0.0) | st.floats(2.0, 25.0)),
        draw(st.just(0.0) | st.floats(2.0, 25.0)),
        draw(st.sampled_from([0.0, 0.0, None]) | st.floats(5.0, 70.0)),
        draw(st.sampled_from([GussetPlan.SET_IN, *GussetPlan])),
        draw(st.just(()) | splits()),
        tuple(draw(st.lists(st.sampled_from(LAPPED_SEAMS), max_size=2, unique=True))),
    )


def splits():
    """One style line across a panel, straight or curved, level or slanted or upright."""
    level = st.builds(lambda y, rise: ((-20.0, y), (150.0, y + rise / 2), (420.0, y + rise)),
                      st.floats(-170.0, -50.0), st.floats(-60.0, 60.0))  # fmt: skip
    upright = st.builds(lambda x, lean: ((x, 30.0), (x + lean, -400.0)), st.floats(30.0, 200.0), st.floats(-40.0, 40.0))
    return st.builds(
        lambda panel, points, curved, cloth: (Split(panel, points, curved, cloth),),
        st.sampled_from(["front", "back"]), level | upright, st.booleans(), st.sampled_from(["", "jersey", "allover"]),
    )  # fmt: skip


def motifs(uses):
    """A few leaves, placed by hand or left to the program, where the design has an applique."""
    if not any(use.use is Use.APPLIQUE for use in uses):
        return st.just(())
    leaf = ((0.0, 0.0), (14.0, 5.0), (28.0, 0.0), (14.0, -6.0))
    panel = next(use.panels[0] for use in uses if use.use is Use.APPLIQUE)
    place = st.none() | st.tuples(st.floats(10.0, 120.0), st.floats(-150.0, -60.0))
    one = st.builds(Motif, st.just(leaf), st.just(panel), at=place, turn=st.floats(0.0, 360.0), stretches=st.booleans(),
                    mirrored=st.booleans())  # fmt: skip
    return st.lists(one, min_size=1, max_size=3).map(tuple)


def open_sides():
    """A straight or a tapered gap with one or more straps across it, whose pull is known or not."""
    tested = Elastic("tested strap", "strap", 10.0, 0.5, pull_tests=(PullTest("length", 10.0, 300.0, 0.3),))
    straps = st.sampled_from([usual_elastic("strap elastic 8 mm"), usual_elastic("strap elastic 25 mm"), tested])
    gaps = st.floats(15.0, 150.0).map(lambda gap: (gap, gap)) | st.tuples(
        st.floats(15.0, 150.0), st.floats(15.0, 150.0)
    )
    return st.builds(
        lambda gap, strap, count, strain: OpenSide(*gap, strap, count, strain),
        gaps, straps, st.integers(1, 5), st.none() | st.floats(0.0, 0.4),
    )  # fmt: skip


@st.composite
def side_finishes(draw):
    """Any finish that catches the ends of straps."""
    kind = draw(st.sampled_from([kind for kind in FINISHES if kind not in ("trim", "strap")]))
    if kind in ("hem", "binding"):
        return Finish(FinishKind(kind), wide=draw(st.floats(4.0, 15.0)))
    form = FinishKind.FOLD_OVER if kind == "fold-over" else FinishKind.ELASTIC
    return Finish(form, usual_elastic(f"{kind} elastic 12 mm"))


@st.composite
def technique_designs(draw, *, opened=None):
    """One whole design; ``opened`` says whether its sides are open, left to chance where it does not."""
    """One whole design."""
    known = draw(cloths())
    kinds = {panel: draw(st.sampled_from(["none", *BODY])) for panel in ("front", "back")}
    meet = draw(st.sampled_from([None, *Meet]))
    made = {panel: draw(st.sampled_from(_MADE_OF.get(kind, ["mesh"]))) for panel, kind in kinds.items()}
    uses = tuple(use for panel, kind in kinds.items() if (use := body_use(kind, panel, made[panel], meet)) is not None)
    if len(uses) == 2 and draw(st.booleans()):
        uses = uses[::-1]
    uses = (*uses, *draw(laid_uses()))
    plain = [draw(finish(known)) for _ in range(4)]
    legs = {panel: _scallops(kinds[panel], plain[i + 1], draw) for i, panel in enumerate(("front", "back"))}
    cut_from = {panel: "mesh" if kinds[panel] == "V inset" else made[panel] for panel in kinds}
    lining = st.sampled_from(["", "", "jersey"])
    limited = any(use.use in (Use.SCALLOPED_LEG, Use.PANEL) for use in uses)
    open_side = (
        draw(open_sides()) if (draw(st.sampled_from([True, *[False] * 4])) if opened is None else opened) else None
    )
    return Design(
        "Drawn",
        draw(wearers()),
        known,
        Panels(*cut_from.values(), draw(st.sampled_from(["mesh", "jersey"])), draw(st.sampled_from(["", "jersey"])),
               draw(lining), draw(lining)),
        draw(styles(limited)),
        Finishes(plain[0], legs["front"], legs["back"], plain[3] if draw(st.booleans()) else plain[1],
                 draw(side_finishes()) if open_side is not None else None),
        allowances=Allowances(draw(st.floats(4.0, 12.0)), draw(st.floats(15.0, 40.0)), draw(st.floats(4.0, 12.0))),
        lace=uses,
        motifs=draw(motifs(uses)),
        open_side=open_side,
    )  # fmt: skip


#: What a panel of each kind may be cut from, where it is not the plain mesh.
_MADE_OF = {
    "scalloped along": ["galloon"],
    "scalloped upright": ["galloon"],
    "panel": ["galloon", "allover", "tulle"],
    "panel waist": ["galloon", "edging"],
    "panel leg": ["galloon"],
    "V inset": ["galloon"],
}


def kinked(garment):
    """Words of the edges that a lace's own straight edge makes, so that they meet seams at an angle that is told."""
    words = {"leg"} if garment.lines.straight else set()
    return words | {"waist" for use in garment.design.lace if use.use is Use.PANEL and use.edge_on == "waist"}
