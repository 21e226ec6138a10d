"""Arithmetic of the trade against its vectors: exact, or from the published source named beside each."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from galloon.checks import band_pressure, band_word
from galloon.materials import off_axis_stretch
from galloon.materials.tension import Band, Stretchiness, reach, tension_at
from galloon.sewing import cut_length
from galloon.styling import reduction_of, strain_of
from tests.support.designs import MESH, galloon


@pytest.mark.parametrize(("x", "e"), [(5, 5.26), (10, 11.11), (15, 17.65), (20, 25.00), (25, 33.33)])
def test_reduction_and_worn_strain_turn_into_each_other(x, e):
    """e = x/(1-x), x = e/(1+e): exact arithmetic."""
    assert 100 * strain_of(x / 100) == pytest.approx(e, abs=0.005)
    assert 100 * reduction_of(strain_of(x / 100)) == pytest.approx(x)


def test_reduce_by_a_fifth_and_stretch_by_a_fifth_are_not_the_same():
    """Hip 98 cm: 78.4 cm against 81.67 cm (exact arithmetic)."""
    assert 98 * (1 - 0.20) == pytest.approx(78.4)
    assert 98 * (1 - reduction_of(0.20)) == pytest.approx(81.67, abs=0.005)


def test_elastic_lengths_follow_ratio_and_overlap():
    """640 mm x 0.88 + 10 = 573.2; front 260 x 1.0 + back 320 x 0.85 + 10 = 542 (common practice, no source)."""
    assert cut_length([(640.0, 0.88)], 10.0) == pytest.approx(573.2)
    assert cut_length([(260.0, 1.0), (320.0, 0.85)], 10.0) == pytest.approx(542.0)


@pytest.mark.parametrize(
    ("force", "girth", "width", "pascal"),
    [(1.0, 700, 10, 898), (1.5, 700, 10, 1346), (3.0, 700, 25, 1077), (1.0, 550, 8, 1428)],
)
def test_band_pressure_is_laplace_s(force, girth, width, pascal):
    """p = 2 pi T / (C w), textbook form in Thomas, World Wide Wounds 2003."""
    assert band_pressure(force, girth, width) == pytest.approx(pascal, abs=1)


def test_pressure_is_named_as_a_band_never_as_a_promise():
    """Bands after Anthropometry, Apparel Sizing and Design, table 13.5."""
    assert [band_word(p) for p in (900, 1700, 2500, 4000)] == ["light", "medium", "firm", "very firm"]


def test_an_elastic_of_62_cm_over_hips_of_98_cm_needs_58_per_cent():
    """Exact arithmetic."""
    assert 98 / 62 - 1 == pytest.approx(0.58, abs=0.002)
    assert 620 * (1 + 0.5806) == pytest.approx(980, abs=0.5)


def test_a_rigid_panel_adds_its_own_width_only():
    """Max girth = W_r + W_s (1 + S): exact arithmetic."""
    bands = [Band("tulle", 300.0, Stretchiness(math.inf, 0.0)), Band("mesh", 500.0, Stretchiness(400.0, 0.7))]
    assert reach(bands)[0] == pytest.approx(300.0 + 500.0 * 1.7)


@given(
    st.lists(st.tuples(st.floats(50, 600), st.floats(50, 2000), st.floats(0.1, 1.2)), min_size=1, max_size=5),
    st.floats(1.0, 1.4),
)
@settings(max_examples=40, deadline=None)
def test_tension_sharing_agrees_with_springs_that_seek_the_least_energy(springs, grow):
    """An independent solve: scipy minimises the elastic energy of the row at a fixed total length, pair by pair."""
    bands = [Band(str(i), w, Stretchiness(k, s)) for i, (w, k, s) in enumerate(springs)]
    total = sum(w for w, _, _ in springs) * grow
    tension = tension_at(bands, total)
    lengths = np.array([w for w, _, _ in springs])
    stiff = np.array([k / w for w, k, _ in springs])
    extra = np.full(len(springs), (total - lengths.sum()) / len(springs))
    for _ in range(400):
        for i in range(len(springs) - 1):
            both = extra[i] + extra[i + 1]
            found = minimize_scalar(
                lambda a, i=i, both=both: stiff[i] * a * a + stiff[i + 1] * (both - a) ** 2, method="brent"
            )
            extra[i], extra[i + 1] = found.x, both - found.x
        if np.ptp(stiff * extra) <= 1e-6 * max(1.0, abs(tension)):
            break
    assert stiff * extra == pytest.approx(np.full(len(springs), tension), rel=1e-3, abs=1e-3)


@given(st.floats(0, 90))
@settings(max_examples=30)
def test_off_axis_stretch_meets_its_three_measurements_and_lies_between(angle):
    lace = galloon()
    assert off_axis_stretch(lace, 0.0) == pytest.approx(0.55)
    assert off_axis_stretch(lace, 90.0) == pytest.approx(0.15)
    assert off_axis_stretch(lace, 45.0) == pytest.approx(0.40)
    assert 0.15 - 1e-9 <= off_axis_stretch(MESH, angle) <= 0.70 + 1e-9


@given(st.floats(0, 90))
@settings(max_examples=30)
def test_off_axis_stretch_is_the_turned_compliance_tensor(angle):
    """Independent: rotate the full 3x3 plane-stress compliance with numpy and read its first entry."""
    lace = galloon()
    c, s = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    shear = 4 * lace.stretch_bias - lace.stretch_length - lace.stretch_width
    compliance = np.array([[lace.stretch_length, 0, 0], [0, lace.stretch_width, 0], [0, 0, shear]])
    stress = np.array([c * c, s * s, c * s])
    assert off_axis_stretch(lace, angle) == pytest.approx(float(stress @ compliance @ stress), abs=1e-12)
