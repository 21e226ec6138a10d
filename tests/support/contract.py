"""The words of the report's description, read and checked without any code of the program's own.

Polygons are judged by Shapely. ``faults_in`` gives a sentence for every promise of the format that a report breaks.
"""

from __future__ import annotations

import math
import re
from collections import Counter
from itertools import combinations, pairwise

from shapely import LineString, Point, Polygon

_TEXT, _NUMBER, _FLAG, _LIST, _TABLE = "text", "number", "flag", "list", "table"
_MAYBE = "or null"
_KINDS = {_TEXT: str, _NUMBER: (int, float), _FLAG: bool, _LIST: list, _TABLE: dict}
_POINTS = _LIST
_KEYS = {
    "": {"format": _TEXT, "title": _TEXT, "verdict": _TEXT, "wearer": _TABLE, "pieces": _LIST, "lace": _LIST,
         "checks": _LIST, "cutting": _LIST, "elastic": _LIST, "shopping": _LIST, "sewing": _LIST},
    "pieces": {"name": _TEXT, "cloth": _TEXT, "quantity": _NUMBER, "mirrored": _FLAG, "fold": _TEXT + _MAYBE,
               "stitch_line": _POINTS, "cut_line": _POINTS, "edges": _LIST, "greatest_stretch": _NUMBER,
               "notches": _LIST, "area": _NUMBER},
    "edges": {"name": _TEXT, "start": _NUMBER, "end": _NUMBER, "length": _NUMBER, "finish": _TEXT,
              "allowance": _NUMBER, "sewn_to": _TEXT + _MAYBE},
    "lace": {"use": _TEXT, "cloth": _TEXT, "piece": _TEXT, "lie": _TEXT, "tilt": _NUMBER, "valley_line": _LIST,
             "far_line": _LIST, "waist_drop": _TABLE, "governed_by": _TEXT + _MAYBE, "side_seam": _NUMBER,
             "coverage": _TEXT, "phase": _NUMBER, "centre_mismatch": _NUMBER + _MAYBE,
             "side_mismatch": _NUMBER + _MAYBE, "side_kink": _NUMBER},
    "checks": {"name": _TEXT, "status": _TEXT, "value": _NUMBER + _MAYBE, "limit": _NUMBER + _MAYBE, "unit": _TEXT,
               "says": _TEXT},
    "cutting": {"cloth": _TEXT, "width": _NUMBER, "length": _NUMBER, "lower_bound": _NUMBER, "proven": _FLAG,
                "use": _NUMBER, "placed": _LIST},
    "placed": {"piece": _TEXT, "copy": _NUMBER, "flipped": _FLAG, "outline": _LIST},
    "elastic": {"edge": _TEXT, "kind": _TEXT, "edge_length": _NUMBER, "cut_length": _NUMBER},
    "shopping": {"cloth": _TEXT, "need": _NUMBER, "on_hand": _NUMBER, "buy": _NUMBER, "cost": _NUMBER + _MAYBE},
    "sewing": {"step": _NUMBER, "do": _TEXT, "needs": _LIST, "pieces": _LIST, "stitch": _TEXT},
}  # fmt: skip
_STATUS = ("pass", "warn", "fail")
_FINISHES = ("seam", "elastic", "scallop", "fold", "lapped", "trim", "hem", "binding")
#: How far a line may stand off what the format promises of it, mm, and an area off its polygon, share.
_NEAR, _AREA = 0.1, 1e-3
#: Finishes of an edge whose cut line is the outline of the lace.
_BARE = ("scallop", "lapped")


def faults_in(report: dict) -> list[str]:
    """Every promise of the format that ``report`` breaks, in words."""
    faults = list(_shape(report, "", ""))
    for key in ("pieces", "lace", "checks", "cutting", "elastic", "shopping", "sewing"):
        for place, row in enumerate(report.get(key, [])):
            faults += _shape(row, key, f"{key}[{place}]")
    if faults:
        return faults
    pieces = {piece["name"]: piece for piece in report["pieces"]}
    if len(pieces) != len(report["pieces"]):
        faults.append("two pieces have one name")
    for piece in report["pieces"]:
        faults += _piece(piece, pieces)
    for row in report["lace"]:
        faults += _lace(row, pieces)
    for row in report["cutting"]:
        faults += _cutting(row, pieces)
    return [*faults, *_whole(report, pieces)]


