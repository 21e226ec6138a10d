"""A pattern drawn elsewhere comes in with its named edges; what is not safe or does not close is refused."""

import pytest

from galloon.brief import load_drawing
from galloon.errors import BadInput

HEAD = '<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="300mm" viewBox="0 0 300 300">'
FRONT = (
    '<g id="front"><path id="waist" d="M 0 0 H 100"/><path id="centre" d="M 0 80 V 0"/>'
    '<path id="side" d="M 100 0 V 30.2"/><path id="leg" d="M 0 80 C 40 80 100 60 100 30"/></g>'
)


@pytest.fixture
def read(tmp_path):
    def reading(body, head=HEAD):
        path = tmp_path / "drawn.svg"
        path.write_text(f"{head}{body}</svg>", "utf-8")
        return load_drawing(path)

    return reading


def test_edges_in_any_order_and_direction_go_round_the_piece_anticlockwise_with_y_upwards(read):
    piece = read(FRONT)["front"]
    corners = {edge["name"]: piece["outline"][edge["start"]] for edge in piece["edges"]}
    names = [edge["name"] for edge in piece["edges"]]
    first = names.index("leg")
    assert names[first:] + names[:first] == ["leg", "side", "waist", "centre"]
    assert corners["leg"] == pytest.approx([0, 0], abs=1e-3)
    assert corners["side"] == pytest.approx([100, 50], abs=0.21)
    assert corners["waist"] == pytest.approx([100, 80], abs=1e-3)
    assert corners["centre"] == pytest.approx([0, 80], abs=1e-3)
    starts = [edge["start"] for edge in piece["edges"]]
    assert [edge["end"] for edge in piece["edges"]] == [*starts[1:], len(piece["outline"])]


def test_a_closed_shape_is_a_piece_with_one_edge_and_several_pieces_come_together(read):
    found = read(FRONT + '<rect id="gusset" x="10" y="10" width="70" height="40"/>')
    assert list(found) == ["front", "gusset"]
    assert found["gusset"]["outline"] == [[0, 40], [0, 0], [70, 0], [70, 40]]
    assert found["gusset"]["edges"] == [{"name": "gusset", "start": 0, "end": 4}]


def test_lengths_follow_the_drawing_own_units_and_transforms(read):
    inches = HEAD.replace("300mm", "10in").replace("300 300", "100 100")
    found = read('<g transform="scale(2)"><rect id="a" width="10" height="5"/></g>', inches)
    assert max(found["a"]["outline"]) == pytest.approx([50.8, 25.4], abs=1e-3)


@pytest.mark.parametrize(
    ("body", "rule"),
    [
        ('<g id="front"><path id="waist" d="M 0 0 H 100"/><path id="leg" d="M 100 5 L 0 50 Z"/></g>', "end where"),
        ('<g id="front"><path id="waist" d="M 0 0 H 100"/><path id="leg" d="M 100 3 L 0 0"/></g>', "end where"),
        ('<g><path id="waist" d="M 0 0 H 100 V 9 L 0 0"/></g>', "must have a name"),
        ('<g id="front"><path d="M 0 0 H 100 V 9 L 0 0"/></g>', "must have a name"),
        (FRONT + FRONT, "same name"),
        ("", "at least one"),
        ('<rect id="a" width="1" height="1"><script/></rect>', "script"),
        ('<rect id="a" width="1" height="1" onload="x()"/>', "scripts"),
        ('<rect id="a" width="1" height="1" fill="url(http://elsewhere.example/a)"/>', "outside"),
        ('<rect id="a" width="4000" height="10"/>', "across"),
        ('<path id="a" d="M 0 0' + " L 1 1 L 2 0" * 50_000 + ' Z"/>', "points"),
        ('<rect id="a" width="1" height="', "sound XML"),
    ],
)  # fmt: skip
def test_a_drawing_that_is_not_safe_or_does_not_close_is_refused_with_its_reason(read, body, rule):
    with pytest.raises(BadInput, match=rule):
        read(body)


def test_entities_and_what_is_no_drawing_are_refused(read, tmp_path):
    with pytest.raises(BadInput, match="no document type"):
        read('<rect id="&a;" width="1" height="1"/>', '<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/passwd">]>' + HEAD)
    with pytest.raises(BadInput, match="cannot be read"):
        load_drawing(tmp_path / "not there.svg")
    (tmp_path / "raw").write_bytes(b"\x00\x01")
    with pytest.raises(BadInput, match="binary"):
        load_drawing(tmp_path / "raw")
