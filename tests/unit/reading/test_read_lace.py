"""Laces drawn with known measures are read back within reach; what is no whole lace is refused or doubted by name."""

from functools import cache

import numpy as np
import pytest

from galloon.errors import BadInput
from galloon.reading import as_toml_block, motif_outlines, overlay, read_lace
from tests.support import lace_photos, lace_scans, lace_traps
from tests.support.golden import assert_golden

#: Relative and millimetre reach of width, pitch and depth.
REACH = {
    "easy": ((0.003, 0.15), (0.001, 0), (0.02, 0.2)),
    "medium": ((0.003, 0.15), (0.001, 0), (0.02, 0.2)),
    "hard": ((0.006, 0.3), (0.005, 0), (0.03, 0.3)),
    "card": ((0.01, 0), (0.01, 0), (0.03, 0.3)),
}
FIGURES = ("width", "scallop_pitch", "scallop_depth")


@cache
def lace(edges="double scallop", *, width=90.0, pitch=20.0, depth=6.0, **changes):
    return lace_scans.plain_lace(width, pitch, depth, edges, **changes)


def near(reading, truth, level):
    for name, (share, mm) in zip(FIGURES, REACH[level], strict=True):
        assert getattr(reading, name).value == pytest.approx(truth[name], rel=share, abs=mm or 1e-9), name


@pytest.mark.parametrize("level", ["medium", "hard"])
@pytest.mark.parametrize("changes", [{}, {"fringe": 7.0}, {"family": "two-lobe", "second_family": "two-lobe"}])
def test_a_hard_scan_is_never_grossly_wrong_without_a_warning(level, changes):
    drawn = lace_scans.scan(3, level, lace=lace(**changes), dpi=150)
    found = read_lace(drawn.pixels, mm_per_px=drawn.mm_per_px)
    wrong = [name for name in FIGURES if abs(getattr(found, name).value / drawn.truth[name] - 1) > 0.05]
    assert found.warnings or not wrong


@pytest.mark.parametrize("changes", [{}, {"fringe": 7.0}, {"family": "two-lobe", "second_family": "two-lobe"}])
def test_an_easy_scan_is_read_within_reach(changes):
    drawn = lace_scans.scan(3, "easy", lace=lace(**changes), dpi=150)
    found = read_lace(drawn.pixels, mm_per_px=drawn.mm_per_px)
    assert not found.warnings
    near(found, drawn.truth, "easy")
    assert found.repeat.value == pytest.approx(40.0, rel=0.005)
    assert (found.edges, found.mirror_across, found.second_edge, found.half_turn) == (
        "double scallop", True, "mirror", True,
    )  # fmt: skip
    assert found.openness.value == pytest.approx(drawn.truth["openness"], abs=0.04)


@pytest.mark.parametrize("seed", [2, pytest.param(4, marks=pytest.mark.slow)])
def test_a_photo_beside_a_card_is_read_within_one_percent(seed):
    drawn = lace_photos.photo(seed, "medium")
    found = read_lace(drawn.pixels, card=True)
    near(found, drawn.truth, "card")


def test_a_photo_without_a_card_is_refused():
    drawn = lace_photos.photo(2, "easy", card=False)
    with pytest.raises(BadInput, match="no card found"):
        read_lace(drawn.pixels, card=True)


@pytest.mark.slow
def test_a_card_seen_from_the_side_is_refused_or_doubted():
    drawn = lace_photos.photo(2, "easy", tilt=40)
    try:
        names = [doubt.name for doubt in read_lace(drawn.pixels, card=True).warnings]
    except BadInput as error:
        names = [fault.key for fault in error.faults]
    assert {"card foreshortened", "no card found"} & set(names)


@pytest.mark.parametrize("kind", lace_traps.NOT_LACE + lace_traps.WRONG)
def test_what_is_no_whole_lace_never_gives_a_bare_number(kind):
    drawn = lace_traps.trap(kind, 40, "medium")
    try:
        assert read_lace(drawn.pixels, mm_per_px=drawn.mm_per_px).warnings
    except BadInput as error:
        assert [fault.key for fault in error.faults]  # noqa: PT017


def test_turned_upside_down_it_is_the_same_lace():
    drawn = lace_scans.scan(3, "easy", lace=lace(), dpi=150)
    one, two = (
        read_lace(np.ascontiguousarray(pixels), mm_per_px=drawn.mm_per_px)
        for pixels in (drawn.pixels, drawn.pixels[::-1, ::-1])
    )
    for name in (*FIGURES, "repeat"):
        assert getattr(one, name).value == pytest.approx(getattr(two, name).value, rel=0.003)


def test_scale_must_be_said_exactly_once_and_in_reason():
    pixels = np.zeros((100, 100, 3), np.uint8)
    for how in ({}, {"dpi": 300, "card": True}, {"dpi": 3}, {"dpi": 1e6}, {"mm_per_px": float("nan")}):
        with pytest.raises(BadInput):
            read_lace(pixels, **how)
    with pytest.raises(BadInput, match="too small"):
        read_lace(np.zeros((20, 20, 3), np.uint8), dpi=300)


def test_one_repeat_is_kept_straight_and_to_scale_with_its_motifs():
    drawn = lace_scans.scan(3, "easy", lace=lace(), dpi=150)
    found = read_lace(drawn.pixels, mm_per_px=drawn.mm_per_px)
    kept = found.straightened
    assert kept.pixels.shape[1] * kept.mm_per_px == pytest.approx(40, abs=0.3)
    assert kept.pixels.shape[0] * kept.mm_per_px == pytest.approx(90, abs=0.4)
    outlines = motif_outlines(found)
    assert outlines
    assert all(len(ring) >= 3 and np.ptp(ring, axis=0).max() >= 6 for ring in outlines)
    assert overlay(drawn.pixels, found, 600).shape[1] <= 600


def test_the_block_reads_as_kept():
    drawn = lace_scans.scan(3, "easy", lace=lace(), dpi=150)
    block = as_toml_block(read_lace(drawn.pixels, mm_per_px=drawn.mm_per_px), "test", "cm")
    short = [line.split("#")[0].rstrip() if "=" in line.split("#")[0] else line for line in block.splitlines()]
    assert_golden("\n".join(_to_a_tenth(line) for line in short) + "\n", "reading/block.txt")


def _to_a_tenth(line):
    key, sign, value = line.partition(" = ")
    try:
        return f"{key} = {float(value):.1f}"
    except ValueError:
        return key + sign + value
