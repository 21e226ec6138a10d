"""Where the front's elastic stops and the lace begins, in the finding and in the step."""

import pytest

from galloon.sewing import elastic_rows, lace_stops, sewing_steps, stop_findings
from galloon.sewing.seams import SeamKind
from tests.support.examples import example_garment


@pytest.mark.parametrize("name", ["heron-hipster", "tern-bikini", "plover-brief"])
def test_a_front_elastic_runs_from_the_side_seam_to_the_back_gusset_seam_where_the_lace_begins(name):
    garment = example_garment(name)
    (stop,) = lace_stops(garment)
    leg = garment.piece("front").edge("leg").length + garment.piece("gusset").edge("leg").length
    assert (stop.first.seam, stop.first.along) == (SeamKind.SIDE, 0.0)
    assert (stop.last.seam, stop.last.along) == (SeamKind.BACK_GUSSET, pytest.approx(leg))
    assert stop.row in elastic_rows(garment)
    assert stop.lace == (stop.first, stop.last)


def test_a_lace_front_says_how_far_from_the_side_seam_the_elastic_begins():
    garment = example_garment("lapwing-front")
    (stop,) = lace_stops(garment)
    assert stop.first.seam is SeamKind.FRONT_GUSSET
    assert stop.first.along == pytest.approx(garment.piece("front").edge("leg").length)
    assert "21.1 cm from the side seam" in stop_findings(garment)[0].says


def test_finding_and_step_name_the_seam_the_length_and_the_cut_length():
    garment = example_garment("heron-hipster")
    (finding,) = stop_findings(garment)
    assert finding.value == pytest.approx(360.16, abs=0.01)
    assert finding.unit == "mm"
    step = next(step for step in sewing_steps(garment) if step.title.startswith("Front leg and gusset"))
    for words in ("from the side seam to the back gusset seam, 36 cm along the edge", "cut 37.6 cm", "lace's own edge"):
        assert words in finding.says
        assert words in step.do


def test_nothing_is_said_where_no_elastic_meets_lace():
    assert stop_findings(example_garment("fern-applique")) == ()
