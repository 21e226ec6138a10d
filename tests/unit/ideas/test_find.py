"""Ideas are what make would make: the same figures, the same refusals, in an order whose first ones differ."""

from dataclasses import replace
from itertools import combinations

import pytest

from galloon.errors import BadValue, CannotMake
from galloon.findings import Status
from galloon.ideas import BEST, Wish, brief_text_of, find_ideas
from galloon.ideas.find import _Task, planned, reckoned_first
from galloon.ideas.look import look_of, unlike
from galloon.ideas.sketch import sketches
from galloon.report import build_report
from galloon.workflow import reckon_brief, reckon_design
from tests.support.idea_stocks import JERSEY, stock

#: A full brief's back on the body, near enough for what is tested here; mm².
WHOLE = 90_000.0


@pytest.fixture(scope="module")
def found():
    return find_ideas(stock(), Wish(most=320))


@pytest.fixture(scope="module")
def few():
    """One sketch of every recipe."""
    listed = sketches(stock(on_hand=700.0), 100_000).kept
    return [[one for one in listed if one.recipe == name][-1] for name in dict.fromkeys(one.recipe for one in listed)]


def test_a_lace_too_narrow_for_a_scalloped_back_comes_up_as_inset_front_panel_or_edge(found):
    first = [idea.sketch.recipe for idea in found.found[:10]]
    assert any("V inset" in name for name in first)
    assert any("front panel" in name for name in first)
    assert any("edge" in name for name in first)
    refused = {reason for reason, _, _ in found.dropped}
    assert "coverage" in refused


def test_the_first_ten_differ(found):
    def apart(one, other):
        share = float(unlike(look_of(one.made.garment), look_of(other.made.garment).grid[None])[0])
        return share > 0.1 or one.sketch.recipe != other.sketch.recipe

    assert all(apart(one, other) for one, other in combinations(found.found[:10], 2))
    assert len({idea.sketch.recipe for idea in found.found[:10]}) >= 7


def test_the_best_have_true_cutting_plans_and_nothing_in_them_fails(found):
    best = found.found[:BEST]
    assert len(best) == BEST
    for idea in best:
        assert idea.made is not None
        assert idea.made.verdict is not Status.FAIL
        assert idea.figures.planned


@pytest.mark.parametrize("number", [0, 3, 7, 12, 19])
def test_an_idea_written_as_a_brief_is_made_with_the_figures_of_the_idea(found, number, tmp_path):
    idea = found.found[number]
    file = tmp_path / "idea.toml"
    file.write_text(brief_text_of(idea), encoding="utf-8")
    made = reckon_brief(str(file))
    report = build_report(made)
    assert report["verdict"] == idea.made.verdict.value
    assert [(row["cloth"], row["need"]) for row in report["shopping"] if row["cloth"] in idea.design.cloths] == [
        (name, pytest.approx(need, abs=0.01)) for name, need in idea.figures.needs
    ]
    assert len(report["sewing"]) == idea.figures.steps
    assert sum(piece["quantity"] for piece in report["pieces"]) == idea.figures.pieces
    assert made.garment.side_seam == pytest.approx(idea.figures.side_seam, abs=1e-6)
    own = build_report(idea.made)
    for key in ("pieces", "lace", "cutting", "elastic"):
        assert rounded(report[key]) == rounded(own[key])


def rounded(value):
    """Report data with figures to 0.001, for the brief's own numbers are written to 1e-9 mm."""
    if isinstance(value, dict):
        return {key: rounded(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [rounded(inner) for inner in value]
    return round(value, 3) + 0.0 if isinstance(value, float) else value


def test_the_first_pass_refuses_just_what_make_fails_and_for_its_first_reason(few):
    for sketch in few:
        outcome = reckoned_first(_Task(sketch, WHOLE, False))
        fails = failing(sketch.design)
        if outcome.reason:
            assert outcome.reason == fails[0], sketch.design.title
        else:
            assert set(fails) <= {"enough on hand"}, sketch.design.title


def failing(design):
    """Names of what make fails, or what it says where it can make nothing."""
    try:
        return [finding.name for finding in reckon_design(design).findings if finding.status is Status.FAIL]
    except BadValue:
        return ["no sound outline"]
    except CannotMake:
        return ["cannot be drawn"]


def test_the_bound_of_the_first_pass_is_never_longer_than_the_plan_of_the_second(few):
    for sketch in few:
        first, second = (work(_Task(sketch, WHOLE, True)) for work in (reckoned_first, planned))
        assert (first.figures is None) == (second.figures is None)
        if first.figures is not None:
            assert all(
                low <= need + 0.01
                for (_, low), (_, need) in zip(first.figures.needs, second.figures.needs, strict=True)
            )
            assert replace(second.figures, planned=False, needs=(), buy=0.0, cost=0.0, warnings=()) == replace(
                first.figures, planned=False, needs=(), buy=0.0, cost=0.0, warnings=()
            )


def test_one_process_and_two_give_the_same_ideas():
    def told(processes):
        ideas = find_ideas(stock(), Wish(most=80, processes=processes))
        return [
            (idea.design.title, idea.figures, idea.score, len(idea.variants)) for idea in ideas.found
        ], ideas.dropped

    assert told(1) == told(2)


def test_where_the_cloth_does_not_suffice_the_idea_is_dropped_unless_she_would_buy():
    short = stock(cloths=(replace(JERSEY, on_hand=100.0),))
    kept = find_ideas(short, Wish(most=40, processes=1))
    assert not kept.found
    assert "enough on hand" in {reason for reason, _, _ in kept.dropped}
    bought = find_ideas(short, Wish(most=40, processes=1, buy=True))
    assert bought.found
    assert all(idea.figures.buy > 0.0 and idea.scores["length"] < 1.0 for idea in bought.found)


def test_stopped_half_way_it_ranks_what_it_has():
    seen = []
    ideas = find_ideas(stock(), Wish(most=60, processes=1), progress=seen.append, cancelled=lambda: len(seen) > 30)
    assert not ideas.whole
    assert 20 <= ideas.reckoned < 60
    assert ideas.found
    assert [now.done for now in seen] == sorted(now.done for now in seen)


def test_what_she_weighs_comes_first():
    def best(**weights):
        wish = Wish({name: weights.get(name, 0.0) for name in Wish().weights}, most=70, processes=1)
        return find_ideas(stock(), wish).found[0]

    easiest, laciest = best(difficulty=1.0), best(lace=1.0)
    assert easiest.figures.steps < laciest.figures.steps
    assert easiest.scores["lace"] < laciest.scores["lace"]
