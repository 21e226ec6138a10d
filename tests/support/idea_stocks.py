"""Stocks to find ideas for: an invented maker's galloon that is too narrow for a scalloped back, and a mesh."""

from dataclasses import replace

from galloon.ideas import stock_of
from tests.support.designs import MESH, design, galloon, scalloped

JERSEY = replace(MESH, name="jersey", opacity=0.95, stretch_width=0.5, fibre="95 % cotton, 5 % elastane")


def stock(solid=158.0, *, cloths=(JERSEY,), wearer=None, **facts):
    """A galloon of that solid width and some cloths; nothing limits what is on hand unless ``facts`` do."""
    lace = galloon(solid, openness=0.4, price=9.5, **facts)
    base = design(uses=[scalloped("back")], lace=lace)
    named = {cloth.name: cloth for cloth in (lace, *cloths)}
    first = cloths[0].name
    panels = replace(base.panels, front=first, back="heron", gusset=first, gusset_lining=first)
    return stock_of(replace(base, cloths=named, panels=panels, **({"wearer": wearer} if wearer else {})))
