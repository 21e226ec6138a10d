"""The table of edge finishes against the facts of the trade, and what each finish makes of a garment's edges.

Ranges and vectors: common practice, no source, unless a line names one. Sewn on a home sewer's picot panties, 2001:
ends lapped about 9.5 mm; an unnamed craft page on swim legs: front leg 1:1, back leg 0.75, read before it is doubted.
"""

import pytest

from galloon import defaults
from galloon.checks import Evidence, judge
from galloon.design import Drops, Finish, Finishes, FinishKind, GussetPlan, Style
from galloon.findings import Status
from galloon.materials import Elastic, usual_elastic
from galloon.sewing import cut_length, elastic_rows, sewing_steps
from galloon.styling import FINISH_TABLE, asked_ratio, edge_allowance, finish_row, trim_lap
from galloon.workflow.reckon import make_garment
from tests.support.designs import EDGING, ELASTIC, design

#: Least and most ratio at waist, front leg and back leg.
RANGES = {
    "turned elastic": ((0.85, 0.92), (0.95, 1.00), (0.80, 0.90)),
    "fold-over": ((0.88, 0.95), (0.95, 1.00), (0.85, 0.95)),
    "lace trim": ((0.90, 1.00), (1.00, 1.00), (0.90, 1.00)),
}
ZONES = ("waist", "front_leg", "back_leg")


def of(name, kind=FinishKind.ELASTIC):
    return Finish(kind, usual_elastic(name))


TRIM = Finish(FinishKind.LACE_TRIM, trim=EDGING)
EVERY = {
    "turned elastic": of("picot elastic 10 mm"),
    "fold-over": of("fold-over elastic 15 mm", FinishKind.FOLD_OVER),
    "lace trim": TRIM,
    "strap": of("strap elastic 12 mm", FinishKind.STRAP),
    "scallop with soft elastic": of("clear elastic 6 mm", FinishKind.SCALLOP),
    "scallop": Finish(FinishKind.SCALLOP),
    "hem": Finish(FinishKind.HEM, wide=8.0),
    "binding": Finish(FinishKind.BINDING, wide=7.0),
}


def test_every_finish_has_its_line_with_a_source():
    assert set(EVERY) == set(FINISH_TABLE)
    for name, finish in EVERY.items():
        row = finish_row(finish)
        assert row is FINISH_TABLE[name]
        assert row.source
        assert row.beyond


@pytest.mark.parametrize("name", RANGES)
def test_the_ratios_of_the_table_are_the_trade_s(name):
    for zone, (least, most) in zip(ZONES, RANGES[name], strict=True):
        ratio = FINISH_TABLE[name].ratios[zone]
        assert (ratio.low, ratio.high) == (least, most)
        assert least <= ratio.usual <= most
        assert least <= asked_ratio(EVERY[name], zone) <= most


def test_a_strap_is_its_span_on_the_body_over_1_10_to_1_20():
    ratio = FINISH_TABLE["strap"].ratios["waist"]
    assert ratio.low == pytest.approx(1 / 1.20, abs=0.005)
    assert ratio.high == pytest.approx(1 / 1.10, abs=0.005)
    assert FINISH_TABLE["strap"].overlap == pytest.approx(2 * 12.0)


@pytest.mark.parametrize(
    ("finish", "beyond"),
    [
        (of("picot elastic 10 mm"), 8.0),
        (of("plush elastic 10 mm"), 10.0),
        (of("plain elastic 6 mm"), 6.0),
        (EVERY["fold-over"], 0.0),
        (TRIM, -10.0),
        (EVERY["strap"], 0.0),
        (EVERY["scallop"], 0.0),
        (EVERY["scallop with soft elastic"], 0.0),
        (EVERY["hem"], 8.0),
        (EVERY["binding"], 0.0),
    ],
)
def test_cloth_beyond_the_finished_edge(finish, beyond):
    """Turned: the flat band without its picot of 2 mm; fold-over: none, the edge lies in the fold; a trim of 18 mm laps
    8 mm over the cloth, which is cut 10 mm short.
    """
    assert edge_allowance(finish) == pytest.approx(beyond)


