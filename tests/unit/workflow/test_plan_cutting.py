"""The maker's wishes for the cutting plan, and the longer search of one cloth."""

from __future__ import annotations

from dataclasses import replace

import pytest

from galloon.design import CuttingWishes
from galloon.errors import BadValue, CannotMake
from galloon.workflow import make_garment
from galloon.workflow.job import reckon_design
from galloon.workflow.plan_cutting import Longer, plan_cutting, plan_longer
from tests.support.designs import design, galloon, scalloped


def plan(cloth, wishes=None, **facts):
    made = replace(design(uses=(scalloped(),), lace=galloon(**facts)), cutting=wishes or CuttingWishes())
    return next(row.plan for row in plan_cutting(make_garment(made))[0] if row.cloth == cloth)


def test_the_reading_order_is_never_shorter():
    assert plan("heron", CuttingWishes(order="reading")).length >= plan("heron").length


def test_an_accepted_difference_of_motif_is_said_and_never_takes_more():
    loose = plan("heron", CuttingWishes(unmatched=True))
    assert "may come out different" in loose.says
    assert loose.length <= plan("heron").length + 1e-6


def test_centred_pieces_have_their_middle_within_half_a_scallop_of_a_motif():
    centred = plan("heron", CuttingWishes(centre_motif=True))
    for placed in centred.placed:
        xs = [x for x, _ in placed.outline]
        off = ((min(xs) + max(xs)) / 2 + centred.start) % 84.0
        assert min(off, 84.0 - off) <= 21.0 + 1e-6


def test_on_folded_cloth_halves_lie_on_the_fold():
    folded = plan("mesh", CuttingWishes(fold=("mesh",)))
    assert folded.folded
    assert folded.width == 750.0
    front = next(placed for placed in folded.placed if placed.piece == "front")
    assert front.edge == "fold"
    assert min(y for _, y in front.outline) == pytest.approx(0.0)


def test_a_repeat_near_a_whole_number_of_pitches_is_planned():
    assert plan("heron", repeat=84.5).proven


def test_the_longer_search_is_told_of_and_never_longer():
    garment, heard = make_garment(design(uses=(scalloped(),))), []
    found = plan_longer(garment, "heron", seconds=5.0, progress=heard.append)
    assert found.length <= plan("heron").length + 1e-6
    rows, _ = plan_cutting(garment, Longer(5.0, cancelled=lambda: True))
    assert {row.cloth for row in rows} == {"heron", "mesh"}
    with pytest.raises(CannotMake, match="no piece"):
        plan_longer(garment, "silk", seconds=1.0)


def test_a_lace_cannot_be_folded_and_wishes_must_agree():
    with pytest.raises(BadValue, match="no lace"):
        replace(design(uses=(scalloped(),)), cutting=CuttingWishes(fold=("heron",)))
    with pytest.raises(BadValue):
        CuttingWishes(centre_motif=True, unmatched=True)


def test_more_pieces_than_could_ever_fit_are_told_with_the_areas_and_not_searched_longer():
    tight = design(uses=(scalloped(),), lace=galloon())
    cloths = {name: replace(cloth, on_hand=20.0) for name, cloth in tight.cloths.items()}
    garment = make_garment(replace(tight, cloths=cloths))
    begun = []
    longer = Longer(60.0, lambda name, now: begun.append(name))
    rows, findings = plan_cutting(garment, longer)
    told = [one for one in findings if "however they are laid" in one.says]
    assert {one.about for one in told} == {f"cloth {row.cloth}" for row in rows}
    assert all("cm² too little" in one.says for one in told)
    assert begun == []


def test_what_is_on_hand_must_do_before_the_first_wash():
    made = design(uses=(scalloped(),), lace=galloon())
    length = next(row.plan.length for row in plan_cutting(make_garment(made))[0] if row.cloth == "mesh")
    for spare, wanted in ((1.0, "fail"), (7.0, "pass")):
        cloth = replace(made.cloths["mesh"], shrink_length=0.05, on_hand=length * (1.0 + spare / 100.0))
        reckoned = reckon_design(replace(made, cloths={**made.cloths, "mesh": cloth}))
        told = [one for one in reckoned.findings if (one.name, one.about) == ("enough on hand", "cloth mesh")]
        assert [one.status.value for one in told] == [wanted]
        bought = next(row for row in reckoned.shopping if row.cloth == "mesh")
        assert (bought.buy == 0.0) == (wanted == "pass")
