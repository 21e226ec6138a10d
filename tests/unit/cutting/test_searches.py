import pytest

from galloon.cutting.cloth.searches import Searches

SQUARE = {"id": "square", "shape": [(0, 0), (100, 0), (100, 100), (0, 100)], "demand": 6, "orientations": [0.0]}
TASK = {"height": 200.02, "seconds": 2, "items": [SQUARE]}


def test_layouts_are_heard_of_until_the_searches_end():
    found = []
    with Searches(TASK) as searches:
        assert searches.running == 1
        while searches.running:
            found += searches.news().values()
    assert min(one["width"] for one in found) == pytest.approx(300.0, abs=1.0)
    assert all(len(one["placed"]) == 6 for one in found)


def test_leaving_ends_every_search():
    with Searches({**TASK, "seconds": 600}) as searches:
        processes = list(searches._running.values())
        assert all(process.poll() is None for process in processes)
    assert searches.running == 0
    assert all(process.poll() is not None for process in processes)
