"""The layers and pens that pattern sheets are drawn with; widths in mm, told apart in black and white."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from galloon.drawing import Colour, Pen
from galloon.export import D6673_LAYERS

CUT: Final = "cut line"
STITCH: Final = "stitch line"
NOTCHES: Final = "notches"
FOLD: Final = "fold marks"
LACE: Final = "lace"
STRAPS: Final = "straps"
STRETCH: Final = "greatest stretch"
GRAIN: Final = "length of cloth"
TEXT: Final = "text"
SQUARE: Final = "test square"
#: Only in the DXF: the whole ring to cut, fold edge included, and that edge as the line to mirror about.
BOUNDARY: Final = "piece boundary"
MIRROR: Final = "mirror line"

INK: Final[Colour] = (0, 0, 0)
_GREY: Final[Colour] = (70, 70, 70)
_LACE: Final[Colour] = (150, 40, 90)
_ARROW: Final[Colour] = (0, 80, 120)

CUT_PEN: Final = Pen("cut", 0.5)
STITCH_PEN: Final = Pen("stitch", 0.25, _GREY, (2.5, 1.5))
NOTCH_PEN: Final = Pen("notch", 0.5)
FINISH_PEN: Final = Pen("finish end", 1.8)
FOLD_PEN: Final = Pen("fold", 0.5, dash=(9.0, 2.0, 1.0, 2.0))
BRACKET_PEN: Final = Pen("fold bracket", 0.35)
LACE_PEN: Final = Pen("lace", 0.18, _LACE)
FAR_PEN: Final = Pen("lace far", 0.18, _LACE, (6.0, 1.5))
LAID_PEN: Final = Pen("laid", 0.3, _LACE, (4.0, 1.2, 1.0, 1.2))
STRAP_PEN: Final = Pen("strap", 0.3, dash=(0.8, 0.8))
AWAY_PEN: Final = Pen("cut away", 0.25, _LACE, (1.2, 1.2))
STRETCH_PEN: Final = Pen("stretch", 0.4, _ARROW)
GRAIN_PEN: Final = Pen("length", 0.25)
SQUARE_PEN: Final = Pen("square", 0.25)

#: Colour of the words on each layer that has some of its own.
WORD_COLOUR: Final[Mapping[str, Colour]] = MappingProxyType({LACE: _LACE, STRETCH: _ARROW})

#: Where each layer of a piece goes in the DXF; from memory, no conformity claimed (``export.D6673_LAYERS``).
DXF_LAYERS: Final[Mapping[str, int]] = MappingProxyType(
    {
        BOUNDARY: D6673_LAYERS["piece boundary"],
        NOTCHES: D6673_LAYERS["notches"],
        MIRROR: D6673_LAYERS["mirror line"],
        GRAIN: D6673_LAYERS["grain line"],
        LACE: D6673_LAYERS["internal lines"],
        STRAPS: D6673_LAYERS["internal lines"],
        STRETCH: D6673_LAYERS["internal lines"],
        STITCH: D6673_LAYERS["sew lines"],
        TEXT: D6673_LAYERS["annotation text"],
    }
)
