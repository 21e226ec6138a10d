"""Things that a brief names instead of spelling them out."""

from __future__ import annotations

import pytest

from galloon.brief import read_brief
from galloon.errors import BadInput
from tests.support.briefs import LEAST

MESH = {"kind": "mesh", "width": 1500.0, "stretch_width": 70, "stretch_length": 50, "shrink": {"length": 3}}


class Shelf:
    """A shelf of one of each."""

    def wearer(self, name):
        figures = {"units": "in", "waist": 29, "hip": "101 cm", "waist_to_hip": 8.25, "crotch_length": 29}
        return figures if name == "Imke" else None

    def cloth(self, name):
        return MESH if name in ("mesh", "soft mesh") else None

    def elastic(self, name):
        return {"width": 12.0, "stretch": 80} if name == "velvet band" else None

    def block(self, name):
        return {"side": 230.0} if name == "hers" else None


NAMED = """\
units = "cm"
wearer = "Imke"
block = "hers"
[cloth]
mesh = "shelf"
front = "soft mesh"
[elastic]
"velvet band" = "shelf"
[panels]
front = "front"
back = "mesh"
gusset = "mesh"
[finish]
waist = "velvet band"
"""


def design_of(text: str):
    return read_brief(text, file="b.toml", shelf=Shelf()).design


def test_a_brief_may_name_wearer_block_cloth_and_elastic_on_the_shelf():
    design = design_of(NAMED)
    assert design.wearer.waist == pytest.approx(29 * 25.4)
    assert design.wearer.hip == 1010.0
    assert design.block.side == 230.0
    assert (design.cloths["mesh"].width, design.cloths["front"].name) == (1500.0, "front")
    assert design.finishes.waist.elastic.width == 12.0


def test_the_brief_s_own_figures_win_over_the_shelf_s():
    text = NAMED.replace('wearer = "Imke"\n', "") + "[wearer]\nshelf = 'Imke'\nwaist = 80\n"
    text = text.replace('mesh = "shelf"\n', "") + "[cloth.mesh]\nshelf = 'shelf'\nwidth = 140\n"
    design = design_of(text)
    assert (design.wearer.waist, design.wearer.hip) == (800.0, 1010.0)
    assert (design.cloths["mesh"].width, design.cloths["mesh"].shrink_length) == (1400.0, 0.03)


@pytest.mark.parametrize(
    ("old", "new", "key"),
    [
        ('wearer = "Imke"', 'wearer = "Ilse"', "wearer"),
        ('block = "hers"', 'block = "his"', "block"),
        ('front = "soft mesh"', 'front = "tulle"', "cloth.front"),
        ('"velvet band" = "shelf"', '"velvet cord" = "shelf"', "elastic.velvet cord"),
    ],
)
def test_what_is_not_on_the_shelf_is_told_by_key_and_line(old, new, key):
    text = NAMED.replace(old, new)
    with pytest.raises(BadInput) as caught:
        design_of(text)
    fault = next(fault for fault in caught.value.faults if fault.key == key)
    assert "on the shelf" in fault.rule
    assert text.split("\n")[fault.line - 1] == new


def test_without_a_shelf_the_brief_is_told_so():
    with pytest.raises(BadInput, match="no shelf is open"):
        read_brief(NAMED, file="b.toml")


def test_a_thing_on_the_shelf_is_checked_like_one_in_the_brief():
    text = LEAST.replace("[cloth.mesh]", "[cloth.mesh]\nshelf = 'mesh'").replace("width = 150\n", "width = -1\n")
    with pytest.raises(BadInput, match="must lie between 3 and 5000 mm"):
        design_of(text)