def _shape(row: dict, table: str, at: str):
    """Every key is there and of its kind."""
    for key, kind in _KEYS[table].items():
        if key not in row:
            yield f"{at}.{key} is missing"
            continue
        value = row[key]
        if value is None and kind.endswith(_MAYBE):
            continue
        wanted = _KINDS[kind.removesuffix(_MAYBE)]
        if not isinstance(value, wanted) or (isinstance(value, bool) and wanted is not bool):
            yield f"{at}.{key} is not a {kind}"
        elif isinstance(value, float) and not math.isfinite(value):
            yield f"{at}.{key} is not finite"


def _piece(piece: dict, pieces: dict):
    name = piece["name"]
    stitch, cut = (Polygon(piece[key]) for key in ("stitch_line", "cut_line"))
    for key, ring in (("stitch_line", stitch), ("cut_line", cut)):
        if not ring.is_valid:
            yield f"{name}: its {key} crosses itself"
        if not ring.exterior.is_ccw:
            yield f"{name}: its {key} runs clockwise"
        if piece[key][0] == piece[key][-1]:
            yield f"{name}: the first point of its {key} is repeated"
    if abs(cut.area - piece["area"]) > _AREA * cut.area:
        yield f"{name}: its area is not that of its cut line"
    if piece["mirrored"] and piece["quantity"] % 2:
        yield f"{name}: an odd number cannot be half mirrored"
    faults = [fault for edge in piece["edges"] for fault in _shape(edge, "edges", f"{name}.{edge.get('name')}")]
    yield from faults
    if not faults:
        yield from _edges(piece, pieces)
        yield from _notches(piece, cut)


def _notches(piece: dict, cut: Polygon):
    scallops = [LineString(_run(piece["stitch_line"], one)) for one in piece["edges"] if one["finish"] in _BARE]
    for place in map(Point, piece["notches"]):
        if min(line.distance(place) for line in (cut.exterior, *scallops)) > _NEAR:
            yield f"{piece['name']}: a notch lies off the cut line, and not on the valley line of a scallop"


def _edges(piece: dict, pieces: dict):
    name, ring = piece["name"], piece["stitch_line"]
    turn = piece["edges"][0]["start"]
    for edge in piece["edges"]:
        at = f"{name}/{edge['name']}"
        if edge["start"] != turn:
            yield f"{at} does not begin where the edge before it ends"
        turn = edge["end"]
        run = _run(ring, edge)
        length = sum(math.dist(one, two) for one, two in pairwise(run))
        if abs(length - edge["length"]) > 0.01:
            yield f"{at} is {length} long, not {edge['length']}"
        if edge["finish"] not in _FINISHES:
            yield f"{at} has the finish {edge['finish']}"
        if edge["finish"] == "fold" and (edge["allowance"] or max(abs(x) for x, _ in run) > 0.01):
            yield f"{at} is a fold with an allowance or off the line x = 0"
        yield from _partner(at, edge, pieces)
        yield from _allowance(at, edge, run, piece)
    if turn != piece["edges"][0]["start"]:
        yield f"{name}: its edges do not close"
    folds = [edge["name"] for edge in piece["edges"] if edge["finish"] == "fold"]
    if folds != ([piece["fold"]] if piece["fold"] else []):
        yield f"{name}: fold is {piece['fold']}, but its edges say {folds}"


def _run(ring: list, edge: dict) -> list:
    start, end = edge["start"], edge["end"]
    return ring[start : end + 1] if end > start else [*ring[start:], *ring[: end + 1]]


def _partner(at: str, edge: dict, pieces: dict):
    if edge["sewn_to"] is None:
        return
    name, _, other = edge["sewn_to"].partition("/")
    found = [one for one in pieces.get(name, {"edges": []})["edges"] if one["name"] == other]
    if not found:
        yield f"{at} is sewn to {edge['sewn_to']}, which is not there"
    elif abs(found[0]["length"] - edge["length"]) > 0.05:
        yield f"{at} is not as long as {edge['sewn_to']}"


