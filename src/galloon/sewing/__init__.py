"""How a garment is sewn: elastics, what to buy, and a sewing order that never needs an edge already closed."""

from galloon.sewing.elastics import cut_length, elastic_reach, elastic_rows
from galloon.sewing.make_up import Ingredient, fibres, make_up
from galloon.sewing.model import ElasticRow, ElasticZone, Mark, Reach, ShoppingRow, Step
from galloon.sewing.replay import replay
from galloon.sewing.shopping import notions, shopping
from galloon.sewing.steps import sewing_steps
from galloon.sewing.stops import LaceStop, Stop, lace_stops, stop_findings
from galloon.sewing.straps import strap_length

__all__ = [
    "ElasticRow",
    "ElasticZone",
    "Ingredient",
    "LaceStop",
    "Mark",
    "Reach",
    "ShoppingRow",
    "Step",
    "Stop",
    "cut_length",
    "elastic_reach",
    "elastic_rows",
    "fibres",
    "lace_stops",
    "make_up",
    "notions",
    "replay",
    "sewing_steps",
    "shopping",
    "stop_findings",
    "strap_length",
]
