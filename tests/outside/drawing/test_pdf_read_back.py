"""PDFs as other readers see them: sizes, layers, letters, pictures, and lengths measured on the print."""

import io
import math

import numpy as np
import pypdf
import pypdfium2
import pytest
import shapely
import shapely.affinity

from galloon.drawing import (
    A0,
    A1,
    A2,
    A3,
    A4,
    LETTER,
    Drawing,
    Fill,
    Matrix,
    Page,
    Path,
    Pen,
    Picture,
    RecordingCanvas,
    TextStyle,
    TileSettings,
    text_width,
)
from galloon.export import to_pdf
from tests.outside.drawing.readers import MM_PER_POINT, pdfium, poppler, tiled
from tests.support.sketch import small_sheet


def one_page(draw, width=100.0, height=50.0):
    canvas = RecordingCanvas("Read back")
    canvas.begin_page(width, height, name="p")
    draw(canvas)
    canvas.end_page()
    return canvas.drawing()


def iso_216(number):
    """ISO 216: sides 1000 mm · 2^(1/4 − n/2) and 2^(−1/4 − n/2), rounded down to whole mm after 0.2 is added."""
    return tuple(math.floor(1000.0 * 2.0 ** (power - number / 2.0) + 0.2) for power in (-0.25, 0.25))


@pytest.mark.parametrize("paper", [A0, A1, A2, A3, A4])
def test_paper_sizes_follow_the_rule_of_iso_216(paper):
    assert (paper.width, paper.height) == iso_216(int(paper.name[1]))


def test_letter_is_eight_and_a_half_by_eleven_inches():
    assert (LETTER.width, LETTER.height) == pytest.approx((8.5 * 25.4, 11 * 25.4), abs=1e-9)


@pytest.mark.parametrize("paper", [A0, A1, A2, A3, A4, LETTER])
def test_every_page_has_its_size_within_a_hundredth_of_a_millimetre(paper):
    pdf = to_pdf(Drawing((Page("a", paper.width, paper.height), Page("b", paper.height, paper.width))))
    for index, page in enumerate(pypdf.PdfReader(io.BytesIO(pdf)).pages):
        size = [float(side) * MM_PER_POINT for side in (page.mediabox.width, page.mediabox.height)]
        assert size == pytest.approx([paper.width, paper.height][:: 1 - 2 * index], abs=0.01)
        assert page.rotation == 0
        assert page.user_unit == 1


def test_readers_are_asked_not_to_scale_and_pages_are_named():
    pdf = tiled(Path.rectangle(0, 0, 300, 300))
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    assert reader.root_object["/ViewerPreferences"]["/PrintScaling"] == "/None"
    assert reader.page_labels == ["first", "A1", "A2", "B1", "B2"]
    assert reader.metadata.title == "Outside"


def test_layers_are_listed_by_name_in_painting_order():
    reader = pypdf.PdfReader(io.BytesIO(to_pdf(small_sheet())))
    order = reader.root_object["/OCProperties"]["/D"]["/Order"]
    assert [group.get_object()["/Name"] for group in order] == ["cut line", "lace", "stitch line", "text"]


@pytest.mark.parametrize("layer", ["cut line", "lace", "stitch line", "text"])
def test_a_layer_switched_off_vanishes_and_the_others_stay(layer, tmp_path):
    """In PDFium and in Poppler alike: what is missing is just what a drawing of that layer alone shows."""
    (page,) = small_sheet().pages
    alone = Drawing((Page("p", page.width, page.height, tuple(m for m in page.marks if m.layer == layer)),))
    rest = Drawing((Page("p", page.width, page.height, tuple(m for m in page.marks if m.layer != layer)),))
    hidden = to_pdf(small_sheet(), hidden={layer})
    assert pdfium(to_pdf(alone)).min() < 250
    assert np.array_equal(pdfium(hidden), pdfium(to_pdf(rest)))
    folders = [tmp_path / name for name in ("hidden", "rest")]
    for folder in folders:
        folder.mkdir()
    images = [poppler(pdf, folder, dpi=72)[0] for pdf, folder in zip((hidden, to_pdf(rest)), folders, strict=True)]
    assert np.array_equal(*images)


def test_every_letter_is_embedded_and_no_other_font_is_named():
    reader = pypdf.PdfReader(io.BytesIO(to_pdf(small_sheet())))
    fonts = {font for page in reader.pages for font in page["/Resources"]["/Font"].values()}
    assert fonts
    for font in fonts:
        assert "Arimo" in font.get_object()["/BaseFont"]
        assert "/FontFile2" in font.get_object()["/FontDescriptor"].get_object()


