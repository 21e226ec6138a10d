"""The measuring harness tells the truth: its statistics, its verdicts, and what its baseline repeats."""

import json
import subprocess
import sys
import types

import numpy as np
import pytest
import shapely

from bench import baseline
from bench.rows import NotMeasured, Result, Row, repeat, result_of
from tests.architecture.source import ROOT


def row(measure, goal=10.0, statistic="median"):
    return Row("name", "what", goal, "s", measure, statistic)


def test_median_and_p95_are_taken_by_nearest_rank():
    result = result_of(row(lambda: list(range(1, 101))))
    assert (result.median, result.p95) == (50.5, 95)


@pytest.mark.parametrize(
    ("goal", "statistic", "verdict"),
    [(50.5, "median", "pass"), (50.4, "median", "MISS"), (95, "p95", "pass"), (94, "p95", "MISS")],
)
def test_a_row_passes_when_its_statistic_does_not_exceed_the_goal(goal, statistic, verdict):
    assert result_of(row(lambda: list(range(1, 101)), goal, statistic)).verdict == verdict


def test_a_row_that_cannot_be_measured_says_why_and_never_passes():
    def refuse():
        raise NotMeasured("the brief is not there")

    assert result_of(row(refuse)).reason == "the brief is not there"
    assert result_of(row(refuse)).verdict == "not measured"
    assert result_of(row(lambda: 1 / 0)).reason == "ZeroDivisionError: division by zero"


def test_repeat_measures_as_often_as_asked_after_warming_up():
    seen = []
    samples = repeat(lambda: seen.append(1), times=4, warm_up=2)
    assert (len(samples), len(seen)) == (4, 6)


def test_a_missed_goal_is_printed_and_the_exit_status_stays_0():
    code = (
        "from bench import run; from bench.rows import Result;"
        "run.discovered = lambda only: ['x'];"
        "run.measured_apart = lambda name: [Result('slow', 'a thing', 1.0, 's', 'median', (2.0,))];"
        "import sys; sys.argv = ['run']; run.main()"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert "MISS" in done.stdout
    assert "0 reached, 1 missed, 0 not measured" in done.stdout


def test_every_file_of_rows_is_discovered_and_named_once():
    from bench.run import discovered

    assert "process_bench" in discovered("")
    assert discovered("no such file") == []


@pytest.fixture
def job():
    """A job as if it stood in a module of galloon's: two shapely calls, one numpy call."""
    module = types.ModuleType("galloon.invented")
    exec(
        "import numpy as np, shapely\n"
        "def work():\n"
        "    ring = shapely.box(0, 0, 100, 50)\n"
        "    return np.round(ring.buffer(6.0, join_style='mitre').area, 3)\n",
        module.__dict__,
    )
    return module.work


def test_the_baseline_notes_the_calls_of_a_job_and_leaves_the_libraries_as_they_were(job):
    before = shapely.lib.buffer, np.round
    notes = baseline.record(job)
    assert (shapely.lib.buffer, np.round) == before
    names = [f"{library}.{name}" for library, name, *_ in notes.calls]
    assert "shapely.buffer" in names
    assert "shapely.area_scalar" in names
    assert names[-1] == "numpy.round"
    assert not notes.left_out


def test_the_baseline_repeats_exactly_the_calls_it_noted(job, tmp_path):
    file = tmp_path / "calls.json"
    noted = baseline.record(job)
    baseline.save(noted, file)
    again = baseline.record(lambda: baseline.replayed(file)())
    # numpy called from outside galloon is not noted; reading geometries back from text adds calls of its own
    engine = [
        [call for call in notes.calls if call[0] == "shapely" and call[1] != "from_wkb"] for notes in (noted, again)
    ]
    assert len(engine[0]) == 3
    assert json.dumps(engine[1]) == json.dumps(engine[0])


def test_results_survive_the_way_between_the_two_processes():
    result = result_of(row(lambda: [1.0, 2.0]))
    sent = json.loads(json.dumps(result.__dict__))
    assert Result(**{**sent, "samples": tuple(sent["samples"])}) == result
