"""Briefs: TOML text to a checked design and back, with every fault told by line and key."""

from galloon.brief.dump import dump_brief
from galloon.brief.load import brief_text, load_brief, load_drawing
from galloon.brief.model import Brief, Lookup, SvgOutline
from galloon.brief.read import brief_from, read_brief
from galloon.brief.starter import starter_brief
from galloon.brief.to_data import to_data

__all__ = [
    "Brief",
    "Lookup",
    "SvgOutline",
    "brief_from",
    "brief_text",
    "dump_brief",
    "load_brief",
    "load_drawing",
    "read_brief",
    "starter_brief",
    "to_data",
]
