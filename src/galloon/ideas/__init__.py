"""What else the cloth could become: every design of a stock reckoned, ranked by named scores, ready to be made."""

from galloon.ideas import words
from galloon.ideas.briefs import brief_text_of
from galloon.ideas.figures import Figures
from galloon.ideas.find import BEST, MOST, Idea, Ideas, Progress, Wish, find_ideas
from galloon.ideas.line_up import line_up_pdf
from galloon.ideas.scores import MEANING, WEIGHTS, weights_of
from galloon.ideas.sketch import Sketch
from galloon.ideas.sources import Source, from_brief, from_shelf
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
    "Source",
    "Stock",
    "Wish",
    "brief_text_of",
    "find_ideas",
    "from_brief",
    "from_shelf",
    "line_up_pdf",
    "stock_of",
    "weights_of",
    "words",
]
