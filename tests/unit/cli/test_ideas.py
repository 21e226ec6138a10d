"""``galloon ideas`` as a maker types it: table, drawings, briefs, exit statuses, one message per fault."""

import subprocess
import sys
from pathlib import Path

import pytest

from galloon.cli.bar import bar, drawn

DEMO = Path("examples/heron-hipster.toml").resolve()
STIFF = """\
units = "cm"
[wearer]
waist = 74
hip = 101
waist_to_hip = 21
crotch_length = 73
[cloth.net]
kind = "mesh"
width = 150
stretch_width = 4
stretch_length = 3
"""


def galloon(*args, cwd=None):
    return subprocess.run(
        [sys.executable, "-m", "galloon", *map(str, args)], capture_output=True, text=True, cwd=cwd, check=False
    )


@pytest.fixture(scope="module")
def told(tmp_path_factory):
    folder = tmp_path_factory.mktemp("ideas")
    return folder, galloon(
        "ideas", DEMO, "--most", 40, "--brief", 2, "two.toml", "--weigh", "lace=3,cost=0", cwd=folder
    )


def test_it_prints_a_table_writes_the_drawings_and_the_brief_asked_for(told):
    folder, done = told
    assert done.returncode == 0, done.stderr
    assert {path.name for path in folder.iterdir()} == {"ideas.pdf", "two.toml"}
    assert done.stdout.startswith("40 designs were drafted and checked;")
    assert "no  score  shape" in done.stdout
    assert "What cannot be made, and why:" in done.stdout
    assert done.stderr == ""


def test_the_brief_is_one_that_make_takes(told, tmp_path):
    done = galloon("make", told[0] / "two.toml", "--out", tmp_path / "out")
    assert done.returncode == 0, done.stderr


def test_nothing_that_can_be_made_exits_3_and_says_why(tmp_path):
    (tmp_path / "stiff.toml").write_text(STIFF, encoding="utf-8")
    done = galloon("ideas", "stiff.toml", "--most", 20, cwd=tmp_path)
    assert done.returncode == 3
    assert "0 can be made" in done.stdout
    assert "waist opens over the hips" in done.stdout
    assert not (tmp_path / "ideas.pdf").exists()


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (["nowhere.toml"], "nowhere.toml: brief: is not there"),
        (["--shelf", "nowhere.db"], "nowhere.db: shelf: is not there"),
        ([DEMO, "--weigh", "beauty=2"], "--weigh: beauty: must name a score"),
        ([DEMO, "--pdf", "nowhere/ideas.pdf"], "cannot write nowhere/ideas.pdf: its folder is not there"),
        ([DEMO, "--brief", "1", "taken.toml"], "cannot write taken.toml: there is something of that name"),
        ([DEMO, "--wearer", "Imke"], "--wearer is for ideas from the shelf alone"),
        ([DEMO, "--most", "0"], "--most"),
    ],
)
def test_what_cannot_be_used_exits_2_and_writes_nothing(args, says, tmp_path):
    (tmp_path / "taken.toml").write_text("", encoding="utf-8")
    done = galloon("ideas", *args, cwd=tmp_path)
    assert done.returncode == 2
    assert says in done.stderr
    assert done.stdout == ""
    assert [path.name for path in tmp_path.iterdir()] == ["taken.toml"]


def test_a_number_beyond_the_list_is_refused(tmp_path):
    done = galloon("ideas", DEMO, "--most", 10, "--no-pdf", "--brief", 400, "x.toml", cwd=tmp_path)
    assert done.returncode == 2
    assert "numbered from 1" in done.stderr
    assert list(tmp_path.iterdir()) == []


class Terminal:
    """A stream that says it is a terminal and keeps what it is sent."""

    def __init__(self):
        self.sent = ""

    def isatty(self):
        return True

    def write(self, text):
        self.sent += text

    def flush(self):
        pass


def test_the_bar_fills_and_is_wiped_and_quick_work_shows_none():
    slow, quick = Terminal(), Terminal()
    with bar(slow, patience=0.0) as told:
        told("Reckoning designs", 5, 10)
    with bar(quick) as told:
        told("Reckoning designs", 5, 10)
    assert "Reckoning designs [############............] 5 of 10" in slow.sent
    assert slow.sent.endswith("\r\x1b[2K")
    assert quick.sent == ""
    assert drawn("x", 0, 0).endswith("0 of 0")
