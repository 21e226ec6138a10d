"""Motif outlines are read from SVG as drawn, in millimetres; what is hostile or unclear is refused with a reason."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from galloon.brief import load_brief
from galloon.brief.svg_outline import outline_of_svg
from galloon.errors import BadInput, BadValue
from tests.support.briefs import LEAST

NAMES = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
HEAD = f'<svg {NAMES} width="40mm" viewBox="0 0 40 40">'


def drawing(inner, head=HEAD):
    return f"{head}{inner}</svg>"


def area(ring):
    pairs = zip(ring, ring[1:] + ring[:1], strict=True)
    return abs(sum(x * v - u * y for (x, y), (u, v) in pairs)) / 2.0


def test_a_circle_comes_out_round_about_its_own_middle():
    ring = outline_of_svg(drawing('<circle cx="20" cy="12" r="10"/>'))
    assert all(math.hypot(*point) == pytest.approx(10.0, abs=1e-3) for point in ring)
    assert area(ring) == pytest.approx(math.pi * 100.0, rel=0.01)


@pytest.mark.parametrize(
    ("shape", "size"),
    [
        ('<path d="M0 0h10v5h-10z"/>', 50.0),
        ('<path d="m 1,1 l 10 0 0 5 -10 0 Z"/>', 50.0),
        ('<polygon points="0,0 10,0 10,5 0,5"/>', 50.0),
        ('<rect x="3" y="4" width="10" height="5"/>', 50.0),
        ('<g transform="translate(3 4) scale(2)"><path d="M0 0h10v5h-10z"/></g>', 200.0),
        ('<path transform="rotate(30 5 5)" d="M0 0H10V5H0Z"/>', 50.0),
        ('<path d="M10 10a5 5 0 0110 0 5 5 0 01-10 0z"/>', math.pi * 25.0),
        ('<path d="M0 0 Q 6 0 6 6 T 12 12 L 0 12 Z"/>', 72.0),
    ],
)
def test_shapes_and_transforms_keep_their_area(shape, size):
    assert area(outline_of_svg(drawing(shape))) == pytest.approx(size, rel=0.02)


@pytest.mark.parametrize(
    ("head", "mm"),
    [
        ('width="40mm" viewBox="0 0 80 80"', 5.0),
        ('width="4cm" height="4cm" viewBox="0 0 40 40"', 10.0),
        ('width="1in" viewBox="0 0 10 10"', 25.4),
        ("", 10.0 * 25.4 / 96.0),
    ],
)
def test_the_size_follows_from_width_and_view_box(head, mm):
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" {head}><path d="M0 0h10v10h-10z"/></svg>'
    ring = outline_of_svg(svg)
    assert max(x for x, _ in ring) * 2.0 == pytest.approx(mm, rel=1e-6)


def test_what_is_up_on_the_drawing_is_up_on_the_panel():
    ring = outline_of_svg(drawing('<path d="M10 0 L20 20 L0 20 Z"/>'))
    assert max(ring, key=lambda point: point[1]) == (0.0, 10.0)


HOSTILE = [
    ('<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/passwd">]><svg>&a;</svg>', "no document type"),
    ('<?xml-stylesheet href="http://example.org/x"?>' + drawing('<path d="M0 0h1v1z"/>'), "processing instructions"),
    (drawing("<script>alert(1)</script>"), "must not hold <script>"),
    (drawing('<path onload="alert(1)" d="M0 0h5v5z"/>'), "must not run scripts"),
    (drawing('<use xlink:href="http://example.org/a.svg#b"/>'), "must not hold <use>"),
    (drawing('<image xlink:href="file:///etc/passwd"/>'), "must not hold <image>"),
    (drawing('<foreignObject/><path d="M0 0h5v5z"/>'), "must not hold <foreignObject>"),
    (drawing('<path style="fill:url(http://example.org/a)" d="M0 0h5v5z"/>'), "must not point outside"),
    (drawing('<style>@import "http://example.org/a";</style><path d="M0 0h5v5z"/>'), "must not load anything"),
    (drawing(f'<path d="M0 0 {"1 1 2 3 " * 50_000} z"/>'), "at most 5000 points"),
    (drawing("<g/>" * 3000), "at most 2000 elements"),
    (drawing(""), "just one closed shape"),
    (drawing('<path d="M0 0h5v5z"/><path d="M9 9h5v5z"/>'), "just one closed shape"),
    (drawing('<path d="M0 0h9v9h-9zM2 2h2v2z"/>'), "without holes"),
    (drawing('<path d="M0 0h5v5"/>'), "must be a closed path"),
    (drawing('<path d="M0 0 evil"/>'), "no command and no number"),
    (drawing('<path d="M0 0 L1e400 0 0 1z"/>'), "sensible size"),
    (drawing('<path transform="evil(1)" d="M0 0h5v5z"/>'), "its transform"),
    (drawing('<path d="M0 0h5000v5000z"/>'), "cm across"),
    ('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M0 0h5v5z"/></svg>', "how large it is"),
    ("<html/>", "must be an SVG drawing"),
    ("no markup", "sound XML"),
]


@pytest.mark.parametrize(("text", "told"), HOSTILE, ids=[told for _, told in HOSTILE])
def test_hostile_or_unclear_drawings_are_refused(text, told):
    with pytest.raises(BadValue) as caught:
        outline_of_svg(text)
    assert told in str(caught.value)


@given(st.text(st.sampled_from("MmLlHhVvCcSsQqTtAaZz0123456789.,-+ e"), max_size=60))
@settings(max_examples=300, deadline=None)
def test_any_path_is_read_or_refused(path):
    try:
        ring = outline_of_svg(drawing(f'<path d="{path}"/>'))
    except BadValue:
        return
    assert all(math.isfinite(x) and math.isfinite(y) for x, y in ring)


def refusal(tmp_path, motif):
    path = tmp_path / "mine.toml"
    path.write_text(LEAST + motif, encoding="utf-8")
    with pytest.raises(BadInput) as caught:
        load_brief(path)
    fault = caught.value.faults[0]
    assert fault.file == str(path)
    assert fault.line is not None
    return f"{fault.key}: {fault.seen}: {fault.rule}"


def test_a_refused_file_is_told_at_its_line_in_the_brief(tmp_path):
    (tmp_path / "bad.svg").write_text(drawing("<script/>"), encoding="utf-8")
    told = refusal(tmp_path, "[[motif]]\nsvg = 'bad.svg'\n")
    assert told.startswith("motif[1].svg")
    assert "<script>" in told


def test_an_outline_that_crosses_itself_is_refused_with_the_place(tmp_path):
    told = refusal(tmp_path, "[[motif]]\noutline = [[0, 0], [4, 4], [4, 0], [0, 4]]\n")
    assert told.startswith("motif[1].outline")
    assert "must not cross or touch itself, as it does near [20, 20] mm" in told


def test_a_motif_far_off_every_panel_is_refused(tmp_path):
    told = refusal(tmp_path, "[[motif]]\noutline = [[0, 0], [4, 0], [4, 4]]\nat = [90, -10]\n")
    assert told.startswith("motif[1].at")
    assert "must lie on the front" in told
