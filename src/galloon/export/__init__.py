"""Drawings to files' bytes: PDF, SVG and DXF, one canvas each. Knows strokes and layers only, and writes no file.

The same drawing gives the same bytes. The libraries behind each format are loaded when it is first asked for.
"""

from galloon.export.dxf import D6673_LAYERS, to_dxf
from galloon.export.pdf import to_pdf
from galloon.export.svg import to_svg

__all__ = ["D6673_LAYERS", "to_dxf", "to_pdf", "to_svg"]
