"""Her own lace on drawings: each repeat where the lace will really lie, only inside its area, the file small."""

import re
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from galloon.brief import load_brief, picture_from
from galloon.drawing import Image, Matrix, Picture, RecordingCanvas
from galloon.drawing import Path as Line
from galloon.export import to_svg
from galloon.pieces import repeat_lies, scallop_height
from galloon.sheets import garment_views
from galloon.sheets.lace_picture import Lie, lay_picture, spans
from galloon.sheets.plan_marks import edges_of, repeat_on
from galloon.workflow.job import make_files, reckon_design
from galloon.workflow.reckon import make_garment

EXAMPLES = Path("examples")


def seen(columns=42, rows=125):
    """A repeat whose solid thread ends half way up."""
    y, x = np.mgrid[0:rows, 0:columns]
    return picture_from(np.dstack([x * 0 + 40, x * 5, y, np.where(y < rows / 2, 0, 255)]).astype(np.uint8))


def with_pictures(name):
    """An example whose laces all have a picture."""
    brief = load_brief(Path("examples") / f"{name}.toml")
    cloths = {key: replace(one, picture=seen() if one.lace else None) for key, one in brief.design.cloths.items()}
    return replace(brief, design=replace(brief.design, cloths=cloths))


def shapes(canvas):
    return [mark for mark in canvas.drawing().pages[0].marks if isinstance(mark, Image)]


def drawn(cloth, lie, area, **more):
    canvas = RecordingCanvas()
    canvas.begin_page(1000, 1000)
    canvas.layer("x")
    told = lay_picture(canvas, cloth, lie, area, ground=(250, 240, 243), strength=0.5, **more)
    canvas.end_page()
    return told, shapes(canvas)


@pytest.mark.parametrize("name", ["heron-hipster", "godwit-lace", "tern-bikini", "dunlin-insertion", "wren-overlay"])
def test_a_repeat_begins_at_a_valley_on_the_peak_line_of_every_strip(name):
    garment = make_garment(with_pictures(name).design)
    laid = [piece for piece in garment.outer if piece.strip is not None]
    assert laid
    for piece in laid:
        cloth, strip = garment.design.cloths[piece.part.cloth], piece.strip
        corner, along = repeat_lies(piece, cloth)
        place = strip.place(corner)
        assert along == strip.along
        assert place.imag == pytest.approx(-cloth.lace.first.depth)
        assert scallop_height(cloth.lace.first, place.real + strip.phase) == pytest.approx(0.0, abs=1e-9)
        first_peak = place.real + strip.phase + cloth.lace.first.pitch / 2.0
        assert first_peak == pytest.approx(0.0, abs=1e-9)


def test_repeats_cover_an_area_and_none_lies_beyond_it():
    cloth = with_pictures("heron-hipster").design.cloths["heron"]
    length, width = spans(cloth)
    assert (length, width) == (84.0, 250.0)
    lie = Lie(100 + 50j, 84 + 0j, 250j)
    told, images = drawn(cloth, lie, (Line.rectangle(120, 60, 200, 100),))
    assert told
    assert [round(image.matrix.e, 6) for image in images] == [100.0, 184.0, 268.0]
    assert all(image.clip == ((Line.rectangle(120, 60, 200, 100),),) for image in images)


def test_a_turned_lace_is_laid_turned():
    cloth = with_pictures("heron-hipster").design.cloths["heron"]
    turn = np.exp(0.5j)
    _, images = drawn(cloth, Lie(0j, 84 * turn, 250j * turn), (Line.rectangle(0, 0, 60, 60),))
    for image in images:
        assert complex(image.matrix.a, image.matrix.b) == pytest.approx(84 * turn)
        assert complex(image.matrix.c, image.matrix.d) == pytest.approx(250j * turn)