def test_a_trim_laps_5_to_10_mm_over_the_cloth():
    assert 5.0 <= trim_lap(TRIM) <= 10.0
    assert EDGING.width + edge_allowance(TRIM) == pytest.approx(trim_lap(TRIM))


@pytest.mark.parametrize(
    ("name", "stitches", "seam_class"),
    [
        ("turned elastic", ("304", "3-step zigzag"), "7"),
        ("fold-over", ("304",), "3.01"),
        ("lace trim", ("304",), "2.01"),
        ("strap", ("304",), "7"),
        ("hem", ("304",), "6.02"),
        ("binding", ("304", "304"), "3.01"),
        ("scallop", (), ""),
    ],
)
def test_rows_of_stitching_by_iso_4915_and_seam_class_by_iso_4916(name, stitches, seam_class):
    """304 zigzag for the first row, 3-step zigzag (numbered otherwise in other editions) for the second: the picot
    method of 2001; bound, lapped, hemmed and applied classes as ISO 4916 (sub-numbers from memory).
    """
    row = FINISH_TABLE[name]
    assert tuple(each.stitch for each in row.passes) == stitches
    assert row.seam_class == seam_class


def garment(waist=ELASTIC, front=ELASTIC, back=ELASTIC, gusset=None, **changes):
    return make_garment(design(finishes=Finishes(waist, front, back, gusset or front), **changes))


@pytest.mark.parametrize("name", ["turned elastic", "fold-over", "lace trim", "strap"])
def test_the_cut_length_is_each_zone_s_edge_by_its_ratio_and_the_overlap(name):
    """Waist 640 mm x 0.88 + 10 = 573.2, leg 260 x 1.0 + 320 x 0.85 + 10 = 542 are such sums (tests/outside/trade)."""
    finish = EVERY[name]
    made = garment(finish, finish, finish)
    rows = {row.edge: row for row in elastic_rows(made)}
    assert set(rows) == {"waist", "leg"}
    waist = 2.0 * sum(made.piece(panel).edge("waist").length for panel in ("front", "back"))
    leg = [made.piece(panel).edge("leg").length for panel in ("front", "gusset", "back")]
    ratios = [asked_ratio(finish, zone) for zone in ("front_leg", "gusset_leg", "back_leg")]
    overlap = FINISH_TABLE[name].overlap
    asked = {"waist": cut_length([(waist, asked_ratio(finish, "waist"))], overlap),
             "leg": cut_length(list(zip(leg, ratios, strict=True)), overlap)}  # fmt: skip
    for edge, row in rows.items():
        bounded = row.says != ""
        assert row.cut_length == pytest.approx(asked[edge]) if not bounded else row.cut_length > asked[edge]
        assert row.worn <= defaults.ELASTIC_WORN_SHARE * row.stretch + 1e-9 or row.relaxed >= row.edge_length - 1e-6


def test_the_gusset_s_leg_edge_goes_as_the_front_leg():
    assert asked_ratio(ELASTIC, "gusset_leg") == asked_ratio(ELASTIC, "front_leg") == 1.0


def test_the_maker_s_own_ratios_win():
    own = Elastic("hers", "picot", 10.0, 1.2, {"waist": 0.81, "back_leg": 0.77})
    finish = Finish(FinishKind.ELASTIC, own)
    assert asked_ratio(finish, "waist") == 0.81
    assert asked_ratio(finish, "back_leg") == 0.77
    assert asked_ratio(finish, "front_leg") == 1.0
    rows = {row.edge: row for row in elastic_rows(garment(finish))}
    assert [zone.asked for zone in rows["waist"].zones] == [0.81, 0.81]


def test_an_elastic_that_hardly_stretches_is_cut_longer_than_its_ratio_asks():
    """Worn strain stays within half of its comfortable stretch; it is never laid on longer than the edge."""
    stiff = Finish(FinishKind.ELASTIC, Elastic("stiff", "plain", 10.0, 0.30, {"waist": 0.85}))
    (row,) = (row for row in elastic_rows(garment(stiff)) if row.edge == "waist")
    assert all(zone.ratio > zone.asked for zone in row.zones)
    assert row.worn == pytest.approx(0.15) or row.relaxed == pytest.approx(row.edge_length)
    assert row.says


