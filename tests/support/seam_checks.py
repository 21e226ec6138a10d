"""What every pattern must keep, measured on its finished pieces with shapely and plain arithmetic."""

import math

import numpy as np
import shapely

#: The limits promised, in mm and degrees.
SEWN, CUT, CLEAR, TURN, SQUARE, SMOOTH, SAME = 0.05, 0.05, 20.0, 30.0, 0.5, 1.0, 0.1


def xy(points):
    return np.column_stack((points.real, points.imag))


def faults(garment, *, kinked=()):
    """Everything a pattern breaks, as sentences; ``kinked`` are words of edges that may meet a seam at a kink."""
    found = []
    for piece in garment.pieces:
        found += [f"{piece.name}: {what}" for what in (*_rings(piece), *_turns(piece), *_folds(piece), *_cut(piece))]
    for piece in garment.outer:
        found += [f"{piece.name}: {what}" for what in _clearance(piece)]
    return found + _sewn(garment) + _smooth(garment, kinked)


def _rings(piece):
    for name in ("stitch", "cut"):
        ring = getattr(piece, name)
        if not np.isfinite(ring).all():
            yield f"{name} line is not finite"
        elif not shapely.is_simple(shapely.linearrings(xy(ring))):
            yield f"{name} line crosses itself"
        elif shapely.area(shapely.polygons(xy(ring))) <= 0 or not shapely.is_ccw(shapely.linearrings(xy(ring))):
            yield f"{name} line does not run anticlockwise"


def _turns(piece):
    if piece.part.laid_on:
        return
    for edge in piece.edges:
        chords = np.diff(piece.edge_points(edge.name))
        chords = chords[np.abs(chords) > 1e-9]
        if len(chords) > 1:
            turn = np.degrees(np.abs(np.angle(chords[1:] / chords[:-1]))).max()
            if turn > TURN:
                yield f"{edge.name} turns {turn:.1f} degrees at once"


def inner_angle(piece, index, *, at_start):
    """Degrees inside the piece between one edge and its neighbour, from the curves' own tangents."""
    edges = piece.part.panel.edges
    here = edges[index]
    if at_start:
        before, after = edges[index - 1], here
    else:
        before, after = here, edges[(index + 1) % len(edges)]
    arrive = _last(before.curve)
    leave = _first(after.curve)
    return 180.0 - math.degrees(np.angle(leave / arrive))


def _first(curve):
    first = curve[0]
    return next(p - first.start for p in first[1:] if abs(p - first.start) > 1e-6)


def _last(curve):
    last = curve[-1]
    return next(last.end - p for p in last[2::-1] if abs(last.end - p) > 1e-6)


def _folds(piece):
    for index, edge in enumerate(piece.part.panel.edges):
        if edge.finish != "fold" or piece.part.laid_on:
            continue
        for at_start in (True, False):
            other = piece.part.panel.edges[index - 1 if at_start else (index + 1) % len(piece.edges)]
            angle = inner_angle(piece, index, at_start=at_start)
            if other.name not in ("style line", "inset") and abs(angle - 90.0) > SQUARE:
                yield f"{other.name} meets the fold at {angle:.2f} degrees"


def _cut(piece):
    """The cut line keeps each edge's allowance, measured where no other edge is near."""
    ring = shapely.linearrings(xy(np.append(piece.cut, piece.cut[0])))
    shapely.prepare(ring)
    strip = piece.strip
    depths = [one.depth for one in (strip.scallops, strip.far_scallops) if one is not None] if strip else []
    most = max([abs(edge.allowance) for edge in piece.edges] + depths)
    for edge in piece.edges:
        if edge.finish == "scallop" or (
            piece.strip is not None and edge.name in (piece.strip.edge, piece.strip.far_edge)
        ):
            continue
        points = piece.edge_points(edge.name)
        middles = (points[1:] + points[:-1]) / 2.0
        points = np.concatenate([points, middles])
        others = [xy(piece.edge_points(each.name)) for each in piece.edges if each.name != edge.name]
        near = shapely.geometrycollections([shapely.linestrings(each) for each in others])
        away = shapely.distance(shapely.points(xy(points)), near) > 3.0 * most + 2.0
        if not away.any():
            continue
        off = np.abs(shapely.distance(shapely.points(xy(points[away])), ring) - abs(edge.allowance)).max()
        if off > CUT:
            yield f"cut line misses the allowance of {edge.name} by {off:.3f} mm"


