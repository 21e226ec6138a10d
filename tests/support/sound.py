"""What every garment must hold, whatever laces are on it: rings, seams, allowances, lace under every piece."""

import numpy as np
from hypothesis import strategies as st

from galloon.body import Wearer
from galloon.checks import Evidence, judge
from galloon.findings import Status
from galloon.geometry import nearest_distance, ring_area, ring_is_simple
from galloon.pieces import off_strip
from galloon.tolerance import ALLOWANCE, ON_LACE, SEWN_EDGES


@st.composite
def wearers(draw):
    """Bodies a maker may meet."""
    waist = draw(st.floats(560.0, 1200.0))
    hip = waist * draw(st.floats(1.02, 1.5))
    crotch = max(460.0, hip * draw(st.floats(0.66, 0.8)))
    return Wearer(waist, hip, min(draw(st.floats(170.0, 240.0)), 0.45 * crotch), crotch)


def assert_sound(garment):
    """Every promise, or a finding that fails and says why."""
    pieces = {piece.name: piece for piece in garment.pieces}
    refused = {finding.name for finding in judge(Evidence(garment)) if finding.status is Status.FAIL}
    for piece in garment.pieces:
        for kind, ring in (("stitch", piece.stitch), ("cut", piece.cut)):
            assert ring_is_simple(ring), f"{piece.name}: its {kind} line crosses itself"
            assert ring_area(ring) > 0.0, f"{piece.name}: its {kind} line runs clockwise"
        assert_allowances(piece)
        if off_strip(piece) > ON_LACE:
            assert "piece lies on its lace" in refused
        for edge in piece.edges:
            if edge.sewn_to is None or piece.part.laid_on or piece.part.lining:
                continue
            name, _, other = edge.sewn_to.partition("/")
            partner = pieces[name].edge(other)
            assert abs(partner.length - edge.length) <= SEWN_EDGES, f"{piece.name}/{edge.name} and {edge.sewn_to}"
            assert partner.sewn_to == f"{piece.name}/{edge.name}"


def _cut_short(piece, edge, point):
    """Whether a lace laid on another edge takes the cloth away at a point of this one."""
    return any(
        nearest_distance(np.array([point]), piece.edge_points(other.name)).min() < 15.0 - other.allowance
        for other in piece.edges
        if other.allowance < 0.0 and other.name != edge.name
    )


def assert_allowances(piece):
    """In the middle of every edge that is long enough, the cut line runs at its allowance."""
    ring = np.append(piece.cut, piece.cut[0])
    for edge in piece.edges:
        if edge.length < 8.0 * abs(edge.allowance) + 30.0 or edge.finish in ("scallop", "lapped"):
            continue
        points = piece.edge_points(edge.name)
        steps = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(points)))])
        at = np.array([0.45, 0.5, 0.55]) * edge.length
        place = np.interp(at, steps, points.real) + 1j * np.interp(at, steps, points.imag)
        ahead = np.interp(at + 0.5, steps, points.real) + 1j * np.interp(at + 0.5, steps, points.imag) - place
        outside = place - 1j * ahead / np.abs(ahead) * edge.allowance
        outside = outside[[not _cut_short(piece, edge, point) for point in place]]
        if not len(outside):
            continue
        assert nearest_distance(outside, ring).max() <= ALLOWANCE + 0.02, f"{piece.name}/{edge.name}"
