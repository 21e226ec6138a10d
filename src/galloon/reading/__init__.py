"""Reads a lace from a picture: width, scallops, repeat, symmetries, openness, each with its own uncertainty."""

from galloon.reading.level_view import one_repeat, repeat_of
from galloon.reading.measure import read_lace
from galloon.reading.model import Doubt, Figure, FoundEdge, FoundGeometry, LaceReading, LevelView, Straightened
from galloon.reading.motifs import motif_outlines, outlines_in
from galloon.reading.output import as_json, as_toml_block
from galloon.reading.overlay import overlay
from galloon.reading.picture import Picture, load_picture, see_through

__all__ = [
    "Doubt",
    "Figure",
    "FoundEdge",
    "FoundGeometry",
    "LaceReading",
    "LevelView",
    "Picture",
    "Straightened",
    "as_json",
    "as_toml_block",
    "load_picture",
    "motif_outlines",
    "one_repeat",
    "outlines_in",
    "overlay",
    "read_lace",
    "repeat_of",
    "see_through",
]
