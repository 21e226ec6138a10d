"""The whole job: a brief to everything reckoned, and that to the bytes of every file."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from galloon.checks import Evidence, Opened, judge
from galloon.design import Design
from galloon.findings import Finding
from galloon.pieces import Garment
from galloon.report import Made, build_report, report_bytes
from galloon.sewing import (
    ElasticRow,
    ShoppingRow,
    elastic_reach,
    elastic_rows,
    sewing_steps,
    shopping,
    stop_findings,
)
from galloon.workflow.plan_cutting import Longer, bound_cutting, plan_cutting, to_buy
from galloon.workflow.reckon import make_garment

#: The guide lies on the sewing table: the small sheet of the same family as the pattern's paper.
_GUIDE_PAPER = {"a3": "a4", "a0": "a4"}

Step = Callable[[str], None]


def _quiet(name: str) -> None:
    """Says nothing of the step that begins."""


def reckon_brief(path: str, *, shelf: str | None = None, step: Step = _quiet, longer: Longer | None = None) -> Made:
    """Everything reckoned from the brief at ``path``. Raises BadInput with all faults.

    ``shelf`` is the file of the shelf that the brief may take things from, the user's own unless given; ``longer`` asks
    for a longer search for the cutting plans.
    """
    from galloon.brief import load_brief
    from galloon.store import ShelfOnDemand

    step("Reading the brief")
    brief = load_brief(Path(path), shelf=ShelfOnDemand(Path(shelf) if shelf else None))
    return reckon_design(brief.design, brief.findings, step=step, longer=longer)


def reckon_design(
    design: Design, notes: tuple[Finding, ...] = (), *, step: Step = _quiet, longer: Longer | None = None
) -> Made:
    """Everything reckoned from a design; ``notes`` are findings on its measurements, put first."""
    step("Drafting and fitting the lace")
    garment = make_garment(design)
    step("Planning the cutting")
    cutting, unplanned = plan_cutting(garment, longer)
    step("Checking")
    judged = judge_lengths(garment, {row.cloth: row.plan.length for row in cutting})
    findings = (*notes, *judged.findings, *unplanned)
    return Made(garment, findings, cutting, judged.elastic, judged.shopping, sewing_steps(garment))


@dataclass(frozen=True)
class Judged:
    """What follows from a garment and the ``lengths`` (mm) cut of each cloth; the rows are those of the sewing part."""

    garment: Garment
    lengths: Mapping[str, float]
    findings: tuple[Finding, ...]
    elastic: tuple[ElasticRow, ...]
    shopping: tuple[ShoppingRow, ...]


def reckon_bounds(design: Design) -> Judged:
    """As ``reckon_design``, but with a proven lower bound in place of each cutting plan; no search, no sewing order."""
    return bounds_of(make_garment(design))


def bounds_of(garment: Garment) -> Judged:
    """The same from the drafted garment on."""
    lengths, unplanned = bound_cutting(garment)
    judged = judge_lengths(garment, lengths, at_least=True)
    return replace(judged, findings=(*judged.findings, *unplanned))


def judge_lengths(garment: Garment, lengths: Mapping[str, float], *, at_least: bool = False) -> Judged:
    """The checks, the elastics and what to buy, where so much is cut of each cloth, or ``at_least`` so much."""
    elastics = elastic_rows(garment)
    reaches = elastic_reach(garment, elastics)
    opened = {name: Opened(one.reach, one.kind) for name, one in reaches.items()}
    bought = tuple(_sold(garment.design, row) for row in shopping(garment, lengths, elastics))
    # What comes off the cloth on hand: trims too, and as long as it is before its first wash.
    needs = {row.cloth: row.need for row in bought if row.cloth in garment.design.cloths}
    findings = (*judge(Evidence(garment, opened, needs, at_least)), *stop_findings(garment))
    return Judged(garment, lengths, findings, elastics, bought)


def _sold(design: Design, row: ShoppingRow) -> ShoppingRow:
    """The row with its length to buy rounded up to what shops sell, and what that costs."""
    buy, cloth = to_buy(row.buy, design.units), design.cloths.get(row.cloth)
    cost = cloth.price * buy / 1000.0 if cloth is not None and cloth.price is not None else None
    return replace(row, buy=buy, cost=cost)


def make_files(made: Made, paper: str, *, step: Step = _quiet, cutting_page: bool = False) -> dict[str, bytes]:
    """Every file of the result by name; with ``cutting_page`` also the cutting plans at true size."""
    from galloon.drawing import paper as paper_of
    from galloon.sheets import GuideMatter, cutting_pdf, guide_pdf, pattern_files

    step("Writing the report")
    files = {"report.json": report_bytes(build_report(made))}
    step("Drawing the pattern")
    drawn = pattern_files(made.garment, paper_of(paper))
    files |= {
        "pattern.pdf": drawn.tiled,
        "pattern-full.pdf": drawn.full,
        "pattern.svg": drawn.svg,
        "pattern.dxf": drawn.dxf,
    }
    step("Writing the guide")
    plans = {row.cloth: row.plan for row in made.cutting}
    if cutting_page:
        files["cutting.pdf"] = cutting_pdf(made.garment, plans)
    matter = GuideMatter(made.garment, made.findings, plans, made.elastic, made.shopping, made.sewing)
    files["guide.pdf"] = guide_pdf(matter, paper_of(_GUIDE_PAPER.get(paper, paper)))
    return files
