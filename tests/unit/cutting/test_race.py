import math

import pytest

from galloon.cutting.cloth import race as racing
from galloon.cutting.cloth.race import Race

SQUARE = {"id": "square", "shape": [(0, 0), (100, 0), (100, 100), (0, 100)], "demand": 6, "orientations": [0.0]}
TASK = {"height": 200.02, "seconds": 2, "items": [SQUARE]}


def heard(race):
    """Everything proposed until the searches end by themselves."""
    found = []
    while race.running:
        found += race.news().values()
    return found


def test_layouts_are_heard_of_until_the_searches_end():
    with Race(TASK, 2.0) as race:
        assert race.running == 2
        found = heard(race)
    assert min(one["width"] for one in found) == pytest.approx(300.0, abs=1.0)
    assert all(len(one["placed"]) == 6 for one in found)


def test_searches_that_fall_behind_are_ended(monkeypatch):
    monkeypatch.setattr(racing, "_LEAST", 0.0)
    monkeypatch.setattr(racing, "_GO_ON", ((0.0, 3),))
    with Race({**TASK, "seconds": 600}, 600.0) as race:
        assert race.running == 6
        race.news()
        assert race.running == 3
    assert race.running == 0


def test_the_search_with_the_longest_layout_is_ended_first(monkeypatch):
    monkeypatch.setattr(racing, "_SEEDS", (1, 2, 3))
    monkeypatch.setattr(racing, "_LEAST", 0.0)
    monkeypatch.setattr(racing, "_GO_ON", ((0.0, 2),))
    with Race({**TASK, "seconds": 600}, 600.0) as race:
        race._shortest.update({1: 310.0, 2: math.inf, 3: 305.0})
        race.news()
        assert sorted(race._running) == [1, 3]
