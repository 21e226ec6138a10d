"""A panel's cloth, the lace uses cut from it and a cloth's name go on fitting one another whatever is changed first."""

import tomllib

import pytest

from galloon.brief import brief_from, starter_brief
from galloon.web.adapt import CHOICES, renamed, with_what_follows
from galloon.web.desk import changed
from galloon.workflow.reckon import make_garment

LACE = {
    "kind": "lace", "edges": "double scallop", "width": "20 cm", "scallop_pitch": "4 cm", "scallop_depth": "1 cm",
    "repeat": "8 cm", "mirror_across": True, "second_edge": "mirror", "stretch_length": 50, "stretch_width": 15,
}  # fmt: skip


@pytest.fixture
def data():
    return {**(told := tomllib.loads(starter_brief())), "cloth": {**told["cloth"], "mine": LACE}}


def after(data, *changes):
    """The data after the changes and what follows from them; they are a brief and a garment."""
    new = changed(data, with_what_follows(data, changes))
    make_garment(brief_from(new, file="brief").design)
    return new


@pytest.mark.parametrize("cloth", ["heron", "mine", "mesh", "lining"])
@pytest.mark.parametrize("panel", ["front", "back"])
def test_any_cloth_can_be_chosen_for_any_panel(data, panel, cloth):
    new = after(data, (("panels", panel), cloth))
    assert new["panels"][panel] == cloth
    covering = [use for use in new.get("lace", []) if use["panel"] == panel]
    assert [use["cloth"] for use in covering] == ([cloth] if cloth in ("heron", "mine") else [])


def test_the_other_panel_keeps_its_lace(data):
    both = after(data, (("lace", 0, "panel"), "both"))
    assert both["panels"]["front"] == both["panels"]["back"] == "heron"
    new = after(both, (("panels", "front"), "mine"))
    assert {use["panel"]: use["cloth"] for use in new["lace"]} == {"back": "heron", "front": "mine"}


@pytest.mark.parametrize("use", CHOICES)
@pytest.mark.parametrize("panel", ["front", "back", "both"])
def test_every_use_that_is_offered_makes_a_brief(data, use, panel):
    new = after(data, (("lace", 0, "use"), use), (("lace", 0, "panel"), panel))
    assert new["lace"][0]["use"] == use


def test_a_new_name_goes_wherever_the_old_one_stood(data):
    data["finish"]["waist"] = "lace trim mine"
    new = changed(data, renamed(data, "heron", "Grandmother's"))
    new = changed(new, renamed(new, "mine", "narrow"))
    assert "heron" not in str(new["cloth"].keys())
    assert (new["panels"]["back"], new["lace"][0]["cloth"]) == ("Grandmother's", "Grandmother's")
    assert new["finish"]["waist"] == "lace trim narrow"
    make_garment(brief_from(new, file="brief").design)


@pytest.mark.parametrize(("old", "new"), [("nobody", "x"), ("heron", " "), ("heron", "mesh")])
def test_a_name_that_cannot_be_given_changes_nothing(data, old, new):
    assert renamed(data, old, new) == []


@pytest.mark.parametrize("use", ["edge trim", "overlay", "applique", "insertion"])
def test_one_more_use_of_the_lace_leaves_the_panel_that_is_cut_from_it(data, use):
    more = changed(
        data, with_what_follows(data, [(("lace", 1), {"use": "edge trim", "cloth": "heron", "panel": "both"})])
    )
    brief_from(more, file="brief")
    new = changed(more, with_what_follows(more, [(("lace", 1, "use"), use)]))
    brief_from(new, file="brief")
    assert new["panels"] == data["panels"]
    assert new["lace"][0] == data["lace"][0]