def _allowance(at: str, edge: dict, run: list, piece: dict):
    """In the middle of a long enough edge, the cut line runs beside the stitch line at the allowance."""
    if edge["finish"] in _BARE or edge["length"] < 8.0 * abs(edge["allowance"]) + 30.0:
        return
    line, cut = LineString(run), LineString([*piece["cut_line"], piece["cut_line"][0]])
    for share in (0.45, 0.5, 0.55):
        here = line.interpolate(share, normalized=True)
        ahead = line.interpolate(share * line.length + 0.5)
        dx, dy = ahead.x - here.x, ahead.y - here.y
        off = edge["allowance"] / math.hypot(dx, dy)
        if cut.distance(Point(here.x + dy * off, here.y - dx * off)) > _NEAR:
            yield f"{at}: the cut line does not run {edge['allowance']} mm outside"


def _lace(row: dict, pieces: dict):
    if row["piece"] not in pieces:
        yield f"lace on {row['piece']}, which is no piece"
    if row["coverage"] not in ("good", "low", "too little"):
        yield f"coverage is {row['coverage']}"
    drop = row["waist_drop"]
    if set(drop) != {"front", "side", "back"} or not all(math.isfinite(one) for one in drop.values()):
        yield "waist_drop is not front, side and back"
    for key in ("valley_line", "far_line"):
        if [len(point) for point in row[key]] != [2, 2]:
            yield f"{key} is not two points"
    (x0, y0), (x1, y1) = row["valley_line"]
    apart = (math.degrees(math.atan2(y1 - y0, x1 - x0)) - row["tilt"]) % 180.0
    if min(apart, 180.0 - apart) > 0.1:
        yield f"the valley line does not lie at the tilt {row['tilt']}"


def _cutting(row: dict, pieces: dict):
    cloth = row["cloth"]
    outlines = [(f"{one['piece']} {one['copy']}", Polygon(one["outline"])) for one in row["placed"]]
    for name, outline in outlines:
        x0, y0, x1, y1 = outline.bounds
        if x0 < -_NEAR or y0 < -_NEAR or x1 > row["length"] + _NEAR or y1 > row["width"] + _NEAR:
            yield f"{cloth}: {name} lies off the cloth"
    for (name, one), (other, two) in combinations(outlines, 2):
        if one.intersects(two) and one.intersection(two).area > 1.0:
            yield f"{cloth}: {name} and {other} lie on each other"
    if row["lower_bound"] > row["length"] + 0.01:
        yield f"{cloth}: its bound is above its length"
    if row["length"] and abs(sum(one.area for _, one in outlines) / (row["width"] * row["length"]) - row["use"]) > 0.02:
        yield f"{cloth}: its use is not area over area taken"
    placed = Counter(one["piece"] for one in row["placed"])
    for piece in pieces.values():
        if piece["cloth"] == cloth and placed[piece["name"]] != piece["quantity"]:
            yield f"{cloth}: {placed[piece['name']]} of {piece['name']} are placed, {piece['quantity']} are cut"


def _whole(report: dict, pieces: dict):
    if report["format"] != "galloon-report 1":
        yield f"format is {report['format']}"
    states = [check["status"] for check in report["checks"]]
    if set(states) - set(_STATUS):
        yield f"a check's status is one of {set(states)}"
    elif report["verdict"] != max(states, key=_STATUS.index, default="pass"):
        yield f"the verdict is {report['verdict']}, the worst check another"
    for check in report["checks"]:
        if not re.search(r"\w.*[.!?]$", check["says"], re.DOTALL):
            yield f"{check['name']} does not say a sentence: {check['says']}"
    if any(not isinstance(value, int | float) for value in report["wearer"].values()):
        yield "a measurement is not a number"
    yield from _bought(report)
    yield from _sewing(report["sewing"], pieces)


def _bought(report: dict):
    for row in report["shopping"]:
        if row["on_hand"] + row["buy"] < row["need"] - _NEAR:
            yield f"{row['cloth']}: what is on hand and bought is less than needed"
    for row in report["elastic"]:
        if not 0.0 < row["cut_length"] or row["edge_length"] <= 0.0:
            yield f"elastic of {row['edge']} has no length"


def _sewing(steps: list, pieces: dict):
    for place, row in enumerate(steps, start=1):
        if row["step"] != place or not all(1 <= need < place for need in row["needs"]):
            yield f"step {place} is numbered {row['step']} and needs {row['needs']}"
        if set(row["pieces"]) - set(pieces):
            yield f"step {place} sews {row['pieces']}"