@pytest.mark.parametrize("words", ["Łucja & <b>", "Zoë ½ in × 3", "Ольга", "Đặng Thị Huệ", "%%(\\) ../x"])
def test_words_are_read_back_as_they_were_written(words):
    pdf = to_pdf(one_page(lambda canvas: canvas.text(words, (5, 20), style=TextStyle(5.0))))
    assert pypdfium2.PdfDocument(pdf)[0].get_textpage().get_text_bounded().strip() == words


def test_hebrew_is_printed_from_the_right():
    def draw(canvas):
        canvas.text("שלום", (10, 20), style=TextStyle(5.0))

    page = pypdfium2.PdfDocument(to_pdf(one_page(draw)))[0].get_textpage()
    boxes = {page.get_text_range(i, 1): page.get_charbox(i) for i in range(page.count_chars())}
    assert boxes["ש"][0] > boxes["ל"][0] > boxes["ו"][0] > boxes["ם"][0]


@pytest.mark.parametrize("bold", [False, True])
@pytest.mark.parametrize("anchor", ["left", "middle", "right"])
def test_words_are_as_wide_as_they_were_measured_and_stand_at_their_anchor(anchor, bold):
    words = "HHamburgefonts éŁ 100H"

    def draw(canvas):
        canvas.text(words, (100, 20), style=TextStyle(6.0, bold=bold, anchor=anchor))

    ink = np.nonzero(pdfium(to_pdf(one_page(draw, width=200.0)), dpi=508).min(axis=(0, 2)) < 128)[0] / 20.0
    width, side = text_width(words, 6.0), 168 / 2048 * 6.0  # the side bearing of H in the font's own tables
    left = 100.0 - {"left": 0.0, "middle": width / 2.0, "right": width}[anchor]
    assert (ink[0], ink[-1]) == pytest.approx((left + side, left + width - side), abs=0.2)


def test_a_picture_stands_the_right_way_up_and_ends_at_its_clip():
    red, green, blue, black = (255, 0, 0), (0, 255, 0), (0, 0, 255), (0, 0, 0)
    picture = Picture.from_array(np.array([[red, green], [blue, black]], np.uint8))

    def draw(canvas):
        canvas.clip((Path.rectangle(10, 10, 30, 20), Path.rectangle(20, 15, 5, 5)))
        canvas.image(picture, Matrix(40.0, 0.0, 0.0, 20.0, 10.0, 10.0))

    seen = pdfium(to_pdf(one_page(draw)), dpi=254)  # ten dots a millimetre
    at = {
        (x, y): tuple(seen[500 - 10 * y, 10 * x])
        for x, y in [(12, 28), (38, 28), (12, 12), (38, 12), (45, 20), (22, 17)]
    }
    white = (255, 255, 255)
    assert at == {(12, 28): red, (38, 28): green, (12, 12): blue, (38, 12): black, (45, 20): white, (22, 17): white}


def test_holes_stay_open_and_opacity_lets_through():
    def draw(canvas):
        canvas.fill((Path.rectangle(10, 10, 30, 30), Path.rectangle(20, 20, 10, 10)), Fill((0, 0, 0), 0.5))

    seen = pdfium(to_pdf(one_page(draw)), dpi=254)
    assert seen[500 - 250, 250, 0] == 255
    assert seen[500 - 150, 150, 0] == pytest.approx(127, abs=2)


def dark_columns(image, row_mm, height_mm):
    """Middles (mm) of the dark runs along a band of the page; rows counted from the foot, ten dots a millimetre."""
    foot = image.shape[0]
    band = image[foot - round(10 * (row_mm + height_mm)) : foot - round(10 * row_mm)]
    dark = np.nonzero((band < 140).all(axis=0))[0]
    return [run.mean() / 10.0 for run in np.split(dark, np.nonzero(np.diff(dark) > 1)[0] + 1)]


@pytest.mark.parametrize("paper", [A4, LETTER, A3])
def test_a_hundred_millimetres_are_a_thousand_dots_at_254_dpi_on_every_sheet(paper, tmp_path):
    """Poppler's pdftoppm: the two squares of the first sheet, the rule of each other sheet."""
    pdf = tiled(Path.rectangle(0, 0, 300, 300), settings=TileSettings(paper))
    first, *sheets = poppler(pdf, tmp_path, last=99)
    assert first.shape == (round(10 * paper.height), round(10 * paper.width))
    for foot, side in ((11.0, 101.6), (120.0, 100.0)):
        across = dark_columns(first, foot, 5.0)
        assert 10 * (across[1] - across[0]) == pytest.approx(10 * side, abs=1.0)
        up = dark_columns(np.rot90(first), 12.0, 5.0)
    assert 10 * (up[1] - up[0]) == pytest.approx(1000.0, abs=1.0)
    assert 10 * (up[3] - up[2]) == pytest.approx(1016.0, abs=1.0)
    assert len(sheets) >= 2
    for sheet in sheets:
        tall = dark_columns(sheet[:, :1150], 16.4 + 3.0, 0.7)  # above this only the ticks at 0, 50 and 100 mm stand
        assert [10 * (tick - tall[0]) for tick in tall] == pytest.approx([0.0, 500.0, 1000.0], abs=1.0)
        inches = dark_columns(sheet[:, :1150], 16.4 - 3.2, 0.7)
        assert [10 * (tick - inches[0]) for tick in inches] == pytest.approx([0, 254, 508, 762, 1016], abs=1.0)


