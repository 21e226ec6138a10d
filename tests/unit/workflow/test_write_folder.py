"""A result folder is replaced whole or not at all."""

import os
import subprocess
import sys
import time

import pytest

from galloon.errors import CannotWrite
from galloon.workflow.write_folder import MARK, write_folder


def test_the_second_run_replaces_the_first_and_keeps_what_the_maker_added(tmp_path):
    target = tmp_path / "out"
    write_folder(target, {MARK: b"1", "a": b"old"})
    (target / "notes.txt").write_text("mine")
    write_folder(target, {MARK: b"2", "a": b"new"})
    assert (target / "a").read_bytes() == b"new"
    assert (target / "notes.txt").read_text() == "mine"
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


def test_a_folder_that_is_no_result_is_refused_untouched(tmp_path):
    (tmp_path / "photo.jpg").write_bytes(b"x")
    with pytest.raises(CannotWrite, match="no galloon result"):
        write_folder(tmp_path, {MARK: b"1"})
    assert [p.name for p in tmp_path.iterdir()] == ["photo.jpg"]


def test_a_file_in_the_way_is_refused(tmp_path):
    (tmp_path / "out").write_text("x")
    with pytest.raises(CannotWrite, match="not a folder"):
        write_folder(tmp_path / "out", {MARK: b"1"})


def test_an_unwritable_target_says_so_and_leaves_nothing_behind(tmp_path):
    with pytest.raises(CannotWrite):
        write_folder(tmp_path / "file" / "out" if (tmp_path / "file").write_text("x") else tmp_path, {MARK: b"1"})
    assert [p.name for p in tmp_path.iterdir()] == ["file"]


def test_a_full_disk_leaves_the_old_result_whole(tmp_path):
    target = tmp_path / "out"
    write_folder(target, {MARK: b"1"})
    script = (
        "import resource, signal, sys; from pathlib import Path\n"
        "from galloon.workflow.write_folder import write_folder\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN); resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))\n"
        "write_folder(Path(sys.argv[1]), {'report.json': b'x' * 5000})"
    )
    done = subprocess.run([sys.executable, "-c", script, str(target)], capture_output=True, text=True, check=False)
    assert "cannot write" in done.stderr
    assert (target / MARK).read_bytes() == b"1"
    assert [p.name for p in tmp_path.iterdir()] == ["out"]


def test_a_run_killed_at_any_moment_leaves_a_whole_result(tmp_path):
    target = tmp_path / "out"
    files = {MARK: b"0" * 50_000, **{f"f{i}": bytes([i]) * 50_000 for i in range(5)}}
    write_folder(target, files)
    script = (
        "import sys; from pathlib import Path; from galloon.workflow.write_folder import write_folder\n"
        "print('go', flush=True)\n"
        "n = 0\n"
        "while True:\n"
        "    n += 1; write_folder(Path(sys.argv[1]), {'report.json': bytes([n % 250]) * 50_000, "
        "**{f'f{i}': bytes([n % 250]) * 50_000 for i in range(5)}})"
    )
    for pause in (0.0, 0.003, 0.007, 0.011, 0.02):
        run = subprocess.Popen([sys.executable, "-c", script, str(target)], stdout=subprocess.PIPE)
        run.stdout.readline()
        time.sleep(pause)
        run.kill()
        run.wait()
        sizes = {p.name: len(p.read_bytes()) for p in target.iterdir()}
        assert sizes == dict.fromkeys(files, 50_000)
        assert os.path.isdir(target)
