"""Briefs: TOML text to a checked design and back, with every fault told by line and key."""

from galloon.brief.dump import dump_brief
from galloon.brief.lace_picture import ON_SHELF, picture_from, picture_of, png_of
from galloon.brief.load import brief_text, load_brief, load_drawing, load_lace_picture
from galloon.brief.model import Brief, Lookup, SvgOutline
from galloon.brief.read import brief_from, read_brief
from galloon.brief.starter import starter_brief
from galloon.brief.to_data import to_data

__all__ = [
    "ON_SHELF",
    "Brief",
    "Lookup",
    "SvgOutline",
    "brief_from",
    "brief_text",
    "dump_brief",
    "load_brief",
    "load_drawing",
    "load_lace_picture",
    "picture_from",
    "picture_of",
    "png_of",
    "read_brief",
    "starter_brief",
    "to_data",
]
