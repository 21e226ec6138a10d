"""A clean ribbon, a little turned: its threads pass for a repeat, and it has hardly any holes."""

import numpy as np
import pytest

from galloon.errors import BadInput
from galloon.reading import read_lace
from tests.support import lace_kept
from tests.support import lace_looks as looks
from tests.support import lace_traps as traps


def said_against(pixels, **scale):
    try:
        return [doubt.name for doubt in read_lace(pixels, **scale).warnings]
    except BadInput as error:
        return [fault.key for fault in error.faults]


@pytest.mark.parametrize("seed", [1002, 1004, 1006, 1011])
def test_a_clean_striped_ribbon_is_refused_or_told(seed):
    rng, mpp = np.random.default_rng(seed), 25.4 / lace_kept.DPI
    alpha = traps._alpha("ribbon", (520, 380), mpp, rng)
    look = looks.Look(lace_kept.LIGHT, lace_kept.DARK, "plain", 1.0, 0.0, 0.0, 0.0, 0.45, 0.0, None, 0.0)
    assert {"ribbon", "no lace"} & set(said_against(looks.expose(alpha, look, mpp, rng), mm_per_px=mpp))
