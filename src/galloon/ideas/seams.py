"""The tables of shapes and seam plans to try."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Final

from galloon.design import SHAPES, Drops, GussetPlan, LaceUse, Style, Use
from galloon.drafting import NARROW_BACKS
from galloon.ideas.stock import Stock

#: Uses that cut a panel from lace and so limit how high its waist can be.
LIMITING: Final = (Use.SCALLOPED_LEG, Use.PANEL)
#: How far a side seam is moved forward where that is tried, mm; common practice, no source.
FORWARD: Final = 40.0


@dataclass(frozen=True)
class SeamWay:
    """One seam plan: ``side`` mm the side seam moves forward, None for no side seam; which centre backs it needs."""

    name: str
    side: float | None = 0.0
    centre_back: bool = False
    gusset: GussetPlan = GussetPlan.SET_IN
    narrow_only: bool = False


#: Every seam plan; the first is the usual one.
SEAM_WAYS: Final[tuple[SeamWay, ...]] = (
    SeamWay("side seams"),
    SeamWay("side seams and a centre back seam", centre_back=True),
    SeamWay("side seams moved forward", FORWARD),
    SeamWay("no side seams", None, centre_back=True),
    SeamWay("gusset in one with the front", gusset=GussetPlan.ON_FRONT),
    SeamWay("gusset in one with the back", gusset=GussetPlan.ON_BACK),
    SeamWay("centre seam through the gusset", gusset=GussetPlan.CENTRE_SEAM, centre_back=True, narrow_only=True),
)


@dataclass(frozen=True)
class ShapeWay:
    """A shape with its figures: ``drop`` of the waist where nothing else asks for more."""

    name: str
    style: Style


def shapes(stock: Stock) -> tuple[ShapeWay, ...]:
    """The usual shapes as their names mean them, the maker's own figures first where they differ."""
    usual = tuple(
        ShapeWay(shape.value, Style(shape, Drops.level(preset.waist_drop), preset.leg_raise, preset.coverage))
        for shape, preset in SHAPES.items()
    )
    return (*_own(stock), *usual) if stock.asked else usual


def _own(stock: Stock) -> tuple[ShapeWay, ...]:
    style = stock.base.style
    preset = SHAPES[style.shape]
    drop = style.waist_drop or Drops.level(preset.waist_drop)
    same = (style.leg_raise, style.coverage, drop) == (
        preset.leg_raise,
        preset.coverage,
        Drops.level(preset.waist_drop),
    )
    own = Style(style.shape, drop, style.leg_raise, style.coverage)
    return () if same else (ShapeWay(f"your {style.shape.value}", own),)


def styles(shape: ShapeWay, seams: SeamWay, uses: tuple[LaceUse, ...], centres: frozenset[str]) -> Iterator[Style]:
    """The style of a shape with a seam plan; twice where the lace decides the waist: as high as it lets it be, and as
    the shape has it. None where they do not go together by name. ``centres`` are the panels that need a centre seam.
    """
    if seams.narrow_only and shape.style.shape not in NARROW_BACKS:
        return
    if seams.centre_back and "back" in centres and seams.name == SEAM_WAYS[1].name:
        return
    style = replace(
        shape.style,
        centre_back_seam=seams.centre_back or "back" in centres,
        centre_front_seam="front" in centres,
        side_forward=seams.side,
        gusset=seams.gusset,
    )
    if any(use.use in LIMITING for use in uses):
        yield replace(style, waist_drop=None)
    yield style
