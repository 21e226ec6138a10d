"""Cloths sewn into one girth, layers sewn round their edges and rigid panels, against springs solved independently.

The springs are a chain of many small elements whose nodes are found by sparse linear algebra (SciPy), element by
element along the girth; nothing of the program's arithmetic is used in it.
"""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import optimize, sparse
from scipy.sparse.linalg import spsolve

from galloon.checks.girth import edge_bands, hip_bands
from galloon.checks.rigid import rigid_room
from galloon.design import Drops, LaceUse, Panels, Style, Use
from galloon.materials.tension import Band, Stretchiness, in_series, reach, tension_at, together
from galloon.workflow.reckon import make_garment
from tests.support.designs import MEDIUM, MESH, RIGID, design, galloon

PIECES = 40


def ring_of_springs(bands, girth):
    """Strain of each band when the chain, closed round a body of ``girth``, comes to rest: nodal forces in balance."""
    stiffness, rest = [], []
    for width, layers in bands:
        for _ in range(PIECES):
            rest.append(width / PIECES)
            stiffness.append(sum(layers) / (width / PIECES))
    count = len(rest)
    k, rest = np.array(stiffness), np.array(rest)
    inner = count - 1
    matrix = sparse.diags([k[:-1] + k[1:], -k[1:-1], -k[1:-1]], [0, -1, 1], shape=(inner, inner), format="csc")
    force = k[:-1] * rest[:-1] - k[1:] * rest[1:]
    force[-1] += k[-1] * girth
    nodes = np.concatenate([[0.0], np.atleast_1d(spsolve(matrix, force)), [girth]])
    strains = np.diff(nodes) / rest - 1.0
    return [float(strains[i * PIECES : (i + 1) * PIECES].mean()) for i in range(len(bands))]


stiff = st.floats(50.0, 3000.0)
wide = st.floats(40.0, 700.0)


@given(st.lists(st.tuples(wide, st.lists(stiff, min_size=1, max_size=3)), min_size=2, max_size=5), st.floats(1.0, 1.5))
@settings(max_examples=60, deadline=None)
def test_panels_and_their_linings_share_the_pull_as_springs_do(panels, worn):
    girth = worn * sum(width for width, _ in panels)
    bands = [
        Band(str(i), width, together([Stretchiness(k, 0.9) for k in layers]))
        for i, (width, layers) in enumerate(panels)
    ]
    tension = tension_at(bands, girth)
    for band, strain in zip(bands, ring_of_springs(panels, girth), strict=True):
        assert band.cloth.strain(tension) == pytest.approx(strain, rel=1e-6, abs=1e-9)


@given(st.lists(st.tuples(wide, stiff), min_size=1, max_size=4), st.floats(1.0, 1.4))
@settings(max_examples=60, deadline=None)
def test_cloths_side_by_side_stretch_as_one_as_springs_do(cloths, worn):
    whole = sum(width for width, _ in cloths)
    one = in_series([(width / whole, Stretchiness(k, 0.5)) for width, k in cloths])
    strains = ring_of_springs([(width, [k]) for width, k in cloths], worn * whole)
    assert sum(w * e for (w, _), e in zip(cloths, strains, strict=True)) / whole == pytest.approx(worn - 1.0, abs=1e-9)
    assert one.stiffness * (worn - 1.0) == pytest.approx(cloths[0][1] * strains[0], rel=1e-6, abs=1e-9)


def most_open(bands):
    """The greatest girth at which no spring is past its limit, found by bisection on the springs themselves."""

    def over(girth):
        strains = ring_of_springs([(width, [k]) for width, k, _ in bands], girth)
        return max(strain - limit for strain, (_, _, limit) in zip(strains, bands, strict=True))

    relaxed = sum(width for width, _, _ in bands)
    return optimize.brentq(over, relaxed, 4.0 * relaxed, xtol=1e-9)


@given(st.floats(100.0, 500.0), st.floats(200.0, 700.0), st.floats(0.2, 1.2), st.floats(1.01, 1.6))
@settings(max_examples=60, deadline=None)
def test_a_rigid_panel_of_the_widest_width_just_opens_far_enough(rigid, soft, stretch, need):
    """The rigid panel stands in the springs as one ten million times as stiff."""
    needed = need * (rigid + soft)
    bands = [Band("front", rigid, Stretchiness(math.inf, 0.0)), Band("back", soft, Stretchiness(300.0, stretch))]
    room = rigid_room(bands, needed)
    if room.widest is None:
        assert most_open([(1.0, 3e9, 1.0), (rigid + soft - 1.0, 300.0, stretch)]) < needed + (1.0 + stretch)
        return
    widest = min(room.widest, rigid + soft - 1.0)
    opened = most_open([(widest, 3e9, 1.0), (rigid + soft - widest, 300.0, stretch)])
    assert opened == pytest.approx(needed if widest == room.widest else opened, rel=1e-5)
    assert room.forward == pytest.approx(max(0.0, rigid - room.widest) / 2.0)


def rigid_front(forward=0.0):
    use = LaceUse(Use.PANEL, "tulle", ("front",))
    panels = Panels("tulle", "mesh", "mesh", "mesh")
    return make_garment(design(uses=[use], cloths=[RIGID], panels=panels, style=Style(side_forward=forward)))


def test_a_rigid_front_opens_just_over_the_hips_when_the_side_seam_comes_forward_as_told():
    need = 1.02 * MEDIUM.hip
    bands = edge_bands(rigid_front(), "waist")
    room = rigid_room(bands, need)
    assert reach(bands)[0] < need
    moved = edge_bands(rigid_front(room.forward), "waist")
    springs = [
        (band.width, 3e9 if band.cloth.rigid else band.cloth.stiffness, band.cloth.stretch or 1.0) for band in moved
    ]
    assert most_open(springs) == pytest.approx(need, rel=0.005)
    assert reach(moved)[0] == pytest.approx(most_open(springs), rel=1e-4)


def test_a_lining_adds_its_own_pull_and_the_tighter_layer_sets_the_limit():
    plain = make_garment(design(panels=Panels("mesh", "mesh", "mesh")))
    lined = make_garment(design(panels=Panels("mesh", "mesh", "mesh", front_lining="heron")))
    front = [hip_bands(garment, "front")[0] for garment in (plain, lined)]
    lace = galloon()
    springs = ring_of_springs(
        [(front[1].width, [300.0 / MESH.stretch_width, 300.0 / lace.stretch_length])], 1.1 * front[1].width
    )
    force = 0.1 * (300.0 / 0.70 + 300.0 / 0.55)
    assert springs[0] == pytest.approx(0.1)
    assert front[1].cloth.stiffness * 0.1 == pytest.approx(force)
    assert front[1].cloth.stretch == pytest.approx(0.55)
    assert front[0].cloth.stretch == pytest.approx(0.70)


def test_a_v_inset_worn_is_a_chain_of_lace_and_cloth():
    use = LaceUse(Use.V_INSET, "heron", ("back",), upper_cloth="mesh")
    garment = make_garment(design(uses=[use], lace=galloon(110.0), style=Style(waist_drop=Drops.level(20.0))))
    bands = hip_bands(garment)
    tension = tension_at(bands, MEDIUM.hip)
    strains = ring_of_springs([(band.width, [band.cloth.stiffness]) for band in bands], MEDIUM.hip)
    for band, strain in zip(bands, strains, strict=True):
        assert band.cloth.strain(tension) == pytest.approx(strain, rel=1e-6)
