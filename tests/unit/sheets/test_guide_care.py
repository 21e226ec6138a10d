"""Fibre worksheet, and laces laid on edges: in every part of the guide where a maker looks for them."""

import re

import pypdfium2
import pytest

from galloon.drawing import paper as paper_of
from galloon.sewing import fibres, make_up
from galloon.sheets import guide_pdf
from tests.unit.sheets.test_guide import matter_of


def pages_of(name, sheet="letter"):
    read = pypdfium2.PdfDocument(guide_pdf(matter_of(name), paper_of(sheet)))
    return [re.sub(r"\s+", " ", page.get_textpage().get_text_bounded()) for page in read]


def test_with_every_weight_told_the_fibres_of_the_whole_are_reckoned():
    matter = matter_of("heron-hipster")
    parts = make_up(matter.garment, matter.elastics)
    whole = " ".join(pages_of("heron-hipster"))
    told = re.search(r"All of it by weight: (.*?); (\d+) g in all\.", whole)
    percents = {name: int(share) for share, name in re.findall(r"(\d+) % (\w+)", told[1])}
    assert sum(percents.values()) == 100
    assert list(percents.values()) == sorted(percents.values(), reverse=True)
    for name, share in fibres(parts).items():
        assert percents[name] == pytest.approx(100 * share, abs=1.0)
    assert int(told[2]) == pytest.approx(sum(part.weight for part in parts), abs=0.5)
    rows = [float(grams) for grams in re.findall(r"(\d+\.\d) g \d+ %", whole)]
    assert sum(rows) == pytest.approx(sum(part.weight for part in parts), abs=0.3)
    assert "not told" not in whole


def test_what_is_not_told_stays_a_blank():
    whole = " ".join(pages_of("wren-overlay"))
    assert "not told: ____" in whole
    assert "by weight: ____" in whole
    assert " g in all" not in whole


@pytest.mark.parametrize(("name", "lace"), [("avocet-edging", "avocet"), ("curlew-band", "curlew")])
def test_a_lace_laid_on_edges_is_on_the_label_washed_and_listed_with_what_to_cut(name, lace):
    cover, *rest = pages_of(name)
    whole = " ".join(rest)
    assert re.search(rf"cloths: [\w, ]*\b{lace}\b", cover)
    assert f"Wash the {lace} first" in whole
    assert f"Lay the {lace} flat" in whole
    assert re.search(rf"{lace}: \d × [\d.]+ cm, [\d.]+ cm wide, for the", whole)
    assert "lace trim" not in whole
    assert "Here that is the lace." in whole


def test_no_allowance_is_told_as_less_than_nothing():
    for name in ("avocet-edging", "sanderling-trim"):
        whole = " ".join(pages_of(name))
        assert not re.search(r"Allowance: -", whole)
        assert "mm inside the finished edge" in whole


def test_a_lining_behind_a_scallop_is_sewn_down():
    matter = matter_of("lapwing-front")
    step = next(step for step in matter.steps if "front lining/leg" in step.edges)
    assert step.stitch == "304"
    assert "front lining" in step.do
    assert "waist: scallop, no elastic" in " ".join(pages_of("siskin-panel"))


def test_the_pins_of_an_elastic_on_half_the_waist_name_the_right_side_seams():
    row = next(row for row in matter_of("siskin-panel").elastics if row.opening == "waist")
    assert [mark.at for mark in row.marks] == ["right side seam", "centre back", "left side seam"]
