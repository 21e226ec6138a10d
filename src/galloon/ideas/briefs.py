"""An idea as a brief that ``galloon make`` takes."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from galloon.brief import dump_brief, to_data
from galloon.design import Design
from galloon.ideas.find import Idea


def brief_text_of(idea: Idea) -> str:
    """The brief (TOML) of an idea, with only the cloths it is cut from."""
    return design_text(idea.design)


def design_text(design: Design) -> str:
    """The brief (TOML) of a design, with only the cloths it names."""
    used = set(_named(design))
    cloths = {name: cloth for name, cloth in design.cloths.items() if name in used}
    return dump_brief(to_data(replace(design, cloths=cloths)))


def _named(design: Design) -> Iterator[str]:
    yield from (name for _, name in design.panels.items())
    for use in design.lace:
        yield use.cloth
        yield use.upper_cloth
    yield from (motif.cloth for motif in design.motifs)
    yield from (split.cloth for split in design.style.splits)
    yield from (finish.trim.name for _, finish in design.finishes if finish.trim is not None)
