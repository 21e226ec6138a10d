"""Pages drawn in millimetres by ReportLab and turned into pixels by Poppler or PDFium; galloon's reader knows none
of them.

A printed scallop of known size is read back as drawn; a card of ISO/IEC 7810 ID-1 size (85.60 x 53.98 mm, corners of
3.18 mm) gives the scale; a page of text, a ruler and another package's icons are not read as lace.
"""

import math
import subprocess
from pathlib import Path

import cv2
import ezdxf
import numpy as np
import pypdfium2
import pytest
from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas

from galloon.errors import BadInput
from galloon.reading import read_lace
from galloon.reading.card import find_card, ruler_of

DPI = 200
WIDE, TALL = 240, 120


def printed(tmp_path, draw):
    page = tmp_path / "page.pdf"
    canvas = Canvas(str(page), pagesize=(WIDE * mm, TALL * mm))
    draw(canvas)
    canvas.showPage()
    canvas.save()
    return page


def rasterised(tmp_path, draw, dpi=DPI):
    page = printed(tmp_path, draw)
    subprocess.run(["pdftoppm", "-r", str(dpi), "-png", "-singlefile", page, tmp_path / "page"], check=True)
    return np.ascontiguousarray(cv2.imread(str(tmp_path / "page.png"))[..., ::-1])


def rasterised_by_pdfium(tmp_path, draw, dpi=DPI):
    page = printed(tmp_path, draw)
    return np.ascontiguousarray(pypdfium2.PdfDocument(page)[0].render(scale=dpi / 72).to_numpy()[..., 2::-1])


def printed_lace(canvas, pitch=18.0, depth=5.0, width=60.0):
    """A net between two rows of scallops, a leaf and a ring to each pair of them; the outer sides ``width`` apart."""
    cord, middle = 0.8, TALL / 2

    def edge(x):
        return width / 2 - cord / 2 - depth * (1 - math.cos(2 * math.pi * x / pitch)) / 2

    steps = [step * 0.2 for step in range(WIDE * 5 + 1)]
    canvas.setLineWidth(cord * mm)
    for side in (1, -1):
        line = canvas.beginPath()
        for at, x in enumerate(steps):
            (line.lineTo if at else line.moveTo)(x * mm, (middle + side * edge(x)) * mm)
        canvas.drawPath(line)
    canvas.setLineWidth(0.25 * mm)
    for x in range(0, WIDE, 2):
        canvas.line(x * mm, (middle - edge(x)) * mm, x * mm, (middle + edge(x)) * mm)
    inner = width / 2 - depth - 1
    for y in range(int(-inner), int(inner) + 1, 2):
        canvas.line(0, (middle + y) * mm, WIDE * mm, (middle + y) * mm)
    for n in range(int(WIDE / pitch / 2) + 1):
        x = 2 * pitch * n + pitch
        canvas.ellipse((x - 6) * mm, (middle + 8) * mm, (x + 6) * mm, (middle + 14) * mm, stroke=0, fill=1)
        canvas.circle((x + 9) * mm, (middle - 8) * mm, 5 * mm, stroke=0, fill=1)


def test_a_printed_scallop_is_read_as_drawn(tmp_path):
    lace = read_lace(rasterised(tmp_path, printed_lace), dpi=DPI)
    assert lace.edges == "double scallop"
    assert lace.width.value == pytest.approx(60.0, abs=0.2)
    assert lace.scallop_pitch.value == pytest.approx(18.0, rel=0.002)
    assert lace.scallop_depth.value == pytest.approx(5.0, abs=0.2)
    assert lace.repeat.value == pytest.approx(36.0, rel=0.002)


