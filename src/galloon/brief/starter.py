"""The commented brief that a maker starts from; it works as it is."""

from __future__ import annotations

from string import Template
from typing import Final

from galloon.errors import BadValue

#: The invented wearer and cloths in each unit, to what a tape shows there.
_FIGURES: Final[dict[str, dict[str, str]]] = {
    "mm": {
        "waist": "740", "top_hip": "900", "hip": "1010", "thigh": "590", "height": "1690", "waist_to_hip": "210",
        "crotch": "730", "lace_width": "290", "pitch": "42", "depth": "11", "repeat": "84", "lace_length": "1500",
        "mesh_width": "1500", "mesh_length": "600", "lining_width": "1400", "lining_length": "300",
        "side": "230", "word": "millimetres",
    },
    "cm": {
        "waist": "74", "top_hip": "90", "hip": "101", "thigh": "59", "height": "169", "waist_to_hip": "21",
        "crotch": "73", "lace_width": "29", "pitch": "4.2", "depth": "1.1", "repeat": "8.4", "lace_length": "150",
        "mesh_width": "150", "mesh_length": "60", "lining_width": "140", "lining_length": "30",
        "side": "23", "word": "centimetres",
    },
    "in": {
        "waist": "29.25", "top_hip": "35.5", "hip": "39.75", "thigh": "23.25", "height": "66.5",
        "waist_to_hip": "8.25", "crotch": "28.75", "lace_width": "11.5", "pitch": "1.625", "depth": '"7/16 in"',
        "repeat": "3.25", "lace_length": "60", "mesh_width": "59", "mesh_length": "24", "lining_width": "55",
        "lining_length": "12", "side": "9", "word": "inches",
    },
}  # fmt: skip


def starter_brief(units: str = "cm") -> str:
    """The starter brief with its figures in ``units`` (mm, cm or in)."""
    if units not in _FIGURES:
        raise BadValue("units", f"must be one of {', '.join(_FIGURES)}", units)
    return _STARTER.substitute(_FIGURES[units], units=units)


_STARTER: Final = Template(
    """\
# A brief for galloon: her measurements, the cloths and laces at hand, the style.
# Change the figures, then:  galloon check THIS-FILE   and   galloon make THIS-FILE
#
# Bare numbers are in the unit below. Text with its own unit always works:
# "27 1/2 in", "70 cm", "6 mm". Stretch, recovery and shrinkage are percent.
# A line that begins with # is left out; take the # away to use it.

title = "First hipster"
units = "$units"                # mm, cm or in: bare numbers here are $word

[wearer]                          # tape level, snug, not tight; galloon open shows where
name = ""                         # stands on the pieces; may stay empty
waist = $waist
top_hip = $top_hip                # halfway from waist to hip; makes a dropped waist fit better
hip = $hip                       # round the fullest part of the seat
thigh = $thigh
height = $height
waist_to_hip = $waist_to_hip                 # along the side, waist level to hip level
crotch_length = $crotch            # front waist, through the legs, to back waist
# estimate = true                 # allows the last two to be left out for a first try

# [block]                         # figures of a block of your own that fits, as far as you know them
# side = $side                      # waist to leg along the side seam

[cloth.heron]                     # a lace; the name is yours to choose
kind = "lace"
edges = "double scallop"          # double scallop, single scallop, straight, none
width = $lace_width                       # overall, peak to peak, washed and laid flat
scallop_pitch = $pitch               # peak to peak along the edge
scallop_depth = $depth               # peak line to valley line
repeat = $repeat                      # length of the motif
mirror_across = true              # the motif is its own mirror image about a line across the lace
second_edge = "mirror"            # mirror, half step (mirror, moved half a repeat), other
stretch_length = 55               # mark 10 cm along the lace; 15.5 cm when pulled is 55
stretch_width = 15
recovery = 92                     # how much of the stretch goes back; 100 is all
on_hand = $lace_length
# reversible = false              # it has a right side that must face out
# motif_up = true                 # its flowers must not hang upside down
# openness = 0.4                  # share of holes, for the see-through check
# price = 9.5                     # per metre

[cloth.mesh]
kind = "mesh"                     # knit, mesh, rigid (does not stretch at all)
width = $mesh_width
stretch_width = 70                # across, from selvedge to selvedge
stretch_length = 50
recovery = 95
on_hand = $mesh_length
# shrink = { length = 3, width = 2 }
# pull_test = { along = "width", strip = "5 cm", load_g = 500, stretch = 32 }

[cloth.lining]                    # cotton jersey for the gusset
kind = "knit"
width = $lining_width
stretch_width = 40
stretch_length = 20
on_hand = $lining_length

[panels]                          # which cloth each panel is cut from
front = "mesh"
back = "heron"
gusset = "mesh"
gusset_lining = "lining"

[style]
shape = "hipster"                 # brief, hipster, bikini, high leg, tanga, thong
waist_drop = "auto"               # a length, { front = , side = , back = }, or "auto": the least the lace asks
leg_raise = 0                     # how far the leg line is lifted at the side
seat_coverage = "full"            # full, medium, low
centre_back_seam = true
side_seam = "side"                # side, a length moved forward, none

[finish]                          # an elastic by name, scallop, lace trim NAME, fold-over NAME, hem, binding
waist = "picot elastic 10 mm"
front_leg = "picot elastic 8 mm"
back_leg = "scallop"              # the lace's own edge, no elastic

# [open_side]                     # front and back do not meet at the side: straps of elastic bridge the gap
# gap = "8 cm"                    # on the body; { waist = , leg = } for one that narrows
# straps = 3                      # on each side
# strap = "strap elastic 12 mm"

[allowance]
seam = "6 mm"

[[lace]]                          # how the lace is used
use = "scalloped leg"             # the scallop is the leg edge
cloth = "heron"
panel = "back"                    # front, back, both
lie = "along leg"                 # along leg, upright
meet = "valley"                   # what meets at the centre seam: valley or peak
"""
)