def _clearance(piece):
    lines = {
        word: [xy(piece.edge_points(edge.name)) for edge in piece.edges if edge.name.split()[-1] == word]
        for word in ("waist", "leg")
    }
    for waist in lines["waist"]:
        for leg in lines["leg"]:
            apart = shapely.distance(shapely.linestrings(waist), shapely.linestrings(leg))
            if apart < CLEAR and "side" not in piece.name:
                yield f"only {apart:.2f} mm between waist and leg"


def partner(garment, edge):
    name, _, other = edge.sewn_to.partition("/")
    piece = garment.piece(name)
    return piece, piece.edge(other)


def panels(garment):
    """The outer pieces that are laid on no other."""
    return tuple(piece for piece in garment.outer if not piece.part.laid_on)


def _sewn(garment):
    """Seams join equal edges; what is laid on a panel is only caught in its seams."""
    found = []
    for piece in panels(garment):
        for edge in piece.edges:
            if edge.sewn_to is None:
                continue
            try:
                twin, there = partner(garment, edge)
            except KeyError as err:
                found.append(f"{piece.name}/{edge.name} is sewn to nothing: {err}")
                continue
            if there.sewn_to != f"{piece.name}/{edge.name}":
                found.append(
                    f"{piece.name}/{edge.name} is sewn to {twin.name}/{there.name}, which is sewn to {there.sewn_to}"
                )
            if abs(there.length - edge.length) > SEWN:
                found.append(
                    f"{piece.name}/{edge.name} and {edge.sewn_to} differ by {there.length - edge.length:.3f} mm"
                )
    return found


def _ends(piece, name, word):
    """The inner angles at the ends of an edge where a waist or a leg meets it."""
    edges = piece.part.panel.edges
    index = next(i for i, edge in enumerate(edges) if edge.name == name)
    found = []
    for at_start in (True, False):
        other = edges[index - 1 if at_start else (index + 1) % len(edges)]
        if other.name.split()[-1] == word and other.sewn_to is None:
            found.append(inner_angle(piece, index, at_start=at_start))
    return found


def _smooth(garment, kinked):
    found = []
    for piece in panels(garment):
        for edge in piece.edges:
            if edge.sewn_to is None:
                continue
            twin, there = partner(garment, edge)
            for word in {"waist", "leg"} - set(kinked):
                here, across = _ends(piece, edge.name, word), _ends(twin, there.name, word)
                if len(here) == len(across) == 1 and abs(here[0] + across[0] - 180.0) > SMOOTH:
                    found.append(
                        f"{word} bends {here[0] + across[0] - 180.0:.2f} degrees across {piece.name}/{edge.name}"
                    )
    return found


def centre_length(garment):
    """Centre front, gusset and centre back together (mm)."""
    return sum(edge.length for piece in garment.outer for edge in piece.edges if edge.name.startswith("centre"))


def leg_opening(garment):
    """One leg opening (mm)."""
    return sum(edge.length for piece in garment.outer for edge in piece.edges if edge.name.split()[-1] == "leg")


def levels(garment):
    """Highest and lowest level (y) at which every girth is whole: below the waist lines, above the leg lines."""
    waists, legs = (
        np.concatenate(
            [
                piece.edge_points(edge.name)
                for piece in garment.outer
                for edge in piece.edges
                if edge.name.split()[-1] == word and piece.part.covers != "gusset" and edge.name != "gusset leg"
            ]
        )
        for word in ("waist", "leg")
    )
    return waists.imag.min(), legs.imag.max()


def half_girth(garment, level):
    """Width of all body pieces together at a level (mm), for half the body."""
    bar = shapely.linestrings([(-2000.0, level), (2000.0, level)])
    return sum(
        shapely.length(shapely.intersection(bar, shapely.polygons(xy(piece.stitch))))
        for piece in garment.outer
        if piece.part.covers != "gusset"
    )
