"""``galloon new``."""

from __future__ import annotations

import os

import pytest
from click.testing import CliRunner

from galloon.brief import load_brief, read_brief, starter_brief
from galloon.cli import main
from galloon.findings import Status
from galloon.workflow.job import reckon_design


def run(*args: str):
    return CliRunner().invoke(main, ["new", *args])


@pytest.mark.parametrize("units", ["mm", "cm", "in"])
def test_new_writes_a_brief_that_can_be_loaded_at_once(tmp_path, units):
    target = tmp_path / "mine.toml"
    result = run(str(target), "--units", units)
    assert result.exit_code == 0
    assert load_brief(target).design.units == units
    assert [item.name for item in tmp_path.iterdir()] == ["mine.toml"]


@pytest.mark.parametrize("units", ["mm", "cm", "in"])
def test_the_starter_brief_passes_every_check_as_it_is(units):
    made = reckon_design(read_brief(starter_brief(units), file="brief.toml").design)
    assert [finding for finding in made.findings if finding.status is not Status.PASS] == []


def test_new_without_a_name_writes_brief_toml_here(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    assert run().exit_code == 0
    assert (tmp_path / "brief.toml").read_text(encoding="utf-8") == starter_brief("cm")


def test_new_prints_to_a_dash(tmp_path):
    assert run("-", "--units", "in").output == starter_brief("in")


def test_new_never_writes_over_another_file(tmp_path):
    target = tmp_path / "mine.toml"
    target.write_text("hers")
    result = run(str(target))
    assert result.exit_code == 2
    assert "choose another name" in result.output
    assert target.read_text() == "hers"
    assert [item.name for item in tmp_path.iterdir()] == ["mine.toml"]


def test_new_never_writes_over_another_file_where_there_are_no_links(tmp_path, monkeypatch):
    def no_links(*args):
        raise PermissionError("no links here")

    monkeypatch.setattr(os, "link", no_links)
    target = tmp_path / "mine.toml"
    assert run(str(target)).exit_code == 0
    assert run(str(target)).exit_code == 2
    assert target.read_text(encoding="utf-8") == starter_brief("cm")


@pytest.mark.parametrize("name", ["absent/mine.toml", "x" * 300 + ".toml", "."])
def test_a_name_that_cannot_be_written_is_refused_in_a_sentence(tmp_path, monkeypatch, name):
    monkeypatch.chdir(tmp_path)
    result = run(name)
    assert result.exit_code == 2
    assert "Traceback" not in result.output
    assert list(tmp_path.iterdir()) == []


def test_an_unknown_unit_is_refused(tmp_path):
    assert run(str(tmp_path / "a.toml"), "--units", "ell").exit_code == 2
