"""Briefs on the disk."""

from __future__ import annotations

import os

import pytest

from galloon.brief import load_brief, read_brief
from galloon.errors import BadInput, BadValue
from tests.support.briefs import FULL, LEAST

RING = ((0.0, 0.0), (30.0, 0.0), (0.0, 30.0))
MOTIF = "[[motif]]\nsvg = '{}'\npanel = 'front'\n"


def refusal(path, **more) -> str:
    with pytest.raises(BadInput) as caught:
        load_brief(path, **more)
    assert all(fault.file == str(path) for fault in caught.value.faults)
    return str(caught.value)


def test_a_brief_is_read_from_its_file(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_text(FULL, encoding="utf-8")
    assert load_brief(path).design.title == "Heron hipster"
    assert load_brief(str(path)).file == str(path)


def test_a_byte_order_mark_and_other_line_ends_do_not_matter(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_bytes(b"\xef\xbb\xbf" + FULL.replace("\n", "\r\n").encode())
    assert load_brief(path).design.title == "Heron hipster"


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "is empty"),
        (b"  \n", "is empty"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "is a binary file"),
        (b'title = "caf\xe9"\n', "must be text in UTF-8"),
        (b"title = 1\n\0", "is a binary file"),
        (b"#" * 2_000_001, "must be smaller than 2 MB"),
    ],
)
def test_a_file_that_is_no_brief_is_refused(tmp_path, content, told):
    path = tmp_path / "mine.toml"
    path.write_bytes(content)
    assert told in refusal(path)


def test_text_that_is_not_utf_8_is_told_with_its_line(tmp_path):
    path = tmp_path / "mine.toml"
    path.write_bytes(b'units = "cm"\ntitle = "caf\xe9"\n')
    assert f"{path}:2:" in refusal(path)


def test_what_is_no_file_is_refused(tmp_path):
    assert "is not there" in refusal(tmp_path / "absent.toml")
    assert "is a folder" in refusal(tmp_path)
    assert "cannot be read" in refusal(tmp_path / ("x" * 300))
    assert "cannot be read" in refusal(str(tmp_path / "a\0b"))
    os.mkfifo(tmp_path / "pipe")
    assert "not an ordinary file" in refusal(tmp_path / "pipe")


def test_a_file_that_may_not_be_read_is_refused(tmp_path, monkeypatch):
    path = tmp_path / "mine.toml"
    path.write_text(LEAST)

    def denied(*args, **more):
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("pathlib.Path.open", denied)
    assert "permission denied" in refusal(path)


# --- motif files ------------------------------------------------------------------------------------------------------
def test_a_motif_file_is_looked_for_beside_the_brief(tmp_path):
    (tmp_path / "motifs").mkdir()
    (tmp_path / "motifs" / "leaf.svg").write_text("<svg/>")
    path = tmp_path / "mine.toml"
    path.write_text(LEAST + MOTIF.format("motifs/leaf.svg"))
    texts = []
    brief = load_brief(path, outline_of_svg=lambda text: (texts.append(text), RING)[1])
    assert texts == ["<svg/>"]
    assert brief.design.motifs[0].outline == RING


def test_a_link_does_not_lead_out_of_the_folder(tmp_path):
    (tmp_path / "secret.svg").write_text("<svg/>")
    inside = tmp_path / "briefs"
    inside.mkdir()
    (inside / "leaf.svg").symlink_to(tmp_path / "secret.svg")
    path = inside / "mine.toml"
    path.write_text(LEAST + MOTIF.format("leaf.svg"))
    assert "must lie in the folder of the brief" in refusal(path, outline_of_svg=lambda text: RING)


@pytest.mark.parametrize(
    ("content", "told"),
    [(None, "cannot be read"), (b"\xff\xfe", "not text in UTF-8"), (b" " * 5_000_001, "larger than 5 MB")],
)
def test_a_motif_file_that_cannot_be_used_is_refused(tmp_path, content, told):
    if content is not None:
        (tmp_path / "leaf.svg").write_bytes(content)
    path = tmp_path / "mine.toml"
    path.write_text(LEAST + MOTIF.format("leaf.svg"))
    assert told in refusal(path, outline_of_svg=lambda text: RING)


def test_a_motif_file_whose_drawing_is_refused_is_told_at_its_line(tmp_path):
    def refuses(text):
        raise BadValue("outline", "must not cross itself", "leaf")

    (tmp_path / "leaf.svg").write_text("<svg/>")
    path = tmp_path / "mine.toml"
    path.write_text(LEAST + MOTIF.format("leaf.svg"))
    assert "must not cross itself" in refusal(path, outline_of_svg=refuses)


def test_where_no_files_can_be_read_a_motif_file_is_refused():
    with pytest.raises(BadInput, match="no files are read here"):
        read_brief(LEAST + MOTIF.format("leaf.svg"), file="a.toml")


def test_a_motif_file_is_read_by_the_programs_own_reader(tmp_path):
    head = '<svg xmlns="http://www.w3.org/2000/svg" width="40mm" viewBox="0 0 40 40">'
    (tmp_path / "leaf.svg").write_text(f'{head}<path d="M10 10h20v10h-20z"/></svg>')
    path = tmp_path / "mine.toml"
    path.write_text(LEAST + MOTIF.format("leaf.svg"))
    assert set(load_brief(path).design.motifs[0].outline) == {(-10.0, -5.0), (10.0, -5.0), (10.0, 5.0), (-10.0, 5.0)}