def ruled_band(canvas):
    """A band ruled like a ruler, 40 mm wide between its outer lines: a tick every 2 mm, a disc every 20 mm."""
    middle = TALL / 2
    canvas.setLineWidth(0.4 * mm)
    for y in (-19.8, -12, -6, 0, 6, 12, 19.8):
        canvas.line(0, (middle + y) * mm, WIDE * mm, (middle + y) * mm)
    for x in range(0, WIDE + 1, 2):
        canvas.line(x * mm, (middle - 19.8) * mm, x * mm, (middle + 19.8) * mm)
    for x in range(5, WIDE, 20):
        canvas.circle(x * mm, (middle + 9) * mm, 2.6 * mm, stroke=0, fill=1)
        canvas.rect((x + 6) * mm, (middle - 11) * mm, 3 * mm, 9 * mm, stroke=0, fill=1)


@pytest.mark.parametrize("raster", [rasterised, rasterised_by_pdfium])
@pytest.mark.parametrize("dpi", [120, 300])
def test_a_ruled_band_is_as_wide_and_as_long_as_its_own_rule_says(tmp_path, raster, dpi):
    lace = read_lace(raster(tmp_path, ruled_band, dpi), dpi=dpi)
    assert lace.edges == "straight"
    assert lace.width.value == pytest.approx(40.0, abs=0.15)
    assert lace.repeat.value == pytest.approx(20.0, rel=0.002)


def test_both_programs_print_the_scallop_alike(tmp_path):
    lace = read_lace(rasterised_by_pdfium(tmp_path, printed_lace), dpi=DPI)
    assert lace.width.value == pytest.approx(60.0, abs=0.2)
    assert lace.scallop_pitch.value == pytest.approx(18.0, rel=0.002)
    assert lace.scallop_depth.value == pytest.approx(5.0, abs=0.2)


@pytest.mark.parametrize("upright", [False, True])
def test_a_printed_card_of_id_1_size_gives_the_scale(tmp_path, upright):
    def draw(canvas):
        canvas.setFillColorRGB(0.2, 0.35, 0.6)
        size = (53.98, 85.60) if upright else (85.60, 53.98)
        canvas.roundRect(100 * mm, 20 * mm, size[0] * mm, size[1] * mm, 3.18 * mm, stroke=0, fill=1)

    card = find_card(rasterised(tmp_path, draw))
    assert card is not None
    ruler = ruler_of(card)
    # a printed card has no thickness, so its scale comes out low by the share a real one's would be corrected by
    assert ruler.mm_per_px() == pytest.approx(25.4 / DPI * (1 + 0.76 / 430), rel=0.002)
    assert ruler.foreshortened < 0.01


def ruler(canvas):
    canvas.setLineWidth(0.2 * mm)
    for tick in range(201):
        tall = 12 if tick % 10 == 0 else 8 if tick % 5 == 0 else 5
        canvas.line((20 + tick) * mm, 50 * mm, (20 + tick) * mm, (50 + tall) * mm)
        if tick % 10 == 0:
            canvas.drawCentredString((20 + tick) * mm, 64 * mm, str(tick // 10))


def text(canvas):
    for row in range(16):
        canvas.drawString(
            20 * mm, (105 - 6 * row) * mm, f"{row} the lace lies on the glass and the light runs under it"
        )


def refused_or_doubted(pixels):
    """What the reader says against a picture: the reason it refuses, or its warnings."""
    try:
        return [doubt.name for doubt in read_lace(pixels, dpi=DPI).warnings]
    except BadInput as error:
        return [fault.key for fault in error.faults]


@pytest.mark.parametrize("draw", [ruler, text])
def test_print_is_refused_or_doubted_by_name(tmp_path, draw):
    assert refused_or_doubted(rasterised(tmp_path, draw))


def test_icons_of_another_package_are_no_lace():
    folder = Path(ezdxf.__file__).parent / "resources"
    icons = [cv2.imread(str(path)) for path in sorted(folder.glob("*.png"))]
    icons = [icon for icon in icons if icon is not None and min(icon.shape[:2]) >= 60]
    assert icons
    for icon in icons:
        assert refused_or_doubted(cv2.resize(icon, None, fx=4, fy=4, interpolation=cv2.INTER_CUBIC))
