"""The guide of a design with three lace uses, from the reckoned design to the bytes of guide.pdf."""

from __future__ import annotations

from collections.abc import Sequence

from bench.draft_bench import THREE
from bench.rows import Row, repeat
from galloon.drawing import paper
from galloon.sheets import GuideMatter, guide_pdf
from galloon.workflow.job import reckon_design


def guide() -> Sequence[float]:
    """Seconds for each guide, drawings of its steps included."""
    made = reckon_design(THREE)
    plans = {row.cloth: row.plan for row in made.cutting}

    def once() -> bytes:
        return guide_pdf(
            GuideMatter(made.garment, made.findings, plans, made.elastic, made.shopping, made.sewing), paper("a4")
        )

    return repeat(once, times=7, warm_up=1)


ROWS = [Row("guide: three uses", "three lace uses, reckoned, to the bytes of guide.pdf", 2.0, "s", guide)]
