"""The files made from the example briefs, read back by other programs: Poppler, PDFium, ezdxf, svgelements, Shapely."""

import ctypes
import io
import itertools
import json
import math
from functools import cache

import ezdxf
import pypdf
import pypdfium2
import pytest
import shapely
import svgelements

from galloon.workflow.job import make_files, reckon_brief
from tests.outside.drawing.readers import MM_PER_POINT, poppler
from tests.outside.drawing.test_pdf_read_back import dark_columns, lines_of

EXAMPLES = ("heron-hipster", "plover-brief", "tern-bikini")


@cache
def files(name):
    """The files of one example by name."""
    return make_files(reckon_brief(f"examples/{name}.toml"), "a4")


def report(name):
    return json.loads(files(name)["report.json"])


def areas(name):
    return {piece["name"]: piece["area"] for piece in report(name)["pieces"]}


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_dxf_is_sound_and_every_piece_has_the_area_of_the_report(name):
    drawing = ezdxf.read(io.StringIO(files(name)["pattern.dxf"].decode("cp1252")))
    auditor = drawing.audit()
    assert (auditor.errors, auditor.fixes) == ([], [])
    found = {}
    for block in drawing.blocks:
        rings = [each for each in block.query("POLYLINE") if each.dxf.layer == "1" and each.is_closed]
        for ring in rings:
            found[block.name.lower().replace("_", " ")] = shapely.Polygon(
                [vertex.dxf.location.vec2 for vertex in ring.vertices]
            ).area
    assert found == pytest.approx(areas(name), rel=1e-3)


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_svg_holds_a_cut_line_of_the_same_area_for_every_piece(name):
    drawing = svgelements.SVG.parse(io.StringIO(files(name)["pattern.svg"].decode()), ppi=25.4)
    cut = [
        shapely.Polygon([(p.x, p.y) for p in path.as_points()]).area
        for path in drawing.elements(lambda each: isinstance(each, svgelements.Path))
        if path.values.get("data-layer") == "cut line" and len(path) > 3
    ]
    assert sorted(cut) == pytest.approx(sorted(areas(name).values()), rel=1e-3)


@pytest.mark.parametrize("name", EXAMPLES)
def test_areas_and_edge_lengths_of_the_report_are_those_of_its_own_rings(name):
    """By Shapely, from the points in report.json alone."""
    for piece in report(name)["pieces"]:
        ring = piece["stitch_line"]
        assert shapely.Polygon(piece["cut_line"]).area == pytest.approx(piece["area"], rel=1e-6)
        assert shapely.LinearRing(ring).is_ccw
        for edge in piece["edges"]:
            ends = edge["start"], edge["end"] if edge["end"] > edge["start"] else edge["end"] + len(ring)
            walked = [ring[i % len(ring)] for i in range(ends[0], ends[1] + 1)]
            assert sum(itertools.starmap(math.dist, itertools.pairwise(walked))) == pytest.approx(
                edge["length"], abs=0.02
            )


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_longest_seam_keeps_its_length_across_the_assembled_sheets(name):
    """Every stitch line is read by PDFium sheet by sheet, trimmed at the joins and put at its row and column; the
    longest seam of the report then lies on the assembled sheets along its whole length.
    """
    sheet = assembled_stitch_lines(files(name)["pattern.pdf"])
    seams = [(edge["length"], piece, edge) for piece in report(name)["pieces"] for edge in piece["edges"]]
    length, piece, edge = max((each for each in seams if each[2]["finish"] == "seam"), key=lambda each: each[0])
    ring = piece["stitch_line"]
    end = edge["end"] if edge["end"] > edge["start"] else edge["end"] + len(ring)
    seam = shapely.LineString([ring[i % len(ring)] for i in range(edge["start"], end + 1)])
    low, left = min(y for _, y in ring), min(x for x, _ in ring)
    found = []
    for drawn in sheet:
        x, y, *_ = drawn.bounds
        there = shapely.affinity.translate(seam, x - left, y - low)
        found.append(drawn.intersection(there.buffer(0.05, cap_style="flat")).length)
    assert max(found) == pytest.approx(length, abs=0.1)


def assembled_stitch_lines(pdf):
    """The stitch lines of the whole pattern, each as one shape: parts of it that lie within a hair are joined."""
    document, parts = pypdfium2.PdfDocument(pdf), []
    for index, label in enumerate(pypdf.PdfReader(io.BytesIO(pdf)).page_labels[1:], start=1):
        row, column = ord(label[0]) - ord("A"), int(label[1:]) - 1
        width, height = (side * MM_PER_POINT for side in document[index].get_size())
        own = shapely.box(20.0 if column else 10.0, 26.0, width - 10.0, height - (20.0 if row else 10.0))
        for line in stitch_lines(document[index]):
            place = column * (width - 30.0), -row * (height - 46.0)
            parts.append(shapely.affinity.translate(line.intersection(own), *place))
    whole = shapely.union_all(parts)
    islands = shapely.get_parts(shapely.buffer(whole, 0.03))
    return [shapely.intersection(whole, island) for island in islands]


def stitch_lines(page):
    """Lines in the ink of stitch lines, mm."""
    raw = pypdfium2.raw
    shades = [ctypes.c_uint() for _ in range(4)]
    for thing, points in zip(page.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH]), lines_of(page), strict=True):
        raw.FPDFPageObj_GetStrokeColor(thing.raw, *map(ctypes.byref, shades))
        if [shade.value for shade in shades[:3]] == [70, 70, 70] and len(points) > 2:
            yield shapely.LineString(points)


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_test_squares_of_the_printed_pattern_are_true(name, tmp_path):
    """Poppler's pdftoppm at 254 dpi: 100 mm are 1000 dots within one, 4 inches are 1016."""
    (first,) = poppler(files(name)["pattern.pdf"], tmp_path)
    for foot, side in ((11.0, 101.6), (120.0, 100.0)):
        across = dark_columns(first, foot, 5.0)
        assert 10 * (across[1] - across[0]) == pytest.approx(10 * side, abs=1.0)


@pytest.mark.parametrize("name", EXAMPLES)
def test_the_layers_of_the_pattern_can_be_switched(name):
    groups = pypdf.PdfReader(io.BytesIO(files(name)["pattern.pdf"])).trailer["/Root"]["/OCProperties"]["/OCGs"]
    names = {str(group.get_object()["/Name"]) for group in groups}
    assert names >= {"stitch line", "cut line", "notches", "text", "lace"}
