"""Any two ways to use a lace in one design: both are made and hold every promise, or a finding names both."""

from dataclasses import replace

import pytest

from galloon.design import Drops, LaceUse, Motif, Panels, Style, Use
from galloon.findings import Status
from galloon.lace import claims
from galloon.materials import Cloth, Edges, Kind, LaceEdges, Scallops
from galloon.workflow.reckon import make_garment
from tests.support.designs import LARGE, MEDIUM, RIGID, design, galloon
from tests.support.sound import assert_sound

BOTH = ("front", "back")
EDGING = Cloth("tern", Kind.LACE, 20.0, 0.8, 0.2, lace=LaceEdges(Edges.SINGLE, Scallops(12.0, 3.0), None, 24.0, True))
NARROW = replace(galloon(36.0, depth=4.0, pitch=16.0, repeat=48.0), name="narrow")
MIDDLING = replace(galloon(140.0), name="middling")
ALLOVER = Cloth("allover", Kind.LACE, 1400.0, 0.30, 0.45, lace=LaceEdges(Edges.NONE), openness=0.3)
CLOTHS = (EDGING, NARROW, MIDDLING, ALLOVER, RIGID)
SQUARE = ((-15.0, -15.0), (15.0, -15.0), (15.0, 15.0), (-15.0, 15.0))
CORNERS = ((60.0, -60.0), (270.0, -170.0), (270.0, -60.0))

USES = {
    "scalloped back": LaceUse(Use.SCALLOPED_LEG, "heron", ("back",)),
    "scalloped both": LaceUse(Use.SCALLOPED_LEG, "heron", BOTH),
    "allover front": LaceUse(Use.PANEL, "allover", ("front",)),
    "rigid front": LaceUse(Use.PANEL, "tulle", ("front",)),
    "scallop at the waist": LaceUse(Use.PANEL, "heron", BOTH, edge_on="waist"),
    "V": LaceUse(Use.V_INSET, "middling", ("back",), upper_cloth="mesh"),
    "overlay": LaceUse(Use.OVERLAY, "middling", ("front",), corners=CORNERS, cut_away=True),
    "side strip": LaceUse(Use.INSERTION, "narrow", BOTH, over_seam="side"),
    "centre strip": LaceUse(Use.INSERTION, "narrow", BOTH, over_seam="centre back"),
    "leg trim": LaceUse(Use.EDGE_TRIM, "tern", BOTH),
    "waist trim": LaceUse(Use.EDGE_TRIM, "tern", BOTH, edge_on="waist"),
    "band": LaceUse(Use.WAISTBAND, "narrow", BOTH),
    "edging": LaceUse(Use.SPLIT_EDGING, "narrow", ("back",)),
    "applique": LaceUse(Use.APPLIQUE, "allover", ("front",), stitch="zigzag"),
}


def combined(wearer, style, *uses):
    """The uses in one design; a panel they both cut is of the first one's cloth."""
    cut = {"front": "mesh", "back": "mesh"}
    for use in reversed(uses):
        if use.use in (Use.SCALLOPED_LEG, Use.PANEL):
            cut |= dict.fromkeys(use.panels, use.cloth)
    motifs = [Motif(SQUARE, "front", "allover", (90.0, -150.0), mirrored=True)] if USES["applique"] in uses else []
    panels = Panels(cut["front"], cut["back"], "mesh", "mesh", front_lining="mesh")
    return design(
        wearer, uses=uses, lace=galloon(250.0), cloths=CLOTHS, panels=panels, style=style, motifs=tuple(motifs)
    )


@pytest.mark.parametrize("first", USES)
def test_two_uses_stand_together_or_are_named_as_impossible(first):
    styles = (
        (MEDIUM, Style(waist_drop=Drops.level(60.0), centre_back_seam=True, leg_raise=15.0)),
        (LARGE, Style(centre_back_seam=True, side_forward=30.0)),
    )
    for number, second in enumerate(USES):
        one, other = USES[first], USES[second]
        garment = make_garment(combined(*styles[number % 2], one, other))
        assert_sound(garment)
        clashes = [note for note in garment.notes if note.name == "lace uses go together"]
        assert bool(clashes) == bool(claims(one) & claims(other)), f"{first} and {second}"
        for clash in clashes:
            assert clash.status is Status.FAIL
            assert f"{one.use} of {one.cloth}" in clash.says
            assert f"{other.use} of {other.cloth}" in clash.says


def test_each_of_three_uses_is_in_the_report():
    uses = (USES["scalloped back"], USES["overlay"], USES["waist trim"])
    garment = make_garment(combined(MEDIUM, Style(centre_back_seam=True), *uses))
    assert {placed.use for placed in garment.placements} == {use.use for use in uses}
    assert_sound(garment)


def test_every_way_to_use_a_lace_is_among_the_pairs():
    assert {use.use for use in USES.values()} == set(Use)
