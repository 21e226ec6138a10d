"""Every named tolerance, in one place; millimetres and degrees."""

from __future__ import annotations

from typing import Final

#: Two points nearer than this are one point (mm).
SAME_POINT: Final = 1e-6
#: Greatest sag between a curve and the chords that stand for it (mm).
FLATTEN_SAG: Final = 0.01
#: Edges that are sewn together are equal within this (mm).
SEWN_EDGES: Final = 0.05
#: Sums along the centre line are right within this (mm).
CENTRE_SUM: Final = 0.1
#: Cut line keeps its distance from the stitch line within this (mm).
ALLOWANCE: Final = 0.05
#: A waist or leg line stands square to a fold within this (degrees).
SQUARE: Final = 0.5
#: Lines run on across a seam within this (degrees).
SMOOTH: Final = 1.0
#: Neighbouring sides of a flattened ring turn less than this, corners apart (degrees).
TURN: Final = 30.0
#: Least cloth between the waist line and the leg line (mm).
CLEARANCE: Final = 20.0
#: A drop solved for a lace is the least within this (mm).
DROP: Final = 0.01
#: Scallops that miss each other at a seam by no more than this look as if they met (mm); by eye.
SCALLOPS_MEET: Final = 1.0
#: Lace may stand off its strip by no more than this (mm).
ON_LACE: Final = 0.02
#: Two pieces on a cutting plan may come nearer than the blade's clearance by this (mm): rounding only.
CUT_TOUCH: Final = 1e-6
#: A cutting plan's length and its bound are reckoned in steps of at most this (mm).
CUT_STEP: Final = 0.01
#: Outlines of very many points are replaced, for planning only, by outer ones that stand off no more than this (mm).
CUT_OUTLINE: Final = 0.05
