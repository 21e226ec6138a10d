"""The builders of operations, one module for each part of the work.

To add one: write a function from ``Bench`` to operations in a module of its own and name it in ``BUILDERS``. A lace
use that puts pieces between others needs nothing as long as its edges say what they are: ``sewn_to`` names the
partner (a seam); ``finish`` "lapped" laps over. A use with work of its own, such as pieces laid on panels, adds a
function from ``Bench`` and its ``Placement`` to ``LACE_BUILDERS``. What an operation closes,
needs open and needs closed is told in edges ("piece/edge", both halves); the order follows from that alone. Edges
nobody closes are finished by their word.
"""

from galloon.sewing.operations.edges import edge_operations
from galloon.sewing.operations.ends import finishing, left_over, prepare, tacks
from galloon.sewing.operations.gusset import free_ends, gusset_operations
from galloon.sewing.operations.lace import LACE_BUILDERS, lace_operations
from galloon.sewing.operations.panels import centre_seams, joins, linings, side_seams
from galloon.sewing.operations.straps import straps

BUILDERS = (
    prepare,
    lace_operations,
    joins,
    free_ends,
    linings,
    centre_seams,
    gusset_operations,
    side_seams,
    edge_operations,
    straps,
    tacks,
)

__all__ = ["BUILDERS", "LACE_BUILDERS", "finishing", "left_over"]
