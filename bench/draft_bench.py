"""Brief values to drafted, laced, checked pieces, warm: what every drag on the page and every idea costs."""

from __future__ import annotations

import statistics

from bench import baseline
from bench.rows import NotMeasured, Row, repeat
from galloon.checks import Evidence, judge
from galloon.design import LaceUse, Use
from galloon.sewing import sewing_steps
from galloon.workflow.job import judge_lengths
from galloon.workflow.reckon import make_garment
from tests.support.designs import EDGING, LARGE, MEDIUM, design, galloon, scalloped

DEMO = design(MEDIUM, uses=[scalloped("back")], lace=galloon(228.0))
CORNERS = ((60.0, -60.0), (270.0, -170.0), (270.0, -60.0))
THREE = design(
    MEDIUM,
    uses=[
        scalloped("back"),
        LaceUse(Use.OVERLAY, "heron", ("front",), corners=CORNERS, cut_away=True),
        LaceUse(Use.EDGE_TRIM, "edging", ("front", "back"), edge_on="waist"),
    ],
    lace=galloon(228.0),
    cloths=[EDGING],
)
BOTH = design(LARGE, uses=[scalloped("back"), scalloped("front")], lace=galloon(255.0))


def reckon(one=DEMO):
    return judge(Evidence(make_garment(one)))


def demo():
    return repeat(reckon, times=200, warm_up=20, per=0.001)


def three_uses():
    """All that follows from a brief but the cutting plan, which has rows of its own."""
    garment = make_garment(THREE)
    return judge_lengths(garment, {}), sewing_steps(garment)


def three():
    return repeat(three_uses, times=150, warm_up=15, per=0.001)


def both():
    return repeat(lambda: reckon(BOTH), times=200, warm_up=20, per=0.001)


def ratio():
    """Medians of our time over the replay's, ten rounds, so that both meet the same machine."""
    if not baseline.FILE.exists():
        raise NotMeasured("no baseline.json; run python -m bench.draft_bench")
    replay = baseline.replayed()
    return [
        statistics.median(repeat(reckon, times=20, warm_up=3)) / statistics.median(repeat(replay, times=20, warm_up=3))
        for _ in range(10)
    ]


ROWS = [
    Row("draft: lace back", "brief values to checked pieces, warm", 16.0, "ms", demo, "p95"),
    Row("draft: both panels lace", "the same, two scalloped panels", 16.0, "ms", both, "p95"),
    Row("draft: three uses", "three lace uses to checks, elastics and sewing order, warm", 40.0, "ms", three, "p95"),
    Row("draft: over baseline", "its time over the same shapely and numpy calls alone", 5.0, "times", ratio),
]

if __name__ == "__main__":
    reckon()
    baseline.save(baseline.record(reckon))