def test_holes_show_the_ground_and_thread_is_mixed_with_it():
    cloth = with_pictures("heron-hipster").design.cloths["heron"]
    for less in (1, 3):
        _, images = drawn(cloth, Lie(0j, 84 + 0j, 250j), (Line.rectangle(1, 1, 10, 10),), less=less)
        shown = images[0].picture
        samples = np.frombuffer(shown.samples, np.uint8).reshape(shown.rows, shown.columns, 3)
        assert tuple(samples[0, 0]) == (250, 240, 243)
        assert samples[-1, 0, 0] == pytest.approx((250 + 41) / 2, abs=2)
        assert shown.columns == -(-42 // less)


def test_a_cloth_without_a_picture_is_drawn_as_before():
    cloth = load_brief(EXAMPLES / "heron-hipster.toml").design.cloths["heron"]
    assert drawn(cloth, Lie(0j, 84 + 0j, 250j), (Line.rectangle(1, 1, 10, 10),)) == (False, [])


@pytest.mark.parametrize("name", ["heron-hipster", "godwit-lace"])
def test_on_the_cutting_plan_the_picture_s_valleys_are_the_edge_s(name):
    brief = with_pictures(name)
    made = reckon_design(brief.design, brief.findings)
    for row in made.cutting:
        cloth = brief.design.cloths[row.cloth]
        if cloth.lace is None:
            continue
        lie, (lower, _) = repeat_on(cloth, row.plan), edges_of(cloth, row.plan)
        xs, ys = np.array(lower).T
        valleys = lie.corner.real + np.arange(-2, 40) * cloth.lace.first.pitch
        inside = valleys[(valleys > 1.0) & (valleys < row.plan.length - 1.0)]
        assert np.interp(inside, xs, ys) == pytest.approx(cloth.lace.first.depth, abs=0.05)


def test_both_views_show_her_lace_inside_its_panel_and_without_pictures_the_net():
    garment = make_garment(with_pictures("godwit-lace").design)
    page = garment_views(garment).pages[0]
    images = [mark for mark in page.marks if isinstance(mark, Image)]
    assert {mark.layer for mark in images} == {"front", "back"}
    assert all(mark.clip for mark in images)
    assert len({mark.picture for mark in images}) == 1
    plain = garment_views(garment, pictures=False).pages[0]
    assert not [mark for mark in plain.marks if isinstance(mark, Image)]
    bare = load_brief(EXAMPLES / "godwit-lace.toml").design
    assert plain.marks == garment_views(make_garment(bare)).pages[0].marks


def test_a_picture_drawn_often_stands_in_an_svg_once_and_each_where_it_was_put():
    picture = Picture(1, 1, b"abc")
    canvas = RecordingCanvas()
    canvas.begin_page(100, 80)
    canvas.layer("x")
    puts = [Matrix(10.0, 0.0, 0.0, 20.0, 5.0 + 10.0 * step, 7.0) for step in range(3)]
    for put in puts:
        canvas.image(picture, put)
    canvas.end_page()
    text = to_svg(canvas.drawing().pages[0]).decode()
    assert text.count("<image") == 1
    assert text.count("base64") == 1
    moves = [[float(part) for part in one.split()] for one in re.findall(r"<use [^>]*matrix\(([^)]*)\)", text)]
    assert moves == [[1.0, 0.0, 0.0, 1.0, 10.0, 0.0], [1.0, 0.0, 0.0, 1.0, 20.0, 0.0]]


def test_a_placing_undone_brings_everything_back():
    there = Matrix(2.0, 0.5, -0.3, 1.5, 7.0, -4.0)
    assert there.then(there.undone()).apply(3.0, 5.0) == pytest.approx((3.0, 5.0))


def test_the_files_of_a_design_with_pictures_are_the_same_bytes_every_time():
    files = [make_files(reckon_design(brief.design, ()), "a4") for brief in map(with_pictures, ["heron-hipster"] * 2)]
    assert files[0] == files[1]
    bare = load_brief(EXAMPLES / "heron-hipster.toml")
    without = make_files(reckon_design(bare.design, ()), "a4")
    assert files[0]["guide.pdf"] != without["guide.pdf"]
    for name in ("pattern.pdf", "pattern.dxf", "report.json"):
        assert files[0][name] == without[name]
