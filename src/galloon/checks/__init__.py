"""Judges a garment: every check returns findings with value, limit and a sentence to act on."""

from galloon.checks.applique import applique
from galloon.checks.cover import cover, shows_through
from galloon.checks.lace_checks import coverage_word, lace_checks, seat_covered
from galloon.checks.model import Evidence, Opened
from galloon.checks.open_side import open_side
from galloon.checks.openings import LEG_LIMITS, opening_reach, openings
from galloon.checks.overlay import overlay
from galloon.checks.sewn import sewn_edges
from galloon.checks.wear import band_pressure, band_word, pressure, wear
from galloon.findings import Finding

__all__ = [
    "LEG_LIMITS",
    "Evidence",
    "Opened",
    "band_pressure",
    "band_word",
    "cover",
    "coverage_word",
    "judge",
    "lace_checks",
    "open_side",
    "opening_reach",
    "openings",
    "pressure",
    "seat_covered",
    "sewn_edges",
    "shows_through",
    "wear",
]

#: Every check in the order the report prints them; a new one is a function and a line here.
_CHECKS = (openings, wear, open_side, lace_checks, overlay, applique, cover, sewn_edges)


def judge(evidence: Evidence) -> tuple[Finding, ...]:
    """All findings on a garment, those of its drafting first."""
    return (*evidence.garment.notes, *(finding for check in _CHECKS for finding in check(evidence)))
