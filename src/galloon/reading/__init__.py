"""Reads a lace from a picture: width, scallops, repeat, symmetries, openness, each with its own uncertainty."""

from galloon.reading.measure import read_lace
from galloon.reading.model import Doubt, Figure, FoundEdge, FoundGeometry, LaceReading, Straightened
from galloon.reading.motifs import motif_outlines
from galloon.reading.output import as_json, as_toml_block
from galloon.reading.overlay import overlay
from galloon.reading.picture import Picture, load_picture

__all__ = [
    "Doubt",
    "Figure",
    "FoundEdge",
    "FoundGeometry",
    "LaceReading",
    "Picture",
    "Straightened",
    "as_json",
    "as_toml_block",
    "load_picture",
    "motif_outlines",
    "overlay",
    "read_lace",
]
