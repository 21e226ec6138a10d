"""A handle of a lace changes the use it belongs to, as the brief counts them."""

from dataclasses import replace

import pytest

from galloon.design import Drops, LaceUse, Lie, OpenSide, Style, Use
from galloon.materials import usual_elastic
from galloon.web.handles import handles_of, move
from galloon.workflow.reckon import make_garment
from tests.support.designs import design, galloon, scalloped


def test_a_use_that_was_left_out_does_not_shift_the_handles_of_the_next():
    uses = (scalloped("back"), scalloped("back", lie=Lie.UPRIGHT), scalloped("front"))
    garment = make_garment(design(uses=list(uses)))
    assert garment.design.lace == (uses[0], uses[2])
    keys = {handle.key for handle in handles_of(garment, uses)}
    assert {"turn-0", "turn-2"} <= keys
    assert "turn-1" not in keys
    assert move(garment, uses, "turn-2", 40.0) == [(("lace", 2, "lie"), "along leg")]


def test_a_lace_slides_freely_and_stays_on_a_peak_or_a_valley_it_comes_near():
    garment = make_garment(design(uses=[scalloped("back")]))
    uses = garment.design.lace
    assert move(garment, uses, "slide-0", 5.0) == [(("lace", 0, "meet"), None), (("lace", 0, "phase"), "5.0 mm")]
    for value, meet in ((83.5, "peak"), (0.4, "peak"), (21.6, "valley")):
        assert move(garment, uses, "slide-0", value) == [(("lace", 0, "meet"), meet), (("lace", 0, "phase"), None)]


@pytest.mark.parametrize("by", [-20.0, -8.0, 3.0, 6.0])
def test_the_point_of_a_v_goes_where_it_is_dragged(by):
    """It hangs on the leg line, which is drafted anew: within 2 mm of the place asked for."""
    use = LaceUse(Use.V_INSET, "heron", ("back",), upper_cloth="mesh")
    style = Style(waist_drop=Drops.level(60.0), leg_raise=40.0)
    garment = make_garment(design(uses=[use], lace=galloon(150.0), style=style))
    handle = next(one for one in handles_of(garment, (use,)) if one.key == "v-0")
    ((path, raised),) = move(garment, (use,), "v-0", handle.value + by)
    assert path == ("style", "leg_raise")
    moved = replace(garment.design, style=replace(style, leg_raise=float(raised.removesuffix(" mm"))))
    assert make_garment(moved).placements[0].figures["v_depth"] == pytest.approx(handle.value + by, abs=2.0)


@pytest.mark.parametrize("end", ["waist", "leg"])
def test_each_end_of_an_open_side_goes_where_it_is_dragged(end):
    plain = design(style=Style(waist_drop=Drops.level(60.0), leg_raise=40.0))
    side = OpenSide(60.0, 60.0, usual_elastic("strap elastic 12 mm"), 2)
    opened = replace(plain, open_side=side, finishes=replace(plain.finishes, side=plain.finishes.waist))
    garment = make_garment(opened)
    handle = next(one for one in handles_of(garment, ()) if one.key == f"gap-{end}")
    ((path, gap),) = move(garment, (), handle.key, handle.value - 5.0 * handle.sign)
    assert path == ("open_side", "gap")
    gaps = {name: float(text.removesuffix(" mm")) for name, text in gap.items()}
    moved = make_garment(replace(opened, open_side=replace(side, **gaps)))
    there = next(one for one in handles_of(moved, ()) if one.key == handle.key)
    assert there.at.real == pytest.approx(handle.at.real - 5.0, abs=2.5)
    assert there.value == pytest.approx(handle.value - 5.0 * handle.sign, abs=0.1)
    assert move(moved, (), handle.key, 60.0) == [(("open_side", "gap"), "60.0 mm")]


def test_sides_that_are_sewn_have_no_gap_to_drag():
    assert not any(one.key.startswith("gap") for one in handles_of(make_garment(design()), ()))