def test_a_waist_is_marked_in_quarters_and_marks_meet_in_proportion():
    (row,) = (row for row in elastic_rows(garment()) if row.edge == "waist")
    assert [mark.at for mark in row.marks][1:] == ["centre front", "right side seam", "centre back", "left side seam"]
    assert row.marks[-1].along_edge == pytest.approx(row.edge_length)
    for before, after in zip(row.marks, row.marks[1:], strict=False):
        stretch = (after.along_edge - before.along_edge) / (after.along_elastic - before.along_elastic)
        assert stretch == pytest.approx(1.0 / row.zones[0].ratio)


@pytest.mark.parametrize("zone", ["waist", "front_leg"])
def test_a_turned_corner_folds_on_to_the_seam_allowance(zone):
    """Turned in at a side seam, the allowance comes to lie inside the seam's own cut line: both are sewn flat."""
    made = garment(style=Style())
    piece = made.piece("front")
    side, turned = piece.part.edge("side"), piece.part.edge(zone.rsplit("_", 1)[-1])
    corner = side.end if zone == "waist" else side.start
    along = (turned.curve[0].out - turned.curve[0].start) if zone == "waist" else (
        turned.curve[-1].end - turned.curve[-1].into)  # fmt: skip
    along = along / abs(along)
    near = [point for point in piece.cut if abs(point - corner) < 4.0 * turned.allowance]
    beyond = [point for point in near if ((point - corner) / along).imag < -turned.allowance + 0.05]
    assert beyond
    for point in beyond:
        folded = corner + along * ((point - corner) / along).conjugate()
        tangent = (side.curve[-1].end - side.curve[-1].into) if zone == "waist" else (
            side.curve[0].out - side.curve[0].start)  # fmt: skip
        outside = -((folded - corner) / (tangent / abs(tangent))).imag
        assert outside <= side.allowance + 0.05


def test_where_two_finishes_meet_the_flat_one_comes_before_the_seam_that_catches_its_end():
    made = garment(front=of("picot elastic 8 mm"), back=EVERY["hem"])
    titles = [step.key for step in sewing_steps(made)]
    flat = next(i for i, key in enumerate(titles) if key.startswith("front/leg turned"))
    side = titles.index("side seams")
    assert flat < side
    row = next(row for row in elastic_rows(made) if row.opening == "leg")
    assert not row.closed
    assert row.ends > 0.0


def test_every_finish_can_stand_on_every_edge_beside_every_other():
    for waist in EVERY.values():
        for leg in EVERY.values():
            if FinishKind.SCALLOP in (waist.kind, leg.kind):
                continue
            made = garment(waist, leg, waist, leg)
            sewing_steps(made)
            names = {one.name for one in judge(Evidence(made)) if one.status is Status.FAIL}
            assert "sewn edges" not in names


def test_a_waist_without_side_seams_is_marked_in_quarters_from_the_centre_back_seam():
    made = garment(style=Style(waist_drop=Drops.level(60.0), centre_back_seam=True, side_forward=None))
    waist, leg = elastic_rows(made)
    quarters = ["a quarter on", "centre front", "a quarter on", "centre back seam"]
    assert [mark.at for mark in waist.marks] == ["centre back seam", *quarters]
    assert [mark.along_edge for mark in waist.marks] == pytest.approx([k * waist.edge_length / 4 for k in range(5)])
    assert leg.marks[0].at == leg.marks[-1].at == "dot at the side"


def test_a_leg_is_marked_by_dots_where_a_gusset_is_grown_on():
    made = garment(style=Style(gusset=GussetPlan.ON_FRONT))
    places = [mark.at for mark in elastic_rows(made)[1].marks]
    assert "dot where the gusset begins" in places
    assert "front gusset seam" not in places
