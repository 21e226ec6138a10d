"""Scores reward what they say, and weights are read or refused with every fault at once."""

from dataclasses import replace

import pytest

from galloon.design import Coverage
from galloon.errors import BadInput
from galloon.ideas.figures import Figures
from galloon.ideas.look import Look
from galloon.ideas.scores import MEANING, WEIGHTS, scores, total, weights_of

FIGURES = Figures(0.8, 120.0, (60.0, 60.0, 60.0), (), True, 0.0, 4.0, 0.5, 0.4, 12, 5, ())
LOOK = Look(b"", frozenset(), 0.2)


def named(figures=FIGURES, look=LOOK, wanted=Coverage.FULL):
    return scores(figures, look, wanted, 10.0)


@pytest.mark.parametrize(
    ("score", "worse"),
    [
        ("coverage", {"back": 0.5}),
        ("leftovers", {"scraps": 0.1}),
        ("length", {"buy": 300.0}),
        ("cost", {"cost": 9.0}),
        ("comfort", {"strain": 0.9}),
        ("comfort", {"warnings": ("side seams sit at the side",)}),
        ("difficulty", {"steps": 18}),
    ],
)
def test_each_score_falls_with_its_own_figure_and_no_other(score, worse):
    good, bad = named(), named(replace(FIGURES, **worse))
    assert bad[score] < good[score]
    assert {name for name in good if good[name] != bad[name]} == {score}


def test_lace_at_the_edges_alone_counts_and_lace_all_over_counts_most():
    bare, edged, whole = (
        named(look=Look(b"", trims, share))["lace"]
        for trims, share in ((frozenset(), 0.0), (frozenset({("waist", "heron")}), 0.0), (frozenset(), 0.9))
    )
    assert bare == 0.0 < edged < whole == 1.0


def test_more_than_wanted_is_a_fault_unless_full_is_wanted():
    much = replace(FIGURES, back=1.0)
    assert named(much)["coverage"] == 1.0
    assert named(much, wanted=Coverage.MEDIUM)["coverage"] < 0.5
    assert named(replace(FIGURES, back=0.65), wanted=Coverage.MEDIUM)["coverage"] == 1.0


def test_all_scores_lie_between_nothing_and_one():
    wild = replace(FIGURES, back=4.0, buy=1e6, cost=50.0, scraps=2.0, strain=9.0, steps=99, pieces=40)
    for value in named(wild, wanted=Coverage.LOW).values():
        assert value <= 1.0
    assert all(named(wild)[name] >= 0.0 for name in ("coverage", "comfort", "difficulty", "lace"))


def test_the_total_is_the_weighed_mean():
    one = dict.fromkeys(WEIGHTS, 0.0) | {"comfort": 1.0}
    assert total(one, dict.fromkeys(WEIGHTS, 1.0)) == pytest.approx(1.0 / len(WEIGHTS))
    assert total(one, dict.fromkeys(WEIGHTS, 0.0) | {"comfort": 3.0}) == 1.0


def test_every_score_has_its_meaning_in_words():
    assert set(MEANING) == set(WEIGHTS)


def test_weights_given_take_the_place_of_the_usual():
    assert weights_of(["Comfort = 3", "cost=0"]) == {**WEIGHTS, "comfort": 3.0, "cost": 0.0}


@pytest.mark.parametrize("given", ["colour=2", "comfort", "comfort=x", "comfort=-1", "comfort=nan", "comfort=1e9", "="])
def test_a_weight_that_cannot_be_used_is_refused_with_what_was_seen(given):
    with pytest.raises(BadInput) as told:
        weights_of([given])
    assert "--weigh" in str(told.value)


def test_every_fault_is_told_at_once_and_no_weight_at_all_is_refused():
    with pytest.raises(BadInput) as told:
        weights_of(["colour=2", "comfort=-1"])
    assert len(told.value.faults) == 2
    with pytest.raises(BadInput, match="must not all weigh nothing"):
        weights_of([f"{name}=0" for name in WEIGHTS])
