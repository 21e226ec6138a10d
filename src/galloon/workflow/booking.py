"""From a brief to a booked cut, to a kept pattern version, and from an old version back to its files."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

import numpy as np

from galloon.brief import Brief, brief_from, load_brief, to_data
from galloon.design import Design
from galloon.errors import CannotMake
from galloon.pieces import Garment
from galloon.report import Made
from galloon.store import (
    Booking,
    Shelf,
    ShelfLookup,
    Take,
    Version,
    book_cut,
    find,
    keep_version,
    put_pictures,
    show_version,
)
from galloon.workflow.job import reckon_design
from galloon.workflow.plan_cutting import Longer

Step = Callable[[str], None]


@dataclass(frozen=True)
class Cut:
    """A reckoned cut: ``booking`` is None where a check failed; ``not_booked`` names cloths not on the shelf."""

    made: Made
    booking: Booking | None
    not_booked: tuple[str, ...]


def cut_brief(path: str, shelf: Shelf, *, anyway: bool = False, step: Step, longer: Longer | None = None) -> Cut:
    """Reckons the brief at ``path`` and books its cut, unless a check failed and not ``anyway``.

    Cloths are booked that the brief takes from the shelf, or that are there under the same name, kind and width.
    """
    step("Reading the brief")
    brief = load_brief(Path(path), shelf=ShelfLookup(shelf))
    made = reckon_design(brief.design, brief.findings, step=step, longer=longer)
    named = names_on_shelf(brief, shelf)
    cut = [row.cloth for row in made.cutting]
    missing = tuple(name for name in cut if name not in named)
    if made.verdict.value == "fail" and not anyway:
        return Cut(made, None, missing)
    step("Booking")
    needs = {row.cloth: row.need for row in made.shopping}
    takes = [Take(named[row.cloth], needs[row.cloth], row.plan) for row in made.cutting if row.cloth in named]
    with shelf.writing():
        version = keep(shelf, brief.design, made.garment)
        return Cut(made, book_cut(shelf, brief.design.title, _apart(takes), version), missing)


def _apart(takes: list[Take]) -> list[Take]:
    """The takes. Raises CannotMake where two are of one cloth of the shelf."""
    found: dict[str, Take] = {}
    for take in takes:
        if take.cloth in found:
            raise CannotMake(f"cloth {take.cloth}", "is named twice in the brief; name it once to book the cut")
        found[take.cloth] = take
    return list(found.values())


def names_on_shelf(brief: Brief, shelf: Shelf) -> dict[str, str]:
    """The brief's names of cloths to the shelf's, those that are there."""
    tables = brief.data.get("cloth", {})
    found = {}
    for name, cloth in brief.design.cloths.items():
        asked = _asked(tables.get(name), name)
        if asked is None:
            there = find(shelf, "cloth", name)
            like = there is not None and there.data["kind"] == cloth.kind.value
            asked = name if like and there is not None and abs(there.data["width"] - cloth.width) < 0.5 else None
        if asked is not None:
            found[name] = asked
    return found


def _asked(table: Any, name: str) -> str | None:
    """What the brief takes from the shelf for its cloth ``name``; None where it spells the cloth out."""
    given = table.get("shelf") if isinstance(table, Mapping) else table
    return name if given == "shelf" else given if isinstance(given, str) else None


def outlines_digest(garment: Garment) -> str:
    """A digest of the cut outlines, to 0.01 mm: two drawings with the same digest cut the same."""
    held = sha256()
    for piece in garment.pieces:
        held.update(repr((piece.name, piece.part.quantity, piece.part.fold)).encode())
        held.update(np.round(np.asarray(piece.cut) * 100.0).astype(np.complex128).tobytes())
    return held.hexdigest()


def keep(shelf: Shelf, design: Design, garment: Garment) -> Version:
    """The pattern as a version on the shelf, under the design's title."""
    put_pictures(shelf, design)
    return keep_version(shelf, design.title, to_data(design), outlines_digest(garment))


def keep_brief(path: str, shelf: Shelf, *, step: Step) -> Version:
    """Reckons the brief at ``path`` and keeps the pattern as a version."""
    step("Reading the brief")
    brief = load_brief(Path(path), shelf=ShelfLookup(shelf))
    return keep(shelf, brief.design, reckon_design(brief.design, brief.findings, step=step).garment)


@dataclass(frozen=True)
class Again:
    """An old version drawn again; ``same`` tells whether the cut outlines are those of then, to 0.01 mm."""

    version: Version
    made: Made
    same: bool


def draw_again(shelf: Shelf, name: str, number: int | None, *, step: Step) -> Again:
    """An old version reckoned anew from its own brief. Raises BadInput where it is not on the shelf."""
    version = show_version(shelf, name, number)
    brief = brief_from(version.data, file=f"version {version.number} of {version.name}", shelf=ShelfLookup(shelf))
    made = reckon_design(brief.design, brief.findings, step=step)
    return Again(version, made, outlines_digest(made.garment) == version.outlines)
