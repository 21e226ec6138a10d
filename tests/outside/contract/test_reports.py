"""Reports of many briefs against the description of the format, read by code that knows nothing of the program."""

import json

import pytest
from click.testing import CliRunner

from galloon.brief import read_brief
from galloon.cli import main
from galloon.errors import BadInput
from galloon.report import build_report, report_bytes
from galloon.workflow.job import reckon_design
from tests.support.contract import faults_in
from tests.support.random_briefs import random_brief

BLOCKS = 12
EACH = 20
EXIT = {"pass": 0, "warn": 0, "fail": 3}


def report_of(seed: int) -> dict | None:
    """The report as written to its file; None where the brief is refused."""
    try:
        brief = read_brief(random_brief(seed), file="b.toml")
    except BadInput as error:
        if not all(fault.line and fault.key and fault.rule for fault in error.faults):
            raise
        return None
    return json.loads(report_bytes(build_report(reckon_design(brief.design, brief.findings))))


@pytest.mark.parametrize("block", range(BLOCKS))
def test_every_report_keeps_every_promise_of_its_format(block):
    reports = {seed: report_of(seed) for seed in range(block * EACH, (block + 1) * EACH)}
    made = {seed: report for seed, report in reports.items() if report is not None}
    assert {seed: faults for seed, report in made.items() if (faults := faults_in(report))} == {}
    assert len(made) >= EACH // 2, "most random briefs are refused"


def test_the_reader_of_reports_sees_a_broken_one():
    """The judge itself: each of these changes breaks one promise."""
    text = json.dumps(next(report for report in map(report_of, range(100)) if report is not None))
    assert faults_in(json.loads(text)) == []

    def broken(change) -> bool:
        report = json.loads(text)
        change(report)
        return bool(faults_in(report))

    piece = json.loads(text)["pieces"][0]
    sewn = next(place for place, edge in enumerate(piece["edges"]) if edge["sewn_to"])
    assert broken(lambda report: report.pop("sewing"))
    assert broken(lambda report: report.update(verdict="fine"))
    assert broken(lambda report: report["pieces"][0]["stitch_line"].reverse())
    assert broken(lambda report: report["pieces"][0].update(area=piece["area"] * 1.01))
    assert broken(lambda report: report["pieces"][0].update(cut_line=piece["stitch_line"], area=1.0))
    assert broken(lambda report: report["pieces"][0]["edges"][sewn].update(length=1.0))
    assert broken(lambda report: report["pieces"][0]["edges"][sewn].update(sewn_to="front/nowhere"))
    assert broken(lambda report: report["pieces"][0]["notches"].append([9e3, 0.0]))
    assert broken(lambda report: report["cutting"][0].update(lower_bound=1e6))
    assert broken(lambda report: report["cutting"][0]["placed"].pop())
    assert broken(lambda report: report["sewing"][0].update(needs=[99]))


@pytest.mark.parametrize("seed", range(24))
def test_the_exit_status_tells_what_the_report_tells(seed, tmp_path):
    (tmp_path / "b.toml").write_text(random_brief(seed))
    done = CliRunner().invoke(main, ["check", str(tmp_path / "b.toml")])
    report = report_of(seed)
    assert done.exit_code == (2 if report is None else EXIT[report["verdict"]]), done.output
    assert (report is None) == ("b.toml:" in done.output)


def test_a_side_seam_of_two_centimetres_keeps_its_notch_on_the_cut_line():
    """A corner trimmed by the valley line had reached past the notch."""
    assert faults_in(report_of(2359)) == []
