"""Hypothesis strategies for whole designs that a brief can describe, and a comparison of designs within a tolerance."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import fields, is_dataclass
from types import MappingProxyType

import pytest
from hypothesis import strategies as st

from galloon.body import Estimate, Wearer, estimate_crotch_length, estimate_waist_to_hip
from galloon.design import (
    LAPPED_SEAMS,
    MOST_STRAPS,
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
    ProvenBlock,
    Shape,
    Split,
    Style,
    Use,
)
from galloon.drawing import unprintable
from galloon.materials import Cloth, Edges, Elastic, Kind, LaceEdges, PullTest, Scallops, SecondEdge, usual_elastic


def lengths(least: float, most: float) -> st.SearchStrategy[float]:
    return st.floats(least, most, allow_nan=False)


shares = st.floats(0.0, 1.0)
maybe = st.none()
names = (
    st.text(st.characters(exclude_categories=["C", "Zl", "Zp", "M"]), min_size=1, max_size=20)
    .map(lambda said: "".join(char for char in said if not unprintable(char)).strip())
    .filter(bool)
)
flags = st.booleans()
coordinates = lengths(-900.0, 900.0)
points = st.tuples(coordinates, coordinates)
radii = st.lists(lengths(5.0, 400.0), min_size=3, max_size=8)


def _star(centre: tuple[float, float], reach: list[float]) -> tuple[tuple[float, float], ...]:
    """A ring that never meets itself: a point in each of as many directions round its centre."""
    turns = [2.0 * math.pi * place / len(reach) for place in range(len(reach))]
    return tuple(
        (round(centre[0] + r * math.cos(turn), 6), round(centre[1] + r * math.sin(turn), 6))
        for r, turn in zip(reach, turns, strict=True)
    )


rings = st.builds(_star, st.tuples(lengths(-500.0, 500.0), lengths(-500.0, 500.0)), radii)
#: Where a motif can lie on any of the bodies drawn here.
places = st.tuples(lengths(-350.0, 350.0), lengths(-250.0, 0.0))
#: The ways to bound an overlay, of which a brief gives one.
bounds = st.one_of(
    rings.map(lambda ring: (ring, (), ())), rings.map(lambda ring: ((), ring, ())), st.just(((), (), ("waist", "leg")))
)
panels = st.sampled_from(["front", "back"])


@st.composite
def wearers(draw) -> Wearer:
    height = draw(lengths(1300.0, 2000.0))
    hip = draw(lengths(700.0, 1700.0))
    taken = {"waist_to_hip": draw(lengths(80.0, 170.0)), "crotch_length": draw(lengths(510.0, 1200.0))}
    reckoned = {"waist_to_hip": estimate_waist_to_hip(height), "crotch_length": estimate_crotch_length(hip)}
    guessed = draw(st.sets(st.sampled_from(sorted(reckoned))))
    estimated: dict[str, Estimate] = {name: reckoned[name] for name in guessed}
    taken |= {name: one.value for name, one in estimated.items()}
    if taken["crotch_length"] <= 2 * taken["waist_to_hip"]:
        taken, estimated = {"waist_to_hip": 200.0, "crotch_length": 700.0}, {}
    return Wearer(
        waist=draw(lengths(500.0, 1500.0)),
        hip=hip,
        top_hip=draw(maybe | lengths(600.0, 1600.0)),
        thigh=draw(maybe | lengths(300.0, 1000.0)),
        height=height,
        name=draw(st.just("") | names),
        estimated=MappingProxyType(estimated),
        **taken,
    )


pull_tests = st.builds(
    PullTest,
    st.sampled_from(["width", "length", "bias"]),
    lengths(10.0, 100.0),
    lengths(50.0, 3000.0),
    st.floats(0.05, 2.0),
)


@st.composite
def lace_edges(draw) -> LaceEdges:
    edges = draw(st.sampled_from(Edges))
    scallops = st.builds(Scallops, lengths(10.0, 80.0), lengths(1.0, 20.0))
    first = draw(scallops) if edges in (Edges.DOUBLE, Edges.SINGLE) else None
    alike = draw(flags)
    second = (first if alike else draw(scallops)) if edges is Edges.DOUBLE else None
    repeat = first.pitch * draw(st.integers(1, 6)) if first and first == (second or first) else None
    relation = draw(st.sampled_from(SecondEdge)) if second is not None and alike else SecondEdge.OTHER
    return LaceEdges(edges, first, second, repeat, draw(flags), relation, draw(flags))


@st.composite
def cloths(draw, name: str, kind: Kind) -> Cloth:
    stretches = (0.0, 0.0) if kind is Kind.RIGID else (draw(st.floats(0.0, 1.5)), draw(st.floats(0.0, 1.5)))
    return Cloth(
        name,
        kind,
        draw(lengths(60.0, 2000.0)),
        *stretches,
        stretch_bias=None if kind is Kind.RIGID else draw(maybe | st.floats(0.0, 1.5)),
        recovery=draw(maybe | shares),
        lace=draw(lace_edges()) if kind is Kind.LACE else None,
        pull_tests=tuple(draw(st.lists(pull_tests, max_size=3))),
        reversible=draw(flags),
        motif_up=draw(flags),
        openness=draw(maybe | shares),
        opacity=draw(maybe | shares),
        nap=draw(flags),
        shrink_length=draw(st.floats(0.0, 0.1)),
        shrink_width=draw(st.floats(0.0, 0.1)),
        on_hand=draw(maybe | lengths(0.0, 5000.0)),
        price=draw(maybe | st.floats(0.0, 100.0)),
        fibre=draw(st.just("") | names),
        weight=draw(maybe | st.floats(5.0, 800.0)),
    )


@st.composite
def elastics(draw) -> Elastic:
    form = draw(st.sampled_from(["plush", "picot", "plain", "clear"]))
    ratio = {zone: draw(st.floats(0.5, 1.1)) for zone in ("waist", "front_leg", "back_leg")}
    name = "her own " + draw(names)
    tests = tuple(draw(st.lists(pull_tests, max_size=2)))
    width, stretch = draw(lengths(3.0, 40.0)), draw(st.floats(0.2, 2.0))
    weight = draw(maybe | st.floats(1.0, 50.0))
    return Elastic(name, form, width, stretch, MappingProxyType(ratio), tests, weight=weight)


def finishes(trim: Cloth, own: Elastic) -> st.SearchStrategy[Finish]:
    usual = usual_elastic("plush elastic 12 mm")
    folded = usual_elastic("fold-over elastic 15 mm")
    fixed = [
        Finish(FinishKind.ELASTIC, usual),
        Finish(FinishKind.ELASTIC, own),
        Finish(FinishKind.FOLD_OVER, folded),
        Finish(FinishKind.FOLD_OVER, own),
        Finish(FinishKind.STRAP, own),
        Finish(FinishKind.LACE_TRIM, trim=trim),
        Finish(FinishKind.SCALLOP),
        Finish(FinishKind.SCALLOP, own),
        Finish(FinishKind.SCALLOP, usual_elastic("clear elastic 6 mm")),
    ]
    wide = st.builds(Finish, st.sampled_from([FinishKind.HEM, FinishKind.BINDING]), wide=lengths(2.0, 50.0))
    return st.sampled_from(fixed) | wide


@st.composite
def open_sides(draw, own: Elastic) -> tuple[OpenSide, Finish]:
    """An open side and the finish of its edges."""
    at_waist = draw(lengths(10.0, 300.0))
    side = OpenSide(
        at_waist,
        draw(st.just(at_waist) | lengths(10.0, 300.0)),
        draw(st.sampled_from([own, usual_elastic("strap elastic 12 mm")])),
        draw(st.integers(1, MOST_STRAPS)),
        draw(maybe | st.floats(0.0, 0.2)),
    )
    wide = st.builds(Finish, st.sampled_from([FinishKind.HEM, FinishKind.BINDING]), wide=lengths(2.0, 50.0))
    return side, draw(wide | st.sampled_from([Finish(FinishKind.ELASTIC, own), Finish(FinishKind.FOLD_OVER, own)]))


@st.composite
def styles(draw, cloth_names: list[str]) -> Style:
    drops = st.builds(Drops.level, lengths(0.0, 300.0)) | st.builds(Drops, *[lengths(0.0, 300.0)] * 3)
    lines = st.lists(points, min_size=2, max_size=5).map(tuple)
    cuts = st.builds(Split, panels, lines, flags, st.sampled_from(["", *cloth_names]))
    return Style(
        draw(st.sampled_from(Shape)),
        draw(maybe | drops),
        draw(lengths(-50.0, 200.0)),
        draw(st.sampled_from(Coverage)),
        draw(flags),
        draw(flags),
        draw(lengths(0.0, 40.0)),
        draw(lengths(0.0, 40.0)),
        draw(maybe | st.just(0.0) | lengths(0.0, 200.0)),
        draw(st.sampled_from(GussetPlan)),
        tuple(draw(st.lists(cuts, max_size=2))),
        tuple(draw(st.lists(st.sampled_from(LAPPED_SEAMS), max_size=2, unique=True))),
    )


@st.composite
def lace_uses(draw, lace: Cloth, other: str) -> LaceUse:
    """Uses that do not decide what a panel is cut from; an allover, which has no edges, is laid on only."""
    free = [use for use in Use if use not in (Use.SCALLOPED_LEG, Use.PANEL)]
    strip = lace.lace is not None and lace.lace.edges is not Edges.NONE
    return LaceUse(
        draw(st.sampled_from(free if strip else [Use.OVERLAY, Use.APPLIQUE])),
        lace.name,
        draw(st.sampled_from([("front",), ("back",), ("front", "back")])),
        draw(maybe | st.sampled_from(Lie)),
        draw(maybe | st.sampled_from(Meet)),
        draw(st.sampled_from(["", other])),
        draw(maybe | lengths(0.0, 60.0)),
        draw(maybe | flags),
        draw(st.sampled_from(["", "side", "centre front", "centre back"])),
        *draw(bounds),
        draw(st.sampled_from(["", "waist", "leg"])),
        draw(maybe | flags),
        draw(st.sampled_from(["", "straight", "zigzag"])),
    )


motifs = st.builds(
    Motif, rings, panels, at=maybe | places, turn=lengths(-360.0, 360.0), stretches=flags, mirrored=flags
)


@st.composite
def designs(draw) -> Design:
    lace_name, knit_name, rigid_name = draw(st.lists(names, min_size=3, max_size=3, unique=True))
    lace = draw(cloths(lace_name, Kind.LACE))
    knit = draw(cloths(knit_name, draw(st.sampled_from([Kind.KNIT, Kind.MESH]))))
    rigid = draw(cloths(rigid_name, Kind.RIGID))
    known = {one.name: one for one in (lace, knit, rigid)}
    any_name = st.sampled_from(sorted(known))
    own = draw(elastics())
    finish = finishes(lace, own)
    side, edge = draw(st.just((None, None)) | open_sides(own))
    some = st.just("") | any_name
    figures = {"side": lengths(50.0, 400.0), "gusset_front": lengths(40.0, 90.0)}
    return Design(
        draw(st.just("") | names),
        draw(wearers()),
        MappingProxyType(known),
        Panels(*[draw(any_name) for _ in range(3)], *[draw(some) for _ in range(4)]),
        draw(styles(sorted(known))),
        Finishes(*[draw(finish) for _ in range(4)], edge),
        ProvenBlock(**draw(st.just({}) | st.fixed_dictionaries(figures))),
        Allowances(draw(lengths(0.0, 40.0)), draw(lengths(15.0, 40.0)), draw(lengths(0.0, 40.0))),
        tuple(draw(st.lists(lace_uses(lace, knit_name), max_size=3))),
        tuple(draw(st.lists(motifs, max_size=2))),
        draw(st.sampled_from(["mm", "cm", "in"])),
        MappingProxyType(draw(st.dictionaries(panels, st.floats(-0.05, 0.4)))),
        draw(maybe | st.floats(0.0, 0.2)),
        open_side=side,
    )


def assert_alike(seen: object, expected: object, where: str = "design") -> None:
    """Equal in everything but numbers, which may differ by 1e-9."""
    if is_dataclass(expected):
        assert type(seen) is type(expected), where
        for item in fields(expected):
            assert_alike(getattr(seen, item.name), getattr(expected, item.name), f"{where}.{item.name}")
    elif isinstance(expected, Mapping):
        assert set(seen) == set(expected), where
        for key, value in expected.items():
            assert_alike(seen[key], value, f"{where}[{key!r}]")
    elif isinstance(expected, tuple):
        assert len(seen) == len(expected), where
        for at, value in enumerate(expected):
            assert_alike(seen[at], value, f"{where}[{at}]")
    elif isinstance(expected, float):
        assert seen == pytest.approx(expected, abs=1e-9, rel=0), where
    else:
        assert seen == expected, where
