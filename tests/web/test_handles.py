"""A handle of a lace changes the use it belongs to, as the brief counts them."""

from galloon.design import Lie
from galloon.web.handles import handles_of, move
from galloon.workflow.reckon import make_garment
from tests.support.designs import design, scalloped


def test_a_use_that_was_left_out_does_not_shift_the_handles_of_the_next():
    uses = (scalloped("back"), scalloped("back", lie=Lie.UPRIGHT), scalloped("front"))
    garment = make_garment(design(uses=list(uses)))
    assert garment.design.lace == (uses[0], uses[2])
    keys = {handle.key for handle in handles_of(garment, uses)}
    assert {"turn-0", "turn-2"} <= keys
    assert "turn-1" not in keys
    assert move(garment, uses, "turn-2", 40.0) == [(("lace", 2, "lie"), "along leg")]
