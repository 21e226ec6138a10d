"""What the garment is made up of by weight: areas of the pieces, lengths of the elastics, fibres of all."""

from dataclasses import replace

import pytest

from galloon.materials import usual_elastic
from galloon.sewing import elastic_rows, fibres, make_up
from galloon.workflow.reckon import make_garment
from tests.support.examples import example_garment
from tests.support.garments import garments


def told(garment, *, cloth, elastic):
    """The garment with weights and fibres for every cloth and elastic."""
    design = garment.design
    cloths = {name: replace(one, weight=cloth, fibre="100 % cotton") for name, one in design.cloths.items()}
    finishes = design.finishes
    for zone, finish in design.finishes:
        if finish.elastic is not None:
            own = replace(finish.elastic, weight=elastic, fibre="60 % polyamide, 40 % elastane")
            finishes = replace(finishes, **{zone: replace(finish, elastic=own)})
    return make_garment(replace(design, cloths=cloths, finishes=finishes))


def test_every_piece_counts_as_often_as_it_is_cut():
    garment = garments()["along leg"]
    parts = {each.name: each for each in make_up(garment, elastic_rows(garment))}
    halves = {"front": 2, "gusset": 2, "back": 2, "gusset lining": 2}
    for name, each in parts.items():
        if each.area is not None:
            area = sum(piece.area * halves[piece.name] for piece in garment.pieces if piece.part.cloth == name)
            assert each.area == pytest.approx(area, rel=1e-9)
    assert [each.where for each in parts.values() if each.name == "heron"] == [("back",)]


def test_weights_follow_from_area_and_length():
    garment = told(garments()["plain"], cloth=200.0, elastic=8.0)
    parts = make_up(garment, elastic_rows(garment))
    for each in parts:
        if each.length is None:
            assert each.weight == pytest.approx(each.area / 1e6 * 200.0)
        else:
            assert each.weight == pytest.approx(each.length / 1000.0 * 8.0)
    cotton = sum(each.weight for each in parts if each.length is None)
    bands = sum(each.weight for each in parts if each.length is not None)
    expected = {"cotton": cotton, "polyamide": 0.6 * bands, "elastane": 0.4 * bands}
    assert fibres(parts) == pytest.approx({name: grams / (cotton + bands) for name, grams in expected.items()})


def test_what_is_not_told_is_left_out_and_not_guessed():
    garment = garments()["plain"]
    parts = make_up(garment, elastic_rows(garment))
    assert all(each.weight is None for each in parts)
    assert fibres(parts) == {}
    assert usual_elastic("picot elastic 8 mm").weight is None


def test_a_galloon_slit_in_two_is_called_by_its_own_name_and_weighed_as_a_lace():
    garment = example_garment("avocet-edging")
    cloths = {name: replace(one, weight=100.0) for name, one in garment.design.cloths.items()}
    garment = make_garment(replace(garment.design, cloths=cloths))
    edging = next(each for each in make_up(garment, elastic_rows(garment)) if each.name == "edging of avocet")
    # Two edgings 20 mm wide, each as long as a leg: the whole width of the galloon, 40 mm, times that length.
    row = next(row for row in elastic_rows(garment) if row.opening == "leg")
    assert edging.area == pytest.approx(row.cut_length * garment.design.cloths["avocet"].width)
    assert edging.weight == pytest.approx(edging.area / 1e6 * 100.0)


def test_a_strap_across_an_open_side_weighs_what_the_maker_told():
    garment = example_garment("stilt-straps")
    side = garment.design.open_side
    strap = replace(side.elastic, weight=10.0, fibre="100 % polyester")
    garment = make_garment(replace(garment.design, open_side=replace(side, elastic=strap)))
    rows = elastic_rows(garment)
    found = next(each for each in make_up(garment, rows) if each.name == strap.name)
    length = sum(row.cut_length * row.count for row in rows if row.kind == strap.name)
    assert (found.weight, found.shares) == (pytest.approx(length / 1000.0 * 10.0), {"polyester": 1.0})
