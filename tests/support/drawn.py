"""A garment written down as a drawing that can be read: pieces, edges with their lengths, points in order."""

import numpy as np

from galloon.geometry import ring_area


def garment_text(garment):
    """One block of lines for every piece, then where each lace lies; millimetres to a tenth."""
    lines = [garment.design.title, ""]
    for piece in garment.pieces:
        lines += [*_piece(piece), ""]
    lines += [_placement(one) for one in garment.placements]
    return "\n".join(line.rstrip() for line in lines).rstrip() + "\n"


def _piece(piece):
    part = piece.part
    how = f"cut {part.quantity}{', mirrored' if part.mirrored else ''}{f', {part.fold} on fold' if part.fold else ''}"
    stretch = f"greatest stretch {part.greatest_stretch:.1f} degrees"
    yield f"{piece.name}: {part.cloth}, {how}, {stretch}, {ring_area(piece.cut) / 100.0:.1f} cm2"
    for edge in piece.edges:
        points = piece.edge_points(edge.name)
        to = f" -> {edge.sewn_to}" if edge.sewn_to else ""
        yield f"  {edge.name}: {edge.length:.1f}, {edge.finish} {edge.allowance:.1f}{to}"
        yield f"    {_run(points)}"
    for laid in part.laid:
        how = f"{laid.half}{', cut away behind' if laid.cut_away else ''}{', holds' if laid.rigid else ''}"
        yield f"  under {laid.name} ({laid.cloth} at {laid.along:.1f} degrees, {how})"
        yield f"    {_run(np.append(laid.ring, laid.ring[0]), count=8)}"
    for end in part.strap_ends:
        yield f"  strap {end.number} at {end.edge}: {_at(end.at)}, {end.wide:.1f} wide"
    yield f"  cut: {_run(np.append(piece.cut, piece.cut[0]), count=24)}"
    yield f"  notches: {' '.join(_at(notch.at) for notch in piece.notches)}"


def _run(points, count=4):
    """The line at even steps along it."""
    steps = np.concatenate([[0.0], np.cumsum(np.abs(np.diff(points)))])
    at = np.linspace(0.0, steps[-1], count + 1)
    return "  ".join(_at(complex(np.interp(s, steps, points.real), np.interp(s, steps, points.imag))) for s in at)


def _at(point):
    return f"{point.real + 0.0:.1f},{point.imag + 0.0:.1f}".replace("-0.0", "0.0")


def _placement(one):
    figures = "".join(f", {key} {value:.1f}" for key, value in (one.figures or {}).items())
    ends = " to ".join(_at(point) for point in (*one.valley, *one.far))
    return (
        f"{one.use}: {one.cloth} on {one.piece}, {one.lie}, tilt {one.tilt:.1f}, phase {one.phase:.1f}: {ends}{figures}"
    )
