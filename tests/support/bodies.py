"""Bodies and designs drawn at random for property tests."""

from hypothesis import strategies as st

from galloon.body import Wearer
from galloon.design import (
    SHAPES,
    Allowances,
    Coverage,
    Design,
    Drops,
    Finish,
    Finishes,
    FinishKind,
    Panels,
    Shape,
    Style,
)
from galloon.materials import Cloth, Kind, usual_elastic


@st.composite
def wearers(draw):
    """Waists 50 to 150 and hips 70 to 170 cm with hip over waist 0.85 to 1.7; crotch length 0.62 to 0.85 of the hip."""
    hip = draw(st.floats(700.0, 1700.0))
    waist = draw(st.floats(max(500.0, hip / 1.7), min(1500.0, hip / 0.85)))
    top = draw(st.none() | st.floats(min(waist, hip), max(waist, hip)))
    crotch = hip * draw(st.floats(0.62, 0.85))
    return Wearer(waist, hip, draw(st.floats(150.0, min(280.0, 0.49 * crotch))), crotch, top_hip=top)


def cloths():
    """Knits of any stretch from none to 150 %."""
    stretch = st.floats(0.0, 1.5)
    return st.builds(lambda length, width: Cloth("mesh", Kind.MESH, 1500.0, length, width), stretch, stretch)


def everyday_wearers():
    """Bodies such as most makers have."""
    return st.builds(
        lambda hip, ratio, rise, crotch: Wearer(hip / ratio, hip, rise, hip * crotch),
        st.floats(860.0, 1400.0),
        st.floats(1.05, 1.5),
        st.floats(180.0, 230.0),
        st.floats(0.70, 0.78),
    )


def plain_style(shape, **changes):
    """The style a shape's name stands for."""
    preset = SHAPES[shape]
    usual = {"waist_drop": Drops.level(preset.waist_drop), "leg_raise": preset.leg_raise, "coverage": preset.coverage}
    return Style(**{"shape": shape, **usual, **changes})


def styles():
    """Any shape, drops level or not, leg and coverage."""
    drop = st.floats(0.0, 150.0)
    drops = st.one_of(drop.map(Drops.level), st.builds(Drops, drop, drop, drop))
    return st.builds(Style, st.sampled_from(Shape), drops, st.floats(-30.0, 120.0), st.sampled_from(Coverage))


def make_design(wearer, style, *, cloth=None, reduction=None, seam=6.0, elastic="picot elastic 8 mm", **changes):
    """A garment of one cloth, every open edge with elastic."""
    cloth = cloth or Cloth("mesh", Kind.MESH, 1500.0, 0.5, 0.7)
    finish = Finish(FinishKind.ELASTIC, usual_elastic(elastic))
    given = {} if reduction is None else {"girth_reduction": {"front": reduction, "back": reduction}}
    return Design(
        "Test",
        wearer,
        {cloth.name: cloth},
        Panels(cloth.name, cloth.name, cloth.name),
        style,
        Finishes(finish, finish, finish, finish),
        allowances=Allowances(seam),
        **{**given, **changes},
    )
