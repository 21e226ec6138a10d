"""Kept pictures of laces, drawn once by the tests' own generator: each reads as the text beside it says it was drawn.

With UPDATE_GOLDEN=1 the pictures and the texts are drawn and written anew.
"""

import os

import numpy as np
import pytest

from galloon.errors import BadInput
from galloon.reading import load_picture, read_lace
from tests.support import lace_kept
from tests.support.golden import assert_golden

#: How far a figure may lie from what was drawn and still be told as drawn: share and mm, openness as a share of 1.
REACH = {"width": (0.003, 0.15), "pitch": (0.001, 0.03), "depth": (0.02, 0.2), "repeat": (0.002, 0.05)}
OPENNESS = 0.04


@pytest.fixture(scope="module")
def kept():
    if os.environ.get("UPDATE_GOLDEN"):
        for name in (*lace_kept.LACES, *lace_kept.WRONG):
            lace_kept.keep(name)
    return lambda name: load_picture(lace_kept.path_of(name)).pixels


def as_drawn(kind, found, drawn):
    """The figure drawn where the reading lies within reach of it; else both."""
    if drawn is None or found is None:
        return "none" if drawn is found is None else f"{found} where {drawn} was drawn"
    share, mm = REACH[kind]
    if abs(found.value - drawn) <= max(share * drawn, mm):
        return f"{drawn:g} mm"
    return f"{found.value:.2f} mm where {drawn:g} mm was drawn"


def told(reading, truth):
    """The reading in lines; of two edges the deeper first."""
    pitches, depths = (
        [(getattr(reading, f"{edge}_{kind}"), truth[f"{edge}_{kind}"]) for edge in ("scallop", "second")]
        for kind in ("pitch", "depth")
    )
    if None not in (*(found for found, _ in depths), *(drawn for _, drawn in depths)):
        ordered = [sorted(one, key=lambda each: -getattr(each, "value", each)) for one in zip(*depths, strict=True)]
        depths = list(zip(*ordered, strict=True))
    open_ = reading.openness.value

    def alike(name):
        found, drawn = getattr(reading, name), truth[name]
        return (drawn if drawn is not None else "-") if found == drawn else f"{found} where {drawn} was drawn"

    near = abs(open_ - truth["openness"]) <= OPENNESS
    lines = {
        "edges": alike("edges"),
        "width": as_drawn("width", reading.width, truth["width"]),
        "scallop pitch": ", ".join(as_drawn("pitch", *one) for one in pitches if one[0] or one[1]) or "none",
        "scallop depth": ", ".join(as_drawn("depth", *one) for one in depths if one[0] or one[1]) or "none",
        "repeat": as_drawn("repeat", reading.repeat, truth["repeat"]),
        "openness": f"{truth['openness']:.2f}" + ("" if near else f", read as {open_:.2f}"),
        "edges alike": alike("second_edge"),
        "mirror across": alike("mirror_across"),
        "half turn": alike("half_turn"),
        "warnings": ", ".join(doubt.name for doubt in reading.warnings) or "none",
    }
    return "".join(f"{key}: {value}\n" for key, value in lines.items())


@pytest.mark.parametrize("name", lace_kept.LACES)
def test_a_kept_lace_reads_as_it_was_drawn(kept, name):
    scan = lace_kept.drawn(name)
    reading = read_lace(kept(name), mm_per_px=scan.mm_per_px)
    truth = dict(scan.truth, second_pitch=None)
    if scan.lace.second_edge != "other":
        truth["second_depth"] = None
        assert reading.second_depth is None or reading.second_depth.value == pytest.approx(scan.lace.depth, abs=0.2)
    assert_golden(told(reading, truth), f"reading/{name}.txt")


@pytest.mark.parametrize("name", lace_kept.WRONG)
def test_a_kept_picture_of_what_is_no_whole_lace_is_refused_or_warned_by_its_name(kept, name):
    scan = lace_kept.drawn(name)
    try:
        names = [doubt.name for doubt in read_lace(kept(name), mm_per_px=scan.mm_per_px).warnings]
        assert any(name.split()[-1] in one for one in names), names
    except BadInput as error:
        assert [fault.key for fault in error.faults] == [name]  # noqa: PT017


@pytest.mark.parametrize("name", [*lace_kept.LACES, *lace_kept.WRONG])
def test_the_generator_still_draws_the_kept_picture(kept, name):
    drawn, old = (pixels.astype(float) for pixels in (lace_kept.drawn(name).pixels, kept(name)))
    assert drawn.shape == old.shape
    assert np.abs(drawn - old).mean() < 4.0
    assert lace_kept.path_of(name).stat().st_size < 100_000