def lines_of(page):
    """Stroked paths of a sheet in mm, as PDFium has them, clipped to the sheet's frame (the largest rectangle)."""
    found = []
    for thing in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_PATH]):
        a, b, c, d, e, f = thing.get_matrix().get()
        points = []
        for index in range(pypdfium2.raw.FPDFPath_CountSegments(thing.raw)):
            x, y = segment_point(thing.raw, index)
            points.append(((a * x + c * y + e) * MM_PER_POINT, (b * x + d * y + f) * MM_PER_POINT))
        found.append(points)
    return found


def segment_point(path, index):
    import ctypes

    x, y = ctypes.c_float(), ctypes.c_float()
    pypdfium2.raw.FPDFPathSegment_GetPoint(
        pypdfium2.raw.FPDFPath_GetPathSegment(path, index), ctypes.byref(x), ctypes.byref(y)
    )
    return x.value, y.value


@pytest.mark.parametrize("paper", [A4, LETTER, A3])
def test_a_long_line_measured_across_the_assembled_sheets_keeps_its_length(paper):
    """Read by PDFium sheet by sheet, trimmed at the joins, each part put at its row and column, and measured."""
    long = Path.polyline([(3.0, 7.0), (250.0, 310.0), (420.0, 330.0), (640.0, 655.0)])
    pdf = tiled(long, settings=TileSettings(paper))
    document, parts = pypdfium2.PdfDocument(pdf), []
    for index, label in enumerate(pypdf.PdfReader(io.BytesIO(pdf)).page_labels[1:], start=1):
        row, column = ord(label[0]) - ord("A"), int(label[1:]) - 1
        width, height = (side * MM_PER_POINT for side in document[index].get_size())
        # Margins of 10 mm, a footer of 16 mm; the left and upper 10 mm lie under the neighbour's trimmed edge.
        own = shapely.box(20.0 if column else 10.0, 26.0, width - 10.0, height - (20.0 if row else 10.0))
        (line,) = [
            shapely.LineString(each) for each in lines_of(document[index]) if len(each) == 4 and each[0] != each[-1]
        ]
        part = shapely.affinity.translate(line.intersection(own), column * (width - 30.0), -row * (height - 46.0))
        parts.append(part)
    assert len(parts) > 3
    assert sum(part.length for part in parts) == pytest.approx(shapely.LineString(long.flat()).length, abs=0.1)
    assert shapely.union_all([part.buffer(0.05) for part in parts]).geom_type == "Polygon", "it breaks at a join"


def test_points_on_different_sheets_are_as_far_apart_on_the_print_as_in_the_drawing(tmp_path):
    """By Poppler at 254 dpi: two spots found as the middle of their ink, their sheets laid edge on dashed line."""
    spots = [(3.2, 4.7), (346.3, 391.1)]
    settings = TileSettings(A4)
    pdf = tiled(*map(Path.dot, spots), pen=Pen("spot", 3.0), settings=settings)
    labels = pypdf.PdfReader(io.BytesIO(pdf)).page_labels[1:]
    found = []
    for label, image in zip(labels, poppler(pdf, tmp_path, first=2, last=99), strict=True):
        row, column = ord(label[0]) - ord("A"), int(label[1:]) - 1
        height, width = (side / 10.0 for side in image.shape)
        ink = 255.0 - image[105 : image.shape[0] - 265, 105 : image.shape[1] - 105]
        assert ink.sum() > 100 * math.pi * 1.4**2 * 255
        rows, columns = (np.arange(size) + 0.5 for size in ink.shape)
        x = (ink.sum(axis=0) @ columns) / ink.sum() / 10.0 + 10.5 + column * (width - 30.0)
        y = (ink.sum(axis=1) @ rows) / ink.sum() / 10.0 + 10.5 + row * (height - 46.0)
        found.append((x, y))
    assert len(found) == 2
    assert math.dist(*found) == pytest.approx(math.dist(*spots), abs=0.1)
