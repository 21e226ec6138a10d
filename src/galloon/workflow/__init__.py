"""The whole job in one call each: the sole assembler of the parts below it."""

from galloon.workflow.job import Judged, bounds_of, make_files, reckon_bounds, reckon_brief, reckon_design
from galloon.workflow.reckon import make_garment
from galloon.workflow.write_folder import write_folder

__all__ = [
    "Judged",
    "bounds_of",
    "make_files",
    "make_garment",
    "reckon_bounds",
    "reckon_brief",
    "reckon_design",
    "write_folder",
]
