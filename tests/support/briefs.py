"""Briefs as text: the whole of what a brief can say, and small changes to it."""

from __future__ import annotations

#: Every table and nearly every key, in the words of the format's description.
FULL = """\
title = "Heron hipster"
units = "cm"

[wearer]
waist = 74
top_hip = 90
hip = 101
thigh = 59
height = 169
waist_to_hip = 21
crotch_length = 73

[block]
side = 23

[cloth.heron]
kind = "lace"
edges = "double scallop"
width = 24
scallop_pitch = 4.2
scallop_depth = 1.1
second_pitch = 4.2
second_depth = 1.1
repeat = 8.4
mirror_across = true
second_edge = "mirror"
half_turn = true
stretch_length = 55
stretch_width = 15
stretch_bias = 40
recovery = 92
reversible = true
motif_up = false
openness = 0.45
on_hand = 150
price = 9.5

[cloth.mesh]
kind = "knit"
width = 150
stretch_width = 70
stretch_length = 50
recovery = 95
nap = false
opacity = 0.6
shrink = { length = 3, width = 2 }
pull_test = { along = "width", strip = 5, load_g = 500, stretch = 32 }
on_hand = 60

[elastic."soft picot 10 mm"]
width = 1.0
stretch = 90
ratio = { waist = 0.88, front_leg = 1.0, back_leg = 0.85 }

[panels]
front = "mesh"
back = "heron"
gusset = "mesh"
gusset_lining = "mesh"

[style]
shape = "hipster"
waist_drop = "auto"
leg_raise = 1.5
seat_coverage = "full"
centre_back_seam = true
side_seam = "side"

[finish]
waist = "picot elastic 10 mm"
front_leg = "picot elastic 8 mm"
back_leg = "scallop"
gusset_leg = "picot elastic 8 mm"

[allowance]
seam = "6 mm"

[[lace]]
use = "scalloped leg"
cloth = "heron"
panel = "back"
lie = "along leg"
meet = "valley"

[[motif]]
outline = [[0, 0], [3, 0.5], [2.2, 3]]
panel = "front"
at = [3, -12]
turn = 0
stretches = false
"""

#: The least a brief can say.
LEAST = """\
units = "cm"
[wearer]
waist = 74
hip = 101
waist_to_hip = 21
crotch_length = 73
[cloth.mesh]
kind = "mesh"
width = 150
stretch_width = 70
stretch_length = 50
[panels]
front = "mesh"
back = "mesh"
gusset = "mesh"
"""


def changed(old: str, new: str, text: str = FULL) -> str:
    """The brief with ``old``, which must be in it once, replaced by ``new``."""
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in the brief"
    return text.replace(old, new)


def line_holding(part: str, text: str) -> int:
    """The line (from 1) of the first line that holds ``part``."""
    return next(at for at, line in enumerate(text.split("\n"), 1) if part in line)
