"""The sewing order: no step needs an edge already closed, and at the end every edge is sewn or finished once."""

from dataclasses import replace

import pytest

from galloon.design import Use
from galloon.sewing import replay, sewing_steps
from galloon.sewing.seams import sewable
from tests.support.examples import EXAMPLES, example_garment
from tests.support.sewn_up import loose


@pytest.fixture(scope="module", params=EXAMPLES)
def garment(request):
    return example_garment(request.param)


def test_every_step_finds_its_edges_there_and_open_and_every_edge_is_closed_once(garment):
    steps = sewing_steps(garment)
    assert replay(garment, steps) == ()
    closed = [edge for step in steps for edge in step.edges]
    assert sorted(closed) == sorted(sewable(garment))


def test_any_order_that_keeps_to_the_after_lines_does_as_well(garment):
    assert loose(sewing_steps(garment)) == []


def test_no_step_and_no_text_is_for_work_this_design_does_not_have(garment):
    steps = sewing_steps(garment)
    titles, text = {step.title for step in steps}, " ".join(step.do for step in steps)
    uses = {placement.use for placement in garment.placements}
    assert ("Let in" in " ".join(titles)) == (Use.INSERTION in uses)
    assert ("motif" in " ".join(titles)) == (Use.APPLIQUE in uses)
    linings = [piece for piece in garment.pieces if piece.part.lining]
    assert ("lining" in text) == bool(linings)
    assert not any(step.key.startswith("other") for step in steps)


def test_every_stitched_step_says_stitch_seam_setting_and_pressing(garment):
    for step in sewing_steps(garment):
        if not step.stitch:
            continue
        assert step.setting
        assert step.works
        assert (step.stitch.isdigit() and step.stitch in ("301", "304", "504")) or step.stitch == "3-step zigzag"
        if step.seam_class:
            assert step.seam_class[0] in "12367"
            assert step.pressing
            assert step.allowance or step.trimming or step.key.endswith(" soft")


@pytest.mark.parametrize("fault", ["swapped", "left out", "twice", "begun too soon"])
def test_the_replay_finds_an_order_that_cannot_be_sewn(fault):
    garment = example_garment("dunlin-insertion")
    steps = list(sewing_steps(garment))
    place = next(i for i, step in enumerate(steps) if step.title.startswith("Let in"))
    if fault == "swapped":
        steps[place - 1], steps[place] = steps[place], steps[place - 1]
    elif fault == "left out":
        del steps[place]
    elif fault == "twice":
        steps.append(replace(steps[place], step=len(steps) + 1))
    else:
        steps[place], steps[place + 1] = steps[place + 1], steps[place]
    steps = [replace(step, step=number, needs=()) for number, step in enumerate(steps, 1)]
    assert replay(garment, steps)
