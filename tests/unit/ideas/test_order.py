"""Ideas that look alike are folded, and likeness to what is listed already moves an idea down."""

import numpy as np

from galloon.ideas.look import Look
from galloon.ideas.order import Ranked, folded, spread_out


def look(*cells, trims=()):
    return Look(np.array(cells, np.uint8).tobytes(), frozenset(trims), 0.0)


PLAIN = look(*[1] * 20)
NEARLY = look(*[1] * 19, 2)
OTHER = look(*[1] * 10, *[2] * 10)


def test_looks_that_differ_little_are_one_idea_led_by_the_best():
    groups = folded([Ranked(0, "a", PLAIN, 0.5), Ranked(1, "a", NEARLY, 0.6), Ranked(2, "a", OTHER, 0.4)])
    assert [(group.leader.place, [one.place for one in group.variants]) for group in groups] == [(1, [0]), (2, [])]


def test_another_use_or_another_trim_is_another_idea_however_alike():
    edged = look(*[1] * 20, trims=[("waist", "heron")])
    groups = folded([Ranked(0, "a", PLAIN, 0.5), Ranked(1, "b", PLAIN, 0.5), Ranked(2, "a", edged, 0.5)])
    assert [group.leader.place for group in groups] == [0, 1, 2]


def test_an_idea_like_one_already_listed_gives_way_to_a_different_one():
    ideas = [Ranked(0, "a", PLAIN, 0.9), Ranked(1, "a", look(*[1] * 17, *[2] * 3), 0.85), Ranked(2, "b", OTHER, 0.8)]
    assert [group.leader.place for group in spread_out(folded(ideas), 3)] == [0, 2, 1]


def test_after_the_count_the_rest_follow_by_score():
    ideas = [Ranked(place, str(place), PLAIN, 0.1 * place) for place in range(6)]
    assert [group.leader.place for group in spread_out(folded(ideas), 2)] == [5, 4, 3, 2, 1, 0]


def test_equal_scores_keep_the_order_of_the_designs():
    ideas = [Ranked(place, str(place), PLAIN, 0.5) for place in range(5)]
    assert [group.leader.place for group in folded(ideas)] == [0, 1, 2, 3, 4]


def test_no_ideas_are_no_groups():
    assert spread_out(folded([]), 20) == []
