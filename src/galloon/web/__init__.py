"""The local page: the same engine as the command line, with the lace lying on the pattern."""

from galloon.web.app import build_app
from galloon.web.serve import serve

__all__ = ["build_app", "serve"]
