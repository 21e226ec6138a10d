"""Cut lines against a second polygon engine: Clipper (through pyclipper), which knows nothing of our code."""

import pyclipper
import shapely

from galloon.design import Style
from galloon.workflow.reckon import make_garment
from tests.support.designs import design, galloon, scalloped

SCALE = 1000.0


def offset_by_clipper(ring, distance):
    engine = pyclipper.PyclipperOffset(2.0, 0.25)
    engine.AddPath(
        [(round(z.real * SCALE), round(z.imag * SCALE)) for z in ring], pyclipper.JT_ROUND, pyclipper.ET_CLOSEDPOLYGON
    )
    return shapely.Polygon([(x / SCALE, y / SCALE) for x, y in engine.Execute(distance * SCALE)[0]])


def test_each_edge_s_cut_line_runs_on_the_border_of_its_parallel_by_clipper():
    for uses in ((), (scalloped("back"),)):
        garment = make_garment(design(uses=uses, lace=galloon(240.0), style=Style(centre_back_seam=True)))
        for piece in garment.pieces:
            for edge in piece.edges:
                if edge.allowance <= 0.0:
                    continue
                border = offset_by_clipper(piece.stitch, edge.allowance).exterior
                points = piece.edge_points(edge.name)
                middle = points[len(points) // 4 : 3 * len(points) // 4 + 1]
                if len(points) < 4:
                    middle = (points[:1] + points[-1:]) / 2
                cut = shapely.LinearRing([(z.real, z.imag) for z in piece.cut])
                for z in middle:
                    near = cut.interpolate(cut.project(shapely.Point(z.real, z.imag)))
                    assert border.distance(near) < 0.05, (piece.name, edge.name)


def test_piece_areas_are_clipper_s_areas():
    garment = make_garment(design(uses=[scalloped("back")]))
    for piece in garment.pieces:
        path = [(round(z.real * SCALE), round(z.imag * SCALE)) for z in piece.cut]
        assert abs(pyclipper.Area(path) / SCALE**2 - piece.area) < 1.0
