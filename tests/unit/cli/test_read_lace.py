"""``galloon read-lace`` as a maker types it: the block, JSON, the shelf, and what it refuses."""

import json
import subprocess
import sys
import tomllib
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

SCAN = Path("examples/scans/avens-lace.jpg").resolve()


def galloon(*args):
    return subprocess.run(
        [sys.executable, "-m", "galloon", *map(str, args)], capture_output=True, text=True, check=False
    )


def test_the_example_scan_gives_the_lace_it_was_drawn_from():
    done = galloon("read-lace", SCAN, "--json")
    assert done.returncode == 0, done.stderr
    lace = json.loads(done.stdout)
    for key, drawn, near in (("width", 140, 0.3), ("scallop_pitch", 24, 0.03), ("scallop_depth", 7, 0.2)):
        assert lace[key]["value"] == pytest.approx(drawn, abs=near)
    assert lace["repeat"]["value"] == pytest.approx(48, abs=0.06)
    assert (lace["edges"], lace["second_edge"]) == ("double scallop", "half step")
    assert lace["mirror_across"] is True
    assert lace["half_turn"] is True
    assert lace["warnings"] == []


def test_the_block_is_toml_in_the_units_asked_for():
    done = galloon("read-lace", SCAN, "--name", "avens", "--units", "mm")
    cloth = tomllib.loads(done.stdout)["cloth"]["avens"]
    assert cloth["kind"] == "lace"
    assert cloth["width"] == pytest.approx(140, abs=0.3)


def test_a_lace_goes_onto_the_shelf_and_is_measured_anew_there(tmp_path):
    shelf = tmp_path / "shelf.sqlite"
    bare = galloon("read-lace", SCAN, "--onto", "avens", "--shelf", shelf)
    assert "stretch_length: is missing" in bare.stderr
    stretch = ("--stretch-length", 20, "--stretch-width", 45)
    done = galloon("read-lace", SCAN, "--onto", "avens", "--shelf", shelf, *stretch)
    assert done.returncode == 0, done.stderr
    again = galloon("read-lace", SCAN, "--onto", "avens", "--shelf", shelf)
    assert again.returncode == 0, again.stderr
    shown = galloon("shelf", "--shelf", shelf, "show", "lace", "avens").stdout
    assert "stretch_length = 20" in shown
    assert 'second_edge = "half step"' in shown


def test_a_scan_that_does_not_say_its_scale_is_asked_for_it(tmp_path):
    plain = tmp_path / "plain.png"
    Image.open(SCAN).save(plain)
    done = galloon("read-lace", plain)
    assert done.returncode == 2
    assert "--dpi" in done.stderr
    assert done.stdout == ""


def test_no_lace_gives_no_number(tmp_path):
    blank = tmp_path / "blank.png"
    noise = np.random.default_rng(3).normal(180, 4, (500, 700, 3)).clip(0, 255).astype(np.uint8)
    Image.fromarray(noise).save(blank)
    for how in (("--dpi", 150), ("--card",)):
        done = galloon("read-lace", blank, *how)
        assert done.returncode == 2
        assert done.stdout == ""


def test_one_repeat_is_written_for_a_brief_that_finds_it_beside_itself(tmp_path):
    from galloon.brief import load_brief

    done = galloon("read-lace", SCAN, "--name", "avens", "--units", "mm", "--picture", tmp_path / "avens one.png")
    assert done.returncode == 0, done.stderr
    block = done.stdout.replace("[cloth.avens]", "[cloth.avens]\nstretch_length = 20\nstretch_width = 45")
    wearer = "[wearer]\nwaist = 740\nhip = 1010\nwaist_to_hip = 210\ncrotch_length = 730\n"
    mesh = '[cloth.mesh]\nkind = "knit"\nwidth = 1500\nstretch_length = 50\nstretch_width = 50\n'
    rest = '[panels]\nfront = "mesh"\nback = "mesh"\ngusset = "mesh"\n'
    (tmp_path / "brief.toml").write_text(f'units = "mm"\n{wearer}{mesh}{rest}{block}', "utf-8")
    lace = load_brief(tmp_path / "brief.toml").design.cloths["avens"]
    assert lace.picture.columns / lace.picture.rows == pytest.approx(48 / 140, rel=0.01)
    assert Image.open(tmp_path / "avens one.png").mode == "RGBA"


def test_a_picture_without_a_whole_repeat_gives_none(tmp_path):
    half = tmp_path / "half.png"
    whole = Image.open(SCAN)
    whole.crop((0, 0, whole.size[0] // 2, whole.size[1])).save(half, dpi=(150, 150))
    done = galloon("read-lace", half, "--picture", tmp_path / "one.png")
    assert done.returncode == 2
    assert "whole repeat" in done.stderr
    assert not (tmp_path / "one.png").exists()
