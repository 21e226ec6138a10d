"""Draws docs/pictures/seams.svg: the pieces of one brief under several seam plans, cut line and stitch line, one scale;
and docs/pictures/open-sides.svg, an example with open sides from the front and the back.

Run it after a change of the drawings: .venv/bin/python scripts/seam_picture.py
"""

from dataclasses import replace
from pathlib import Path

import numpy as np
import shapely

from galloon.brief import load_brief
from galloon.design import Design, Drops, GussetPlan, Shape, Style
from galloon.drawing import Drawing, Fill, Pen, RecordingCanvas, TextStyle
from galloon.drawing import Path as Line
from galloon.export import to_svg
from galloon.geometry import Points, coordinates
from galloon.pieces import Garment, Piece
from galloon.sheets import garment_views
from galloon.workflow import make_garment

ROOT = Path(__file__).parents[1]
TARGET = ROOT / "docs" / "pictures" / "seams.svg"
OPEN_SIDES, EXAMPLE = TARGET.with_name("open-sides.svg"), "stilt-straps"
SCALE, ROOM, WORDS, COLUMNS = 0.16, 6.0, 4.0, 3
USUAL = Style(Shape.HIPSTER, Drops.level(60.0), 10.0)
PLANS = {
    "set in, centre back on the fold": USUAL,
    "centre back seam, shaped by 15 mm": replace(USUAL, centre_back_shape=15.0),
    "side seam 3 cm forward": replace(USUAL, side_forward=30.0),
    "no side seam": replace(USUAL, side_forward=None, centre_back_seam=True),
    "gusset grown on to the front": replace(USUAL, gusset=GussetPlan.ON_FRONT),
    "thong, centre seam through the gusset": Style(
        Shape.THONG, Drops.level(60.0), 70.0, gusset=GussetPlan.CENTRE_SEAM, centre_back_seam=True
    ),
}


def plain() -> Design:
    """The design of an example without lace."""
    design = load_brief(ROOT / "examples" / "plover-brief.toml").design
    cloth = design.panels.gusset
    panels = replace(design.panels, front=cloth, back=cloth, gusset_lining="", front_lining="", back_lining="")
    leg = design.finishes.gusset_leg
    finishes = replace(design.finishes, waist=leg, front_leg=leg, back_leg=leg)
    return replace(design, lace=(), motifs=(), panels=panels, finishes=finishes)


def example() -> Garment:
    """The garment with open sides."""
    return make_garment(load_brief(ROOT / "examples" / f"{EXAMPLE}.toml").design)


def thinned(ring: Points) -> Points:
    """The ring without points that nobody would see at this scale."""
    points = shapely.get_coordinates(shapely.simplify(shapely.linearrings(coordinates(ring)), 0.3))[:-1]
    return points[:, 0] + 1j * points[:, 1]


def drawn(canvas: RecordingCanvas, piece: Piece, corner: complex) -> None:
    """One piece with its own lower left corner at ``corner`` on the page."""
    low = complex(piece.cut.real.min(), piece.cut.imag.min())
    cut, stitch = (thinned(ring - low) * SCALE + corner for ring in (piece.cut, piece.stitch))
    canvas.fill((Line.polyline(cut, closed=True),), Fill((236, 239, 244)))
    canvas.stroke(Line.polyline(cut, closed=True), Pen("cut", 0.3))
    canvas.stroke(Line.polyline(stitch, closed=True), Pen("stitch", 0.15))
    inside = shapely.maximum_inscribed_circle(shapely.polygons(coordinates(stitch)))
    x, y = shapely.get_coordinates(inside)[0]
    canvas.text(piece.name, (float(x), float(y)), style=TextStyle(2.4, anchor="middle"))


def picture() -> Drawing:
    """The whole picture."""
    design = plain()
    rows = {name: make_garment(replace(design, style=style)).outer for name, style in PLANS.items()}
    wide = max(sum(np.ptp(p.cut.real) * SCALE + ROOM for p in pieces) for pieces in rows.values()) + ROOM
    tall = max(np.ptp(p.cut.imag) for pieces in rows.values() for p in pieces) * SCALE + ROOM + 2.0 * WORDS
    count = -(-len(rows) // COLUMNS)
    canvas = RecordingCanvas("Seam plans")
    canvas.begin_page(wide * COLUMNS, tall * count, name="seams")
    for index, (name, pieces) in enumerate(rows.items()):
        x, y = wide * (index % COLUMNS) + ROOM, tall * (count - 1 - index // COLUMNS) + ROOM
        canvas.text(name, (x, y + tall - ROOM - 1.5 * WORDS), style=TextStyle(3.2))
        top = y + tall - ROOM - 2.5 * WORDS
        for piece in pieces:
            drawn(canvas, piece, complex(x, top - np.ptp(piece.cut.imag) * SCALE))
            x += float(np.ptp(piece.cut.real)) * SCALE + ROOM
    canvas.end_page()
    return canvas.drawing()


if __name__ == "__main__":
    TARGET.write_bytes(to_svg(picture().pages[0]))
    OPEN_SIDES.write_bytes(to_svg(garment_views(example()).pages[0]))
