"""The commands as a maker types them: files, exit statuses, one message per fault, the same bytes every time."""

import json
import os
import signal
import subprocess
import sys
import time
from itertools import pairwise
from pathlib import Path

import pytest

from galloon.findings import Status

DEMO = Path("examples/heron-hipster.toml").resolve()
FILES = {"report.json", "pattern.pdf", "pattern-full.pdf", "pattern.svg", "pattern.dxf", "guide.pdf"}


def galloon(*args, cwd=None):
    return subprocess.run(
        [sys.executable, "-m", "galloon", *map(str, args)], capture_output=True, text=True, cwd=cwd, check=False
    )


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    out = tmp_path_factory.mktemp("made") / "out"
    done = galloon("make", DEMO, "--out", out)
    assert done.returncode == 0, done.stderr
    return out


def test_make_writes_every_file_of_the_contract(made):
    assert {p.name for p in made.iterdir()} == FILES


def test_the_same_brief_gives_the_same_bytes(made, tmp_path):
    galloon("make", DEMO, "--out", tmp_path / "again")
    for name in FILES:
        assert (made / name).read_bytes() == (tmp_path / "again" / name).read_bytes(), name


def test_the_report_is_the_contract_s(made):
    report = json.loads((made / "report.json").read_text())
    assert report["format"] == "galloon-report 1"
    assert report["verdict"] in [status.value for status in Status]
    keys = {"wearer", "pieces", "lace", "checks", "cutting", "elastic", "shopping", "sewing", "title"}
    assert keys <= set(report)
    for piece in report["pieces"]:
        ring = piece["stitch_line"]
        for edge in piece["edges"]:
            stop = edge["end"] or len(ring)
            run = [*ring[edge["start"] : stop], ring[edge["end"]]]
            length = sum(((a - c) ** 2 + (b - d) ** 2) ** 0.5 for (a, b), (c, d) in pairwise(run))
            assert length == pytest.approx(edge["length"], abs=1e-3)
    assert json.loads((made / "report.json").read_bytes()) == report


def test_check_prints_one_screen_and_writes_nothing(tmp_path):
    done = galloon("check", DEMO, cwd=tmp_path)
    assert done.returncode == 0
    assert "waist drop" in done.stdout
    assert list(tmp_path.iterdir()) == []


def test_a_brief_whose_design_fails_is_made_and_ends_with_3(tmp_path):
    text = DEMO.read_text().replace('waist_drop = "auto"', 'waist_drop = "1 cm"')
    assert "1 cm" in text
    (tmp_path / "b.toml").write_text(text)
    done = galloon("make", tmp_path / "b.toml", "--out", tmp_path / "out")
    assert done.returncode == 3
    assert (tmp_path / "out" / "pattern.pdf").exists()
    assert "FAIL" in done.stdout


def test_a_brief_that_cannot_be_used_ends_with_2_names_every_fault_and_writes_nothing(tmp_path):
    text = DEMO.read_text().replace("hip = ", "hipp = ").replace("units = ", "unit = ")
    (tmp_path / "b.toml").write_text(text)
    done = galloon("make", tmp_path / "b.toml", "--out", tmp_path / "out")
    assert done.returncode == 2
    assert len(done.stderr.strip().splitlines()) >= 2
    assert "b.toml:" in done.stderr
    assert "Traceback" not in done.stderr
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize("content", [b"", b"\x00\xff\x00", b"\xef\xbb\xbf", b"a = [" * 5000])
def test_empty_and_binary_briefs_are_refused_plainly(tmp_path, content):
    (tmp_path / "b.toml").write_bytes(content)
    done = galloon("check", tmp_path / "b.toml")
    assert done.returncode == 2
    assert "Traceback" not in done.stderr


def test_ctrl_c_in_the_middle_leaves_the_old_result_whole(made, tmp_path):
    before = {p.name: p.read_bytes() for p in made.iterdir()}
    for pause in (0.4, 0.8, 1.2):
        run = subprocess.Popen(
            [sys.executable, "-m", "galloon", "make", str(DEMO), "--out", str(made)],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
        time.sleep(pause)
        os.kill(run.pid, signal.SIGINT)
        run.wait()
        assert {p.name: p.read_bytes() for p in made.iterdir()} == before
    assert [p.name for p in made.parent.iterdir()] == [made.name]
