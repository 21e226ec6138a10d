"""What a cloth is made of, read from what the maker wrote, and several cloths mixed by weight."""

import pytest

from galloon.errors import BadValue
from galloon.materials import fibre_shares, fibre_text, mixed, whole_percents
from galloon.units import G_PER_M, G_PER_M2, parse_weight


@pytest.mark.parametrize(
    ("text", "shares"),
    [
        ("82 % polyamide, 18 % elastane", {"polyamide": 0.82, "elastane": 0.18}),
        ("Polyamide 82%; Elastane 18%", {"polyamide": 0.82, "elastane": 0.18}),
        ("78,5 % polyamide, 21,5 % elastane", {"polyamide": 0.785, "elastane": 0.215}),
        ("100 % cotton", {"cotton": 1.0}),
        ("50 % cotton and 50 % cotton", {"cotton": 1.0}),
    ],
)
def test_shares_are_read_however_they_are_written(text, shares):
    assert fibre_shares(text) == pytest.approx(shares)


@pytest.mark.parametrize("text", ["", "cotton", "90 % cotton", "90 % cotton, elastane", "silk 40 %, 70 % wool", "%"])
def test_what_does_not_add_up_gives_no_shares(text):
    assert fibre_shares(text) == {}


def test_shares_written_out_are_read_again():
    shares = {"elastane": 0.125, "modal": 0.875}
    assert fibre_text(shares) == "87.5 % modal, 12.5 % elastane"
    assert fibre_shares(fibre_text(shares)) == pytest.approx(shares)


def test_parts_are_mixed_by_what_they_weigh():
    # 10 g of 80/20 and 30 g of pure cotton: 8 g, 2 g and 30 g of 40 g.
    mix = mixed([(10.0, {"polyamide": 0.8, "elastane": 0.2}), (30.0, {"cotton": 1.0})])
    assert mix == pytest.approx({"cotton": 0.75, "polyamide": 0.2, "elastane": 0.05})
    assert list(mix) == ["cotton", "polyamide", "elastane"]
    assert mixed([]) == {}


def test_two_names_of_one_fibre_are_one_fibre():
    mix = mixed([(10.0, {"polyamide": 0.9, "elastane": 0.1}), (10.0, {"nylon": 0.8, "spandex": 0.2})])
    assert mix == pytest.approx({"polyamide": 0.85, "elastane": 0.15})


def test_whole_percents_add_up_to_a_hundred():
    assert whole_percents({"a": 1 / 3, "b": 1 / 3, "c": 1 / 3}) == {"a": 34, "b": 33, "c": 33}
    assert whole_percents({"a": 0.804, "b": 0.196}) == {"a": 80, "b": 20}
    assert whole_percents({}) == {}


@pytest.mark.parametrize(
    ("given", "grams"),
    [
        (180, 180.0),
        ("180 g/m2", 180.0),
        ("180 g/m²", 180.0),
        ("175,5 gsm", 175.5),
        ("5.3 oz/yd2", 179.700),
        ("6 OZ/YD2", 203.435),
    ],
)
def test_weight_of_a_square_metre_is_read_in_any_unit(given, grams):
    # One avoirdupois ounce is 28.349523125 g, one yard 0.9144 m, both by definition.
    assert parse_weight(given, G_PER_M2) == pytest.approx(grams, abs=0.01)


@pytest.mark.parametrize("given", ["180", "180 g", "180 g/m", "heavy", True, float("nan"), None, [180]])
def test_another_weight_is_refused(given):
    with pytest.raises(BadValue, match="180 g/m2"):
        parse_weight(given, G_PER_M2)


def test_weight_of_a_metre_of_elastic():
    assert parse_weight("0.2 oz/yd", G_PER_M) == pytest.approx(6.2007, abs=1e-3)
