"""Lace laid on a panel, alone or with the cloth behind it, and rigid motifs, against a net of springs.

Each course is a chain of small elements; in each, every layer there is a spring of its own beside the others. Nodes
come from sparse linear algebra (SciPy); where something lies is asked of shapely on the pieces, point by point.
"""

import numpy as np
import pytest
import shapely
from scipy import sparse
from scipy.sparse.linalg import spsolve

from galloon.checks.courses import Whole, body_girth, course_at
from galloon.design import Drops, LaceUse, Lie, Motif, Style, Use
from galloon.workflow.reckon import make_garment
from tests.support.designs import design

STEP = 0.25
#: N/m at unit strain, by the force of 3 N per cm that a hand test stands for.
MESH, LACE, RIGID = 300.0 / 0.70, 300.0 / 0.55, 3e9
RING = ((40.0, -150.0), (270.0, -150.0), (270.0, -60.0), (90.0, -60.0))
LEVEL = -110.0


def elements(garment, level, kind):
    """Stiffness of every small element along the course, both halves: layers beside one another add."""
    found = []
    for name in ("front", "back"):
        piece = garment.piece(name)
        own = shapely.Polygon([(z.real, z.imag) for z in piece.stitch])
        over = [shapely.Polygon([(z.real, z.imag) for z in laid.ring]) for laid in piece.part.laid]
        x = np.arange(STEP / 2.0, 400.0, STEP)
        inside = shapely.contains_xy(own, x, np.full_like(x, level))
        covered = np.zeros_like(inside)
        for area in over:
            covered |= shapely.contains_xy(area, x, np.full_like(x, level))
        stiff = np.where(covered, {"alone": LACE, "both": LACE + MESH, "rigid": RIGID}[kind], MESH)
        found += [stiff[inside]] * 2
    return np.concatenate(found)


def strains(stiffness, girth):
    k = stiffness / STEP
    count = len(k)
    matrix = sparse.diags([k[:-1] + k[1:], -k[1:-1], -k[1:-1]], [0, -1, 1], shape=(count - 1, count - 1), format="csc")
    force = (k[:-1] - k[1:]) * STEP
    force[-1] += k[-1] * girth
    nodes = np.concatenate([[0.0], np.atleast_1d(spsolve(matrix, force)), [girth]])
    return np.diff(nodes) / STEP - 1.0


def garment(kind):
    style = Style(waist_drop=Drops.level(40.0))
    if kind == "rigid":
        wide = Motif(((-60.0, -20.0), (60.0, -20.0), (60.0, 20.0), (-60.0, 20.0)), "front", at=(0.0, LEVEL))
        return make_garment(design(uses=[LaceUse(Use.APPLIQUE, "heron", ("front",))], motifs=(wide,), style=style))
    use = LaceUse(Use.OVERLAY, "heron", ("front",), corners=RING, cut_away=kind == "alone", lie=Lie.UPRIGHT)
    return make_garment(design(uses=[use], style=style))


@pytest.mark.parametrize("kind", ["alone", "both", "rigid"])
def test_a_course_past_something_laid_on_is_strained_as_the_springs_are(kind):
    made = garment(kind)
    course = course_at(made, LEVEL, "front", Whole.of(made))
    stiffness = elements(made, LEVEL, kind)
    worn = strains(stiffness, body_girth(made, LEVEL))
    told = {"front": MESH, "back": MESH}.get(course.band, LACE if kind == "alone" else LACE + MESH)
    there = worn[np.isclose(stiffness, told)]
    assert np.ptp(there) < 1e-6
    assert course.strain == pytest.approx(float(there.mean()), rel=0.01)
    if kind == "rigid":
        assert worn[stiffness == RIGID].max() < 1e-6
