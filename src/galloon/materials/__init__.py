"""Cloths, laces and elastics as the maker measured them."""

from galloon.materials.elastics import usual_elastic, usual_kinds, usual_ratio
from galloon.materials.fibres import fibre_shares, fibre_text, mixed, whole_percents
from galloon.materials.model import Cloth, Edges, Elastic, Kind, LaceEdges, PullTest, Scallops, SecondEdge
from galloon.materials.off_axis import off_axis_stretch, pull_stiffness
from galloon.materials.picture import LacePicture

__all__ = [
    "Cloth",
    "Edges",
    "Elastic",
    "Kind",
    "LaceEdges",
    "LacePicture",
    "PullTest",
    "Scallops",
    "SecondEdge",
    "fibre_shares",
    "fibre_text",
    "mixed",
    "off_axis_stretch",
    "pull_stiffness",
    "usual_elastic",
    "usual_kinds",
    "usual_ratio",
    "whole_percents",
]
