"""Sample pictures that come with scikit-image (cloth-like textures, print, coins, faces) are not lace, at any scale."""

from importlib.util import find_spec
from pathlib import Path

import pytest

from galloon.errors import BadInput
from galloon.reading import load_picture, read_lace

SPEC = find_spec("skimage")
FOLDER = Path(SPEC.origin).parent / "data"
#: Those whose texture, print or repeat comes nearest to lace, and a few that are nothing of the kind.
NAMES = (
    "brick.png", "cell.png", "chelsea.png", "chessboard_GRAY.png", "clock_motion.png", "coins.png", "color.png",
    "grass.png", "gravel.png", "horse.png", "moon.png", "page.png", "phantom.png", "rocket.jpg", "text.png",
)  # fmt: skip


def said_against(path, dpi):
    try:
        return [doubt.name for doubt in read_lace(load_picture(path).pixels, dpi=dpi).warnings]
    except BadInput as error:
        return [fault.key for fault in error.faults]


@pytest.mark.parametrize("name", NAMES)
def test_no_sample_is_read_as_lace_without_a_word(name):
    assert said_against(FOLDER / name, 150)


@pytest.mark.parametrize("dpi", [75, 300])
@pytest.mark.parametrize("name", ["brick.png", "chessboard_GRAY.png", "page.png", "text.png"])
def test_nor_at_another_scale(name, dpi):
    assert said_against(FOLDER / name, dpi)


@pytest.mark.parametrize("name", ["multipage.tif", "multipage_rgb.tif", "no_time_for_that_tiny.gif"])
def test_pictures_of_several_pages_or_frames_are_refused(name):
    assert said_against(FOLDER / name, 150)


def test_a_photo_without_a_card_is_told_so():
    for name in ("coins.png", "page.png", "rocket.jpg"):
        with pytest.raises(BadInput, match="no card found"):
            read_lace(load_picture(FOLDER / name).pixels, card=True)
