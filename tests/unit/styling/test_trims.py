"""Laces laid on edges never take more cloth than there is: what is too wide is cut less short, and told."""

from dataclasses import replace

from galloon.design import Drops, Finish, Finishes, FinishKind, Shape, Split, Style
from galloon.findings import Status
from galloon.geometry import ring_is_simple
from galloon.sewing import elastic_rows
from galloon.workflow.reckon import make_garment
from tests.support.designs import EDGING, ELASTIC, design

WIDE = replace(EDGING, name="wide", width=70.0)


def trim(cloth):
    return Finish(FinishKind.LACE_TRIM, trim=cloth)


def made(waist, leg, style=None):
    return make_garment(design(finishes=Finishes(waist, leg, leg, leg), style=style or Style()))


def failed(garment, name):
    return [note for note in garment.notes if note.name == name and note.status is Status.FAIL]


def test_a_trim_too_wide_for_the_leg_fails_with_its_limit_and_is_cut_for_that():
    garment = made(ELASTIC, trim(WIDE))
    (first, *_) = failed(garment, "lace trim too wide")
    assert (first.value, first.limit) == (70.0, 25.0)
    assert garment.piece("gusset").edge("leg").allowance == -17.0
    assert all(ring_is_simple(piece.cut) for piece in garment.pieces)
    assert elastic_rows(garment)[1].kind == "lace trim wide"


def test_waist_and_leg_trims_leave_cloth_between_them():
    style = Style(Shape.THONG, Drops.level(70.0), 80.0)
    garment = made(trim(replace(EDGING, width=45.0)), trim(replace(EDGING, width=24.0)), style)
    assert failed(garment, "lace trim too wide")
    back = garment.piece("back")
    strip = min(z.real for z in back.edge_points("leg"))
    assert strip + back.edge("leg").allowance >= 5.0 - 1e-6


def test_a_trim_that_fits_says_nothing_and_laps_as_usual():
    garment = made(trim(EDGING), trim(EDGING))
    assert not failed(garment, "lace trim too wide")
    assert garment.piece("front").edge("waist").allowance == -10.0


def test_a_style_line_under_the_waist_s_trim_is_not_cut():
    across = Split("front", ((-50.0, -100.0), (500.0, -95.0)))
    style = Style(waist_drop=Drops.level(60.0), splits=(across,))
    garment = made(trim(replace(EDGING, width=48.0)), ELASTIC, style)
    assert failed(garment, "style line")
    assert {piece.name for piece in garment.outer} == {"front", "back", "gusset"}
    narrow = made(trim(EDGING), ELASTIC, style)
    assert not failed(narrow, "style line")
    assert "upper front" in {piece.name for piece in narrow.outer}
