"""Pictures of laces on the shelf: kept once, found by the laces and versions that name them, carried to another."""

import json
from base64 import b64encode

import numpy as np
import pytest
from PIL import Image

from galloon.brief import brief_from, picture_from
from galloon.errors import BadInput
from galloon.store import (
    ShelfLookup,
    ShelfOnDemand,
    add,
    change,
    export_all,
    import_all,
    open_shelf,
    picture_png,
    put_picture,
    show_thing,
)
from galloon.workflow import booking

LACE = {
    "units": "mm", "kind": "lace", "edges": "double scallop", "width": 250, "scallop_pitch": 42, "scallop_depth": 11,
    "repeat": 84, "stretch_length": 55, "stretch_width": 15,
}  # fmt: skip


def picture(shade=90):
    y, x = np.mgrid[0:50, 0:17]
    return picture_from(np.dstack([x * 0 + shade, x, y, x * 0 + 255]).astype(np.uint8))


@pytest.fixture
def shelf(tmp_path):
    with open_shelf(tmp_path / "shelf.sqlite") as opened:
        yield opened


def brief_of(lookup):
    data = {
        "units": "cm", "wearer": {"waist": 74, "hip": 101, "waist_to_hip": 21, "crotch_length": 73},
        "cloth": {"heron": "shelf", "mesh": {"kind": "knit", "width": 150, "stretch_length": 50, "stretch_width": 50}},
        "panels": {"front": "mesh", "back": "heron", "gusset": "mesh"},
        "lace": [{"use": "scalloped leg", "cloth": "heron", "panel": "back"}], "style": {"centre_back_seam": True},
    }  # fmt: skip
    return brief_from(data, file="brief", shelf=lookup)


def test_a_design_that_names_a_lace_of_the_shelf_finds_its_picture(shelf):
    add(shelf, "cloth", "heron", {**LACE, "picture": put_picture(shelf, picture())})
    assert brief_of(ShelfLookup(shelf)).design.cloths["heron"].picture == picture()
    change(shelf, "cloth", "heron", {"price": 9})
    assert brief_of(ShelfOnDemand(shelf.path)).design.cloths["heron"].picture == picture()


def test_the_same_picture_is_kept_once(shelf):
    assert put_picture(shelf, picture()) == put_picture(shelf, picture())
    assert put_picture(shelf, picture(12)) != put_picture(shelf, picture())
    assert len(shelf.rows("SELECT name FROM picture")) == 2


def test_what_is_on_the_shelf_names_no_picture_that_is_not(shelf):
    add(shelf, "cloth", "heron", {**LACE, "picture": "shelf " + "0" * 32})
    assert "picture" not in show_thing(shelf, "cloth", "heron").data


def test_a_shelf_carried_to_another_machine_takes_its_pictures_along(shelf, tmp_path):
    said = put_picture(shelf, picture())
    add(shelf, "cloth", "heron", {**LACE, "picture": said})
    with open_shelf(tmp_path / "other.sqlite") as other:
        import_all(other, export_all(shelf), file="all.json")
        assert picture_png(other, picture().name) == picture_png(shelf, picture().name)
        assert show_thing(other, "cloth", "heron").data["picture"] == said
        assert export_all(other) == export_all(shelf)
        assert import_all(other, export_all(shelf), file="all.json") == 0


@pytest.mark.parametrize("kept", ["no base64 at all", b64encode(b"no picture").decode(), 7, None])
def test_an_export_with_something_else_for_a_picture_is_refused_whole(shelf, kept):
    add(shelf, "cloth", "heron", LACE)
    document = {**json.loads(export_all(shelf)), "pictures": [kept]}
    document["things"][0]["name"] = "curlew"
    with pytest.raises(BadInput):
        import_all(shelf, json.dumps(document), file="all.json")
    assert [row["name"] for row in shelf.rows("SELECT name FROM thing")] == ["heron"]


def test_a_kept_version_is_drawn_again_with_the_picture_it_was_made_with(shelf):
    add(shelf, "cloth", "heron", {**LACE, "picture": put_picture(shelf, picture())})
    design = brief_of(ShelfLookup(shelf)).design
    made = booking.reckon_design(design, ())
    version = booking.keep(shelf, design, made.garment)
    change(shelf, "cloth", "heron", {"picture": None})
    again = booking.draw_again(shelf, version.name, None, step=lambda said: None)
    assert again.made.garment.design.cloths["heron"].picture == picture()
    assert again.same


def test_a_lace_put_on_the_shelf_from_a_brief_brings_the_picture_beside_it(tmp_path):
    from click.testing import CliRunner

    from galloon.cli.shelf import command

    text = "\n".join(f"{key} = {json.dumps(value)}" for key, value in LACE.items() if key != "units")
    (tmp_path / "lace.toml").write_text(f'units = "mm"\n[cloth.heron]\npicture = "seen.png"\n{text}\n')
    Image.frombytes("RGBA", (17, 50), picture().samples).save(tmp_path / "seen.png")
    where = str(tmp_path / "shelf.sqlite")
    told = CliRunner().invoke(
        command, ["--shelf", where, "add", "lace", "heron", "--from", str(tmp_path / "lace.toml")]
    )
    assert told.exit_code == 0, told.output
    with open_shelf(tmp_path / "shelf.sqlite") as shelf:
        assert brief_of(ShelfLookup(shelf)).design.cloths["heron"].picture == picture()


def test_a_lace_read_onto_the_shelf_keeps_one_repeat_of_itself(tmp_path):
    from click.testing import CliRunner

    from galloon.cli.read_lace import command

    where = ["--shelf", str(tmp_path / "shelf.sqlite"), "--onto", "heron", "--stretch-length", "20"]
    told = CliRunner().invoke(command, ["examples/scans/avens-lace.jpg", *where, "--stretch-width", "45"])
    assert told.exit_code == 0, told.output
    with open_shelf(tmp_path / "shelf.sqlite") as shelf:
        kept = brief_of(ShelfLookup(shelf)).design.cloths["heron"]
    assert kept.picture.columns / kept.picture.rows == pytest.approx(kept.lace.motif / kept.width, rel=0.01)
    thread = np.frombuffer(kept.picture.samples, np.uint8)[3::4]
    assert 0.2 < (thread > 128).mean() < 0.8


def test_the_shelf_is_asked_for_a_picture_once(shelf, monkeypatch):
    add(shelf, "cloth", "heron", {**LACE, "picture": put_picture(shelf, picture())})
    held = {}
    lookup = ShelfOnDemand(shelf.path, held)
    assert brief_of(lookup).design.cloths["heron"].picture == picture()
    monkeypatch.setattr("galloon.store.lookup.picture_png", lambda *_: pytest.fail("asked again"))
    assert brief_of(ShelfOnDemand(shelf.path, held)).design.cloths["heron"].picture == picture()
