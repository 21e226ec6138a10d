"""What the table answers to a garment: its drawing, its handles, its figures and what there is to say."""

from __future__ import annotations

from typing import Any, Final

from galloon.brief import Brief
from galloon.design import Design
from galloon.errors import BadInput, CannotMake, Fault
from galloon.findings import Finding, refusal, verdict
from galloon.pieces import Garment
from galloon.units import format_length
from galloon.web.handles import as_data, handles_of
from galloon.web.lace_picture import pictures
from galloon.web.sheet import draw_sheet, lay_sheet
from galloon.web.spots import spot_data, spots_of
from galloon.web.words import LANGUAGES, Words, keys
from galloon.workflow.job import Judged, bounds_of


def answer(garment: Garment, brief: Brief, words: Words) -> dict[str, Any]:
    """The table's whole answer to the garment of a brief as plain data."""
    judged = bounds_of(garment)
    sheet = lay_sheet(garment)
    findings = sorted((*brief.findings, *judged.findings), key=lambda one: -one.status.weight)
    return {
        "verdict": verdict(findings).value,
        "box": sheet.view_box,
        "drawing": draw_sheet(garment, sheet, words),
        "handles": [
            *(as_data(one, sheet.place, words) for one in handles_of(garment, brief.design.lace)),
            *(spot_data(one, sheet.place, words, garment.design.units) for one in spots_of(garment, brief)),
        ],
        "laces": pictures(garment.design),
        "picked": picked(garment.design),
        "figures": figures(judged, words),
        "says": [says(one, words) for one in findings],
    }


def picked(design: Design) -> dict[str, str]:
    """What the lists of the table stand at, by their ids."""
    return {
        "shape": design.style.shape.value,
        "coverage": design.style.coverage.value,
        "sides": "sewn" if design.open_side is None else "open",
    }


def says(finding: Finding, words: Words) -> dict[str, str]:
    """One finding for the page."""
    return {
        "name": finding.name,
        "status": finding.status.value,
        "word": words(f"status.{finding.status.value}"),
        "text": words.said(finding.says),
        "about": finding.about,
    }


def figures(judged: Judged, words: Words) -> list[tuple[str, str]]:
    """The figures beside the drawing, as pairs of word and value."""
    garment, unit = judged.garment, judged.garment.design.units
    draft = garment.draft
    drops = [words.said(format_length(one, unit)) for one in (draft.front_drop, draft.side_drop, draft.back_drop)]
    level = len(set(drops)) == 1
    side = "figure.side" if garment.design.open_side is None else "figure.open side"
    rows = [
        (words("figure.level" if level else "figure.drop"), drops[0] if level else " / ".join(drops)),
        (words(side), words.said(format_length(garment.side_seam, unit))),
    ]
    rows += _matches(garment, unit, words)
    for row in judged.shopping:
        if row.cloth in garment.design.cloths:
            rows.append((words("figure.needs", cloth=row.cloth), words.said(format_length(row.need, unit))))
    return rows


def _matches(garment: Garment, unit: str, words: Words) -> list[tuple[str, str]]:
    rows = []
    for one in garment.placements:
        if one.centre_mismatch is not None:
            rows.append((words("figure.centre"), words.said(format_length(one.centre_mismatch, unit))))
        if one.side_mismatch is not None:
            rows.append((words("figure.sides"), words.said(format_length(one.side_mismatch, unit))))
        if one.side_kink:
            rows.append((words("figure.kink"), f"{one.side_kink:.0f}°"))
    return list(dict.fromkeys(rows))


def faults(error: BadInput | CannotMake, words: Words) -> dict[str, Any]:
    """Why a design cannot be kept or made, for the page."""
    if isinstance(error, CannotMake):
        return {
            "faults": [{"key": "", "text": words("fault.cannot", why=refusal(error))}],
            "title": words("fault.made"),
        }
    return {
        "title": words("fault.title"),
        "faults": [{"key": one.key, "text": _fault(one, words)} for one in error.faults],
    }


def why(error: BadInput | CannotMake, words: Words) -> str:
    """The same as one text."""
    return " ".join(f"{one['text'].rstrip('.')}." for one in faults(error, words)["faults"])


def _fault(one: Fault, words: Words) -> str:
    text = words("fault.rule", key=_field(one, words), rule=one.rule)
    return f"{text}. {words.said(one.hint)}" if one.hint else text


#: What the page calls the fields of a table of the brief: these words, by the last part of the key.
_FIELDS: Final = {
    "wearer": "measure.",
    "cloth": "cloth.",
    "panels": "panel.",
    "style": "style.",
    "finish": "finish.zone.",
}


def _field(one: Fault, words: Words) -> str:
    """The field a fault is about as the page calls it, else the key of the brief."""
    table, _, rest = one.key.partition(".")
    name, _, last = rest.rpartition(".")
    word = f"{_FIELDS.get(table, '')}{last}"
    if table not in _FIELDS or word not in keys(LANGUAGES[0]):
        return words.term(one.key or one.file)
    return f"{name}: {words(word)}" if name else words(word)
