"""What else the cloth could become: every design of a stock reckoned, ranked by named scores, ready to be made."""

from galloon.ideas.figures import Figures
from galloon.ideas.find import BEST, MOST, Idea, Ideas, Progress, Wish, find_ideas
from galloon.ideas.scores import MEANING, WEIGHTS, weights_of
from galloon.ideas.sketch import Sketch, describe
from galloon.ideas.stock import Stock, stock_of

__all__ = [
    "BEST",
    "MEANING",
    "MOST",
    "WEIGHTS",
    "Figures",
    "Idea",
    "Ideas",
    "Progress",
    "Sketch",
    "Stock",
    "Wish",
    "describe",
    "find_ideas",
    "stock_of",
    "weights_of",
]
