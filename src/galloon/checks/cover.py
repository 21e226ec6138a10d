"""Gusset width, and what shows through."""

from __future__ import annotations

from galloon import defaults
from galloon.checks.model import Evidence
from galloon.design import Design
from galloon.findings import Finding, Status
from galloon.materials import Cloth, Kind
from galloon.pieces import Piece
from galloon.said import Term, said
from galloon.units import format_length


def cover(evidence: Evidence) -> list[Finding]:
    """Findings on the gusset and on see-through panels."""
    return [*_gusset(evidence), *_see_through(evidence)]


def _gusset(evidence: Evidence) -> list[Finding]:
    width = 2.0 * evidence.garment.frame.gusset_narrow
    told = format_length(width, evidence.garment.design.units)
    least, most = float(defaults.LEAST_GUSSET), float(defaults.WIDEST_GUSSET)
    about = "gusset"
    if width < least:
        says = said("The gusset is only {width} at its narrowest; 6 to 7.5 cm is usual.", width=told)
        return [Finding("gusset width", Status.WARN, says, width, least, "mm", about)]
    if width > most:
        says = said("The gusset is {width} at its narrowest; that may bunch between the legs.", width=told)
        return [Finding("gusset width", Status.WARN, says, width, most, "mm", about)]
    says = said("The gusset is {width} at its narrowest.", width=told)
    return [Finding("gusset width", Status.PASS, says, width, least, "mm", about)]


def shows_through(cloth: Cloth) -> float:
    """Share that shows through one layer: the holes of a lace, what a cloth's opacity leaves; 0 where nothing is
    known.
    """
    through = 1.0
    if cloth.openness is not None:
        through = cloth.openness
    elif cloth.opacity is not None:
        through = 1.0 - cloth.opacity
    else:
        through = 0.4 if cloth.kind is Kind.LACE else 0.0
    return through


def _see_through(evidence: Evidence) -> list[Finding]:
    garment = evidence.garment
    found = []
    for body in ("front", "gusset", "back"):
        limit = float(defaults.SEE_THROUGH) if body == "back" else 0.35
        for piece in garment.covering(body):
            share = _layers_show(garment.design, piece)
            if share <= limit + 1e-9:
                continue
            says = said(
                "The {piece} lets {share:.0%} show through; line it if you do not want that ({key} under [panels]).",
                piece=Term(piece.name),
                share=share,
                key=f"{body}_lining",
            )
            found.append(Finding("see-through", Status.WARN, says, share * 100.0, limit * 100.0, "%", piece.name))
    return found


def _layers_show(design: Design, piece: Piece) -> float:
    """Share that shows through a piece with its lining, at its barest: lace alone where cloth is cut away."""
    panels = dict(design.panels.items())
    own = shows_through(design.cloths[piece.part.cloth])
    bare = max([own, *(shows_through(design.cloths[laid.cloth]) for laid in piece.part.laid if laid.cut_away)])
    lining = f"{piece.part.covers}_lining"
    return bare * (shows_through(design.cloths[panels[lining]]) if lining in panels else 1.0)
