"""Handlers of the page's routes."""

from galloon.web.views.changes import keep, mends_for, place_again, redo, shelve, try_changes, undo, version
from galloon.web.views.designs import begin, home, language, remove
from galloon.web.views.drawings import garment_card, lace_drawing
from galloon.web.views.files import brief_file, file
from galloon.web.views.long_jobs import adopt, longer, look, stop
from galloon.web.views.motifs import add_motif, outlines
from galloon.web.views.reading import keep_lace, lace_picture, read
from galloon.web.views.steps import step

__all__ = [
    "add_motif",
    "adopt",
    "begin",
    "brief_file",
    "file",
    "garment_card",
    "home",
    "keep",
    "keep_lace",
    "lace_drawing",
    "lace_picture",
    "language",
    "longer",
    "look",
    "mends_for",
    "outlines",
    "place_again",
    "read",
    "redo",
    "remove",
    "shelve",
    "step",
    "stop",
    "try_changes",
    "undo",
    "version",
]
