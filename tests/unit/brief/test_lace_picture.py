"""The picture of a lace that a brief names: opened safely, made one form, told where it cannot be used."""

import io
import zlib
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image, PngImagePlugin

from galloon.brief import brief_from, load_brief, picture_from, png_of, to_data
from galloon.brief.parse import parse_toml
from galloon.errors import BadInput
from galloon.materials.picture import MOST_SAMPLES

BRIEF = "examples/heron-hipster.toml"


def picture(wide=84, tall=240):
    """Thread with holes, RGBA."""
    y, x = np.mgrid[0:tall, 0:wide]
    solid = np.where((x // 6 + y // 6) % 2 == 0, 255, 0)
    return np.dstack([x * 3 % 256, y % 256, x * 0 + 90, solid]).astype(np.uint8)


def saved(array, **more):
    held = io.BytesIO()
    Image.fromarray(array).save(held, "PNG", **more)
    return held.getvalue()


@pytest.fixture
def brief(tmp_path):
    """Writes a brief whose lace names a picture, and the picture's bytes beside it; gives the brief's path."""

    def write(raw, name="heron.png", key=None):
        lace = f'kind = "lace"\npicture = "{key or name}"'
        text = Path(BRIEF).read_text(encoding="utf-8").replace('kind = "lace"', lace, 1)
        (tmp_path / "brief.toml").write_text(text, encoding="utf-8")
        if raw is not None:
            (tmp_path / name).write_bytes(raw)
        return tmp_path / "brief.toml"

    return write


def test_a_picture_beside_the_brief_is_the_lace_s_and_its_file_s_own_words_are_dropped(brief):
    told = PngImagePlugin.PngInfo()
    told.add_text("Comment", "taken at home")
    found = load_brief(brief(saved(picture(), pnginfo=told))).design.cloths["heron"].picture
    assert (found.columns, found.rows) == (84, 240)
    assert b"home" not in png_of(found)
    assert np.abs(np.asarray(Image.open(io.BytesIO(png_of(found)))).astype(int)[0, 0] - picture()[0, 0]).max() < 8


def test_kept_and_opened_again_it_is_the_same_picture(brief):
    first = load_brief(brief(saved(picture()))).design.cloths["heron"].picture
    again = load_brief(brief(png_of(first))).design.cloths["heron"].picture
    assert again == first
    assert again.name == first.name


def test_a_larger_one_is_made_smaller_in_proportion():
    found = picture_from(picture(1500, 2400))
    assert found.columns * found.rows <= MOST_SAMPLES
    assert found.columns / found.rows == pytest.approx(1500 / 2400, rel=0.01)


def bomb():
    """A PNG that says it is 40,000 px each way."""
    raw = bytearray(saved(picture()))
    raw[16:24] = (40_000).to_bytes(4, "big") * 2
    raw[29:33] = zlib.crc32(raw[12:29]).to_bytes(4, "big")
    return bytes(raw)


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        (b"", "is empty"),
        (b"not a picture at all", "is not a picture"),
        (b"<svg xmlns='http://www.w3.org/2000/svg'/>", "is a drawing"),
        (b"%PDF-1.7", "is a document"),
        (saved(picture())[:400], "cut short or broken"),
        (bomb(), "larger than"),
    ],
)
def test_a_file_that_cannot_be_used_is_refused_with_the_reason_at_its_key(brief, raw, said):
    with pytest.raises(BadInput, match=said) as refused:
        load_brief(brief(raw))
    assert [fault.key for fault in refused.value.faults] == ["cloth.heron.picture"]


@pytest.mark.parametrize("name", ["../heron.png", "/etc/passwd", "a/../../b.png", "C:/heron.png", "..\\\\heron.png"])
def test_only_files_in_the_folder_of_the_brief_are_opened(brief, name):
    with pytest.raises(BadInput, match="folder of the brief"):
        load_brief(brief(saved(picture()), key=name))


def test_a_link_out_of_the_folder_is_not_followed(brief, tmp_path_factory, tmp_path):
    outside = tmp_path_factory.mktemp("outside") / "heron.png"
    outside.write_bytes(saved(picture()))
    (tmp_path / "heron.png").symlink_to(outside)
    with pytest.raises(BadInput, match="folder of the brief"):
        load_brief(brief(None))


def test_no_other_cloth_has_one():
    data = parse_toml(Path(BRIEF).read_text(encoding="utf-8"), BRIEF)
    data["cloth"]["mesh"]["picture"] = "mesh.png"
    with pytest.raises(BadInput, match="lace only"):
        brief_from(data, file="brief", picture=lambda name: saved(picture()))


class Shelf:
    """A shelf that has one picture and nothing else."""

    def __init__(self, kept):
        self.kept = kept

    def picture(self, name):
        return png_of(self.kept) if name == self.kept.name else None

    def cloth(self, name):
        return None

    wearer = elastic = block = cloth


def test_a_design_written_out_names_the_picture_as_the_shelf_keeps_it(brief):
    design = load_brief(brief(saved(picture()))).design
    kept = design.cloths["heron"].picture
    data = to_data(replace(design, units="mm"))
    assert data["cloth"]["heron"]["picture"] == f"shelf {kept.name}"
    assert brief_from(data, file="again", shelf=Shelf(kept)).design.cloths["heron"].picture == kept


def test_a_picture_that_the_shelf_does_not_have_is_told_and_the_pattern_made_without_it(brief):
    data = to_data(load_brief(brief(saved(picture()))).design)
    for shelf in (None, Shelf(picture_from(picture(40, 40)))):
        found = brief_from(data, file="elsewhere", shelf=shelf)
        assert found.design.cloths["heron"].picture is None
        assert [one.about for one in found.findings if one.name == "lace picture"] == ["cloth heron"]
