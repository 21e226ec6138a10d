"""How a garment is sewn: elastics, what to buy, and a sewing order that never needs an edge already closed."""

from galloon.sewing.elastics import cut_length, elastic_reach, elastic_rows, strap_length
from galloon.sewing.model import ElasticRow, ElasticZone, Mark, Reach, ShoppingRow, Step
from galloon.sewing.replay import replay
from galloon.sewing.shopping import notions, shopping
from galloon.sewing.steps import sewing_steps

__all__ = [
    "ElasticRow",
    "ElasticZone",
    "Mark",
    "Reach",
    "ShoppingRow",
    "Step",
    "cut_length",
    "elastic_reach",
    "elastic_rows",
    "notions",
    "replay",
    "sewing_steps",
    "shopping",
    "strap_length",
]
