"""SVG as svgelements reads it and DXF as ezdxf reads and audits it: the same areas, in millimetres."""

import io

import ezdxf
import pytest
import shapely
import svgelements
from ezdxf import recover
from ezdxf.lldxf.encoding import decode_dxf_unicode

from galloon.drawing import Path, Pen, RecordingCanvas, TextStyle
from galloon.export import D6673_LAYERS, to_dxf, to_svg
from tests.support.sketch import CUT, STITCH, wavy_ring

CURVED = Path((10, 10), ((90, 10), (120, 40, 120, 80, 90, 110), (50, 90, 30, 100, 10, 110)), closed=True)
RINGS = {"boundary": wavy_ring(200.0, 150.0, 90.0, points=600), "sewing": CURVED, "hole": Path.circle((60, 60), 12.5)}
NUMBERS = {"boundary": 1, "sewing": 14, "hole": 11, "words": 15, "notch": 4}


def pieces():
    canvas = RecordingCanvas()
    for name in ("back", "front"):
        canvas.begin_page(320.0, 270.0, name=name)
        for layer, ring in RINGS.items():
            canvas.layer(layer)
            canvas.stroke(ring, STITCH if layer == "sewing" else CUT)
        canvas.layer("notch")
        canvas.stroke(Path.dot((110.0, 60.0)), Pen("notch", 0.5))
        canvas.layer("words")
        canvas.text("Łucja 50 % × שלום", (60.0, 60.0), style=TextStyle(5.0, anchor="middle"), angle=30.0)
        canvas.end_page()
    return canvas.drawing()


def area(path):
    return shapely.Polygon(path.flat(1e-5)).area


@pytest.fixture(scope="module")
def dxf():
    return ezdxf.read(io.StringIO(to_dxf(pieces(), layers=NUMBERS).decode("cp1252")))


def test_ezdxf_finds_nothing_to_mend_in_the_dxf(dxf):
    auditor = dxf.audit()
    assert (auditor.errors, auditor.fixes) == ([], [])
    _, auditor = recover.read(io.BytesIO(to_dxf(pieces(), layers=NUMBERS)))
    assert (auditor.errors, auditor.fixes) == ([], [])


def test_the_dxf_is_in_millimetres_and_every_page_is_a_block_set_in_beside_the_last(dxf):
    assert dxf.units == ezdxf.units.MM
    assert [(insert.dxf.name, tuple(insert.dxf.insert)) for insert in dxf.modelspace().query("INSERT")] == [
        ("BACK", (0.0, 0.0, 0.0)),
        ("FRONT", (340.0, 0.0, 0.0)),
    ]
    assert {layer.dxf.name for layer in dxf.layers} >= {"1", "4", "11", "14", "15"}


@pytest.mark.parametrize("block", ["BACK", "FRONT"])
@pytest.mark.parametrize("name", RINGS)
def test_a_ring_in_the_dxf_is_closed_and_has_its_area(dxf, block, name):
    (line,) = [each for each in dxf.blocks[block].query("POLYLINE") if each.dxf.layer == str(NUMBERS[name])]
    assert line.is_closed
    ring = shapely.Polygon([vertex.dxf.location.vec2 for vertex in line.vertices])
    # Chords within 0.01 mm lose at most their sag along the whole ring.
    assert ring.area == pytest.approx(area(RINGS[name]), abs=0.01 * ring.length)
    assert ring.area == pytest.approx(area(RINGS[name]), rel=1e-3)


def test_a_notch_in_the_dxf_is_a_point_and_words_stand_where_they_were_put(dxf):
    (point,) = dxf.blocks["BACK"].query("POINT")
    assert (point.dxf.layer, tuple(point.dxf.location)) == ("4", (110.0, 60.0, 0.0))
    (text,) = dxf.blocks["BACK"].query("TEXT")
    assert decode_dxf_unicode(text.dxf.text) == "Łucja 50 % × שלום"
    assert (text.dxf.layer, text.dxf.rotation, text.dxf.height) == ("15", 30.0, pytest.approx(5.0 * 0.688, abs=0.01))
    assert text.get_placement()[1].isclose((60.0, 60.0))


def test_the_standard_numbers_are_those_that_were_remembered():
    """ASTM D6673 from memory, not checked against a copy: boundary 1, notches 4, cutouts 11, sew lines 14, text 15."""
    names = ("piece boundary", "notches", "internal cutouts", "sew lines", "annotation text")
    assert [D6673_LAYERS[name] for name in names] == [1, 4, 11, 14, 15]


@pytest.mark.parametrize("index", range(3))
def test_a_ring_in_the_svg_has_its_area_in_square_millimetres(index):
    svg = svgelements.SVG.parse(io.BytesIO(to_svg(pieces().pages[0])), ppi=25.4)  # one dot a millimetre
    assert (float(svg.width), float(svg.height)) == pytest.approx((320.0, 270.0), rel=1e-6)  # its inch is 25.399986 mm
    shapes = [each for each in svg.elements() if isinstance(each, svgelements.Path)]
    ring = shapely.Polygon([(p.x, p.y) for p in (shapes[index].point(t / 4000) for t in range(4000))])
    assert ring.area == pytest.approx(area(list(RINGS.values())[index]), rel=1e-4)


def test_the_svg_stands_as_high_as_the_drawing_it_was_made_from():
    svg = svgelements.SVG.parse(io.BytesIO(to_svg(pieces().pages[0])), ppi=25.4)
    left, top, right, bottom = next(each for each in svg.elements() if isinstance(each, svgelements.Path)).bbox()
    x0, y0, x1, y1 = RINGS["boundary"].bounds
    assert (left, top, right, bottom) == pytest.approx((x0, 270.0 - y1, x1, 270.0 - y0), abs=0.01)
