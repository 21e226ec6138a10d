"""A bank-size card in a photograph: found, its slant undone, and told where it is not what it should be."""

from functools import cache

import cv2
import numpy as np
import pytest

from galloon.errors import BadInput
from galloon.reading import card as reader
from galloon.reading import read_lace
from galloon.reading.straighten import apply
from tests.support import lace_photos
from tests.support.lace_photos import CARD

#: Seeds whose photo shows a card lying level (2) and one standing upright (7).
LYING, STANDING = 2, 7


@cache
def photo(seed, level="easy", **how):
    return lace_photos.photo(seed, level, **how)


def said_against(pixels):
    try:
        return [doubt.name for doubt in read_lace(pixels, card=True).warnings]
    except BadInput as error:
        return [fault.key for fault in error.faults]


def test_the_card_has_the_size_of_iso_iec_7810_id_1():
    # ISO/IEC 7810 ID-1: 85.60 x 53.98 mm, 0.76 mm thick, corners of 2.88 to 3.48 mm (from memory).
    assert (reader.WIDE, reader.TALL, reader.THICK) == (85.60, 53.98, 0.76) == CARD[:3]
    assert 2.88 <= reader.ROUND <= 3.48


@pytest.mark.parametrize("seed", [LYING, STANDING])
def test_a_card_is_found_where_it_was_drawn(seed):
    drawn = photo(seed)
    card = reader.find_card(drawn.pixels)
    assert card is not None
    corners = apply(np.linalg.inv(drawn.to_px), card.corners)
    sides = np.linalg.norm(np.roll(corners, -1, axis=0) - corners, axis=1)
    # Seen on the plane of the lace it is a little too large: its face lies 0.76 mm nearer to the camera.
    assert sides[[0, 2]] == pytest.approx([CARD[0]] * 2, rel=0.006)
    assert sides[[1, 3]] == pytest.approx([CARD[1]] * 2, rel=0.006)
    square = (corners[1] - corners[0]) @ (corners[2] - corners[1]) / (sides[0] * sides[1])
    assert abs(square) < 0.01


def test_a_slant_is_undone_and_the_lace_measured_within_one_percent():
    drawn = photo(LYING, tilt=9.0)
    ruler = reader.card_ruler(drawn.pixels, "photo")
    tall, wide = drawn.pixels.shape[:2]
    spots = np.array([[0.2, 0.5], [0.5, 0.5], [0.8, 0.5], [0.5, 0.8]]) * [wide, tall]
    ours, true = apply(ruler.flatten, spots), apply(np.linalg.inv(drawn.to_px), spots)
    for one, other in ((0, 2), (0, 3), (1, 3), (2, 3)):
        found, meant = (np.linalg.norm(place[one] - place[other]) for place in (ours, true))
        assert found == pytest.approx(meant, rel=0.01)
    found = read_lace(drawn.pixels, card=True)
    assert found.width.value == pytest.approx(drawn.truth["width"], rel=0.01)
    assert found.scallop_pitch.value == pytest.approx(drawn.truth["scallop_pitch"], rel=0.01)


@pytest.mark.parametrize("tilt", [20.0, 40.0])
def test_a_card_seen_from_the_side_is_told_by_name(tilt):
    assert {"card foreshortened", "no card found"} & set(said_against(photo(3, tilt=tilt).pixels))


def test_no_card_or_half_a_card_is_no_card():
    whole = photo(LYING)
    middle = reader.find_card(whole.pixels).corners.mean(0)
    half = whole.pixels[: int(middle[1])] if middle[1] > whole.pixels.shape[0] / 2 else whole.pixels[int(middle[1]) :]
    for pixels in (photo(LYING, card=False).pixels, np.ascontiguousarray(half)):
        with pytest.raises(BadInput, match="no card found"):
            read_lace(pixels, card=True)


@pytest.mark.parametrize(("seed", "apart"), [(LYING, 0.0), (LYING, -15.0), (STANDING, -15.0)])
def test_a_card_touching_or_lying_on_the_lace_is_told_by_name_unless_all_is_read_right(seed, apart):
    drawn = photo(seed, apart=apart)
    if said_against(drawn.pixels):
        return
    found = read_lace(drawn.pixels, card=True)
    for name in ("width", "scallop_pitch"):
        assert getattr(found, name).value == pytest.approx(drawn.truth[name], rel=0.01)
    assert found.scallop_depth.value == pytest.approx(drawn.truth["scallop_depth"], rel=0.03, abs=0.3)


def test_a_card_well_over_the_lace_is_refused_by_name():
    assert "no card found" in said_against(photo(LYING, apart=-25.0).pixels)


def test_a_sheet_of_another_shape_is_never_taken_for_a_card_without_a_word():
    # ISO 216 A6, 148 x 105 mm: sides of 1.41, not 1.59. It looks like a card seen from the side.
    pixels = np.full((1200, 1600, 3), 60, np.uint8)
    cv2.rectangle(pixels, (500, 350), (500 + 592, 350 + 420), (235, 235, 230), -1)
    card = reader.find_card(pixels)
    assert card is None or reader.ruler_of(card).foreshortened > 0.1
    cv2.rectangle(pixels, (450, 300), (1200, 1050), (235, 235, 230), -1)
    assert reader.find_card(pixels) is None
