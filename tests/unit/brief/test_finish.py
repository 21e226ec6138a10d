"""The words for edge finishes."""

from __future__ import annotations

import pytest

from galloon.brief import read_brief
from galloon.design import FinishKind
from galloon.errors import BadInput
from tests.support.briefs import FULL, changed

OWN = """
[elastic."velvet band"]
width = "12 mm"
stretch = 80
[elastic."fold-over silk"]
width = "16 mm"
stretch = 70
ratio = { waist = 0.9 }
"""


def finish(words: str):
    text = changed('waist = "picot elastic 10 mm"', f'waist = "{words}"') + OWN
    return read_brief(text, file="b.toml").design.finishes.waist


@pytest.mark.parametrize(
    ("words", "kind", "elastic"),
    [
        ("picot elastic 12 mm", FinishKind.ELASTIC, "picot elastic 12 mm"),
        ("Plush Elastic", FinishKind.ELASTIC, "Plush Elastic"),
        ("soft picot 10 mm", FinishKind.ELASTIC, "soft picot 10 mm"),
        ("velvet band", FinishKind.ELASTIC, "velvet band"),
        ("fold-over silk", FinishKind.FOLD_OVER, "fold-over silk"),
        ("fold-over elastic 15 mm", FinishKind.FOLD_OVER, "fold-over elastic 15 mm"),
        ("fold-over velvet band", FinishKind.FOLD_OVER, "velvet band"),
        ("strap elastic 10 mm", FinishKind.STRAP, "strap elastic 10 mm"),
        ("strap velvet band", FinishKind.STRAP, "velvet band"),
        ("scallop", FinishKind.SCALLOP, None),
        ("scallop with clear elastic 6 mm", FinishKind.SCALLOP, "clear elastic 6 mm"),
        ("scallop with velvet band", FinishKind.SCALLOP, "velvet band"),
        ("Hem", FinishKind.HEM, None),
        ("binding", FinishKind.BINDING, None),
    ],
)
def test_each_finish_is_read_from_its_words(words, kind, elastic):
    made = finish(words)
    assert made.kind is kind
    assert (made.elastic and made.elastic.name) == elastic


def test_a_lace_trim_names_its_lace():
    assert finish("lace trim heron").trim.name == "heron"


@pytest.mark.parametrize(("words", "mm"), [("hem 15 mm", 15.0), ("binding 1", 10.0), ("hem 1/2 in", 12.7)])
def test_a_hem_or_a_binding_may_say_how_wide_it_is(words, mm):
    assert finish(words).wide == mm


@pytest.mark.parametrize(("name", "form"), [("velvet band", "plain"), ("fold-over silk", "fold-over")])
def test_an_elastic_s_form_shows_in_its_name_unless_said(name, form):
    assert finish(name).elastic.form == form


def test_an_elastic_keeps_the_ratios_it_gives_and_no_others():
    assert dict(finish("fold-over silk").elastic.ratio) == {"waist": 0.9}


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ("rope", "must name an elastic"),
        ("scallop behind rope", "must name an elastic"),
        ("scallop with rope", "must name an elastic"),
        ("scalloped", "must name an elastic"),
        ("fold-over", "must name an elastic"),
        ("picot elastic 99 mm", "5 to 25 mm wide"),
        ("lace trim mesh", "must name a lace"),
        ("lace trim", "must name a lace of the brief"),
        ("hem 3 ells", "unit that is not known"),
        ("hem 300 mm", "2 to 50 mm wide"),
    ],
)
def test_words_that_say_no_finish_are_refused(words, told):
    with pytest.raises(BadInput, match=told) as caught:
        finish(words)
    assert [fault.key for fault in caught.value.faults] == ["finish.waist"]


def test_no_elastic_may_take_the_name_of_a_finish():
    with pytest.raises(BadInput, match="which are finishes"):
        read_brief(FULL + '[elastic."hem tape"]\nwidth = 1\nstretch = 50\n', file="b.toml")
