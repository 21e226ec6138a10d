"""Every way to use a lace, every seam plan and every edge finish, alone and together, on random bodies and cloths.

Twenty batches of designs, each from a start of its own, so that they are spread over the workers and the same in every
run; what a brief can ask for is in tests/support/technique_designs.py.
"""

from collections import Counter

import pytest
from hypothesis import HealthCheck, Phase, given, seed, settings

from galloon.brief import dump_brief, read_brief, to_data
from galloon.checks import Evidence, judge
from galloon.errors import CannotMake
from galloon.findings import Status
from galloon.pieces import off_strip
from galloon.sewing import elastic_rows, sewing_steps
from galloon.sewing.replay import replay
from galloon.tolerance import ON_LACE
from galloon.workflow.job import make_files, reckon_design
from galloon.workflow.reckon import make_garment
from tests.support.seam_checks import faults
from tests.support.technique_designs import kinked, technique_designs

BATCHES, EACH = 20, 110
#: What may be refused, by name: the body leaves no cloth to cut a panel from.
REFUSED = {"crotch_length"}
QUIET = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.large_base_example]


def broken(design):
    """Everything a design's pattern breaks, as sentences."""
    garment = make_garment(design)
    found = faults(garment, kinked=kinked(garment))
    refused = {finding.name for finding in judge(Evidence(garment)) if finding.status is Status.FAIL}
    off = [piece.name for piece in garment.pieces if off_strip(piece) > ON_LACE]
    if off and "piece lies on its lace" not in refused:
        found.append(f"{', '.join(off)} leaves its lace, and no finding says so")
    elastic_rows(garment)
    return found + list(replay(garment, sewing_steps(garment)))


def run(start, count, *, phases=(Phase.generate, Phase.shrink)):
    """``count`` designs from one start; the count of each refusal."""
    refused = Counter()

    @seed(start)
    @settings(max_examples=count, deadline=None, database=None, phases=phases, suppress_health_check=QUIET)
    @given(technique_designs())
    def every_design_keeps_its_promises(design):
        try:
            assert broken(design) == []
        except CannotMake as error:
            refused[error.subject] += 1

    every_design_keeps_its_promises()
    return refused


@pytest.mark.parametrize("batch", range(BATCHES))
def test_every_design_is_sound_whatever_uses_seams_and_finishes_it_puts_together(batch):
    refused = run(batch, EACH)
    assert set(refused) <= REFUSED
    assert refused.total() <= EACH // 10


@pytest.mark.parametrize("start", range(4))
def test_any_design_can_be_written_as_a_brief_and_the_whole_job_makes_its_files(start):
    drawn = []

    @seed(1000 + start)
    @settings(max_examples=4, deadline=None, database=None, phases=[Phase.generate], suppress_health_check=QUIET)
    @given(technique_designs())
    def draw(design):
        drawn.append(design)

    draw()
    for design in drawn[-2:]:
        read = read_brief(dump_brief(to_data(design)), file="b.toml").design
        files = make_files(reckon_design(read), "a4")
        assert {"report.json", "pattern.pdf", "guide.pdf"} <= set(files)
        assert all(files.values())


@pytest.mark.slow
@pytest.mark.parametrize("batch", range(100, 200))
def test_many_more_designs_are_sound(batch):
    assert set(run(batch, EACH)) <= REFUSED
