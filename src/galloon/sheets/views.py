"""Front and back drawing of the finished garment, made from its pieces."""

from __future__ import annotations

import cmath
import math
from collections.abc import Iterable, Sequence
from typing import Any, Final

import numpy as np
import shapely

from galloon.drawing import Colour, Drawing, Fill, Mark, Path, Pen, RecordingCanvas, TextStyle
from galloon.materials import Cloth
from galloon.pieces import Garment
from galloon.sheets.flat_lay import Patch, StrokeKind, lay_flat
from galloon.sheets.flat_sides import View
from galloon.sheets.lace_picture import Lie, lay_picture, spans
from galloon.tolerance import SAME_POINT

_PLAIN: Final[tuple[Colour, ...]] = ((236, 239, 244), (243, 237, 226), (229, 238, 231), (240, 231, 240))
_LACE: Final[Colour] = (250, 240, 243)
#: How strongly thread shows on it in a picture of her own lace, and how many samples each way are one.
_SHOWN, _LESS = 0.85, 2
_NET: Final[Colour] = (190, 120, 145)
_STRAP: Final[Colour] = (250, 250, 250)
_TULLE: Final[Colour] = (128, 142, 165)
#: Directions of the net's lines about the cloth's length, degrees: diamonds for lace, for each lace its own; for a
#: tulle that does not stretch three directions, farther apart.
_LACE_SLANTS: Final = ((55.0, -55.0), (30.0, -30.0), (75.0, -75.0))
_TULLE_SLANTS: Final = (0.0, 60.0, -60.0)
_TULLE_APART: Final = 1.5
_BEHIND: Final[Colour] = (206, 206, 208)
#: Width of a drawing at which pens have the widths given here, mm; smaller drawings get finer lines.
_USUAL: Final = 180.0
#: Distance of the lines of the lace's net on paper, mm.
_MESH: Final = 1.6
#: Border, room between the views and room for a word under each, as shares of the width of one view.
_BORDER: Final = 0.04
_BETWEEN: Final = 0.14
_WORD: Final = 0.11
#: Detail left out, mm on paper.
_DETAIL: Final = 0.02
#: Areas are joined on a grid of this step, so that edges that should be one are one, mm of cloth.
_GRID: Final = 0.001
#: Share hidden from which a cloth that does not stretch is a satin, not a tulle.
_SATIN: Final = 0.95

_PENS: Final[dict[StrokeKind, float]] = {"finish": 0.3, "seam": 0.22, "elastic": 0.13, "valley": 0.1}


def garment_views(garment: Garment, *, width: float = 180.0, words: bool = True, pictures: bool = True) -> Drawing:
    """One page ``width`` mm wide with the garment laid flat, seen from the front and from the back, side by side.

    Pieces are drawn as they lie, without allowances, both halves; lace has a net and its scallops, elastic edges a
    second line. Layers are the views. What shows through the leg openings is grey. ``words`` writes the views' names,
    ``pictures`` shows her own laces in place of their nets.
    """
    shown = lay_flat(garment)
    left, bottom, right, top = shapely.total_bounds([patch.area for patches in shown.values() for patch in patches])
    half = max(-left, right)
    scale = width / (2.0 * half * (2.0 + _BETWEEN + 2.0 * _BORDER))
    one = 2.0 * half * scale
    border, foot = _BORDER * one, (_WORD if words else 0.0) * one
    canvas = RecordingCanvas(garment.design.title)
    canvas.begin_page(width, (top - bottom) * scale + foot + 2.0 * border, name="views")
    views: tuple[View, View] = ("front", "back")
    for index, view in enumerate(views):
        canvas.layer(view)
        middle = border + one / 2.0 + index * one * (1.0 + _BETWEEN)
        drawer = _Drawer(canvas, garment, scale, complex(middle, border + foot - bottom * scale), width, pictures)
        drawer.draw(shown[view], shown["back" if view == "front" else "front"])
        if words:
            style = TextStyle(0.055 * one, anchor="middle")
            canvas.text(view, (middle, border + 0.02 * one), style=style)
    canvas.end_page()
    return canvas.drawing()


def is_tulle(cloth: Cloth) -> bool:
    """Whether a cloth is drawn as a net: it does not stretch, and shows through or may."""
    return cloth.rigid and cloth.lace is None and (cloth.opacity is None or cloth.opacity < _SATIN)


def swatches(garment: Garment, cloths: Sequence[Cloth], *, side: float) -> list[tuple[Mark, ...]]:
    """A square of each cloth with sides of ``side`` mm, its lower left corner at the origin, as the views draw it."""
    found = []
    square = shapely.box(0.0, 0.0, side, side)
    for cloth in cloths:
        canvas = RecordingCanvas()
        canvas.begin_page(side, side)
        canvas.layer("front")
        drawer = _Drawer(canvas, garment, 1.0, 0j, _USUAL)
        small = 4.0 * side / cloth.width
        repeat = np.array([0j, small * spans(cloth)[0], small * cloth.width * 1j])
        drawer.draw_near((Patch(garment.outer[0], cloth, square, (), 0.0, single=True, repeat=repeat),))
        canvas.end_page()
        found.append(canvas.drawing().pages[0].marks)
    return found


class _Drawer:
    """Draws one view; ``origin`` is where the block's waist level meets the centre line on the page."""

    def __init__(
        self, canvas: RecordingCanvas, garment: Garment, scale: float, origin: complex, width: float,
        pictures: bool = True,
    ) -> None:  # fmt: skip
        self._canvas, self._scale, self._origin, self._pictures = canvas, scale, origin, pictures
        self._fine = min(1.6, max(0.4, (width / _USUAL) ** 0.5))
        names = [piece.part.cloth for piece in (*garment.outer, *garment.pieces)]
        plain = [name for name in dict.fromkeys(names) if garment.design.cloths[name].lace is None]
        self._tints = {name: _PLAIN[i % len(_PLAIN)] for i, name in enumerate(plain)}
        trims = [finish.trim.name for _, finish in garment.design.finishes if finish.trim is not None]
        laces = [name for name, cloth in garment.design.cloths.items() if cloth.lace is not None]
        self._laces = list(dict.fromkeys([*names, *trims, *laces]))

    def draw(self, near: tuple[Patch, ...], behind: tuple[Patch, ...]) -> None:
        back = shapely.union_all([_halves(patch) for patch in behind], grid_size=_GRID)
        self._fill(back, _BEHIND)
        self._stroke(shapely.boundary(back), Pen("behind", 0.2 * self._fine))
        self.draw_near(near)

    def draw_near(self, near: tuple[Patch, ...]) -> None:
        """What lies uppermost, with its outline."""
        for patch in near:
            self._patch(patch)
        outline = shapely.union_all([_halves(patch) for patch in near], grid_size=_GRID)
        self._stroke(shapely.boundary(outline), Pen("outline", 0.35 * self._fine))

    def _patch(self, patch: Patch) -> None:
        lace = patch.cloth.lace is not None and not patch.strap
        tint = _STRAP if patch.strap else _LACE if lace else self._tints[patch.cloth.name]
        self._fill(_halves(patch), tint)
        if lace and not self._picture(patch):
            pen = Pen("net", 0.07 * self._fine, _NET)
            slants = _LACE_SLANTS[self._laces.index(patch.cloth.name) % len(_LACE_SLANTS)]
            self._stroke(self._both_lines(patch, self._net(patch, slants)), pen)
        elif not lace and is_tulle(patch.cloth) and not patch.strap:
            pen = Pen("tulle", 0.07 * self._fine, _TULLE)
            self._stroke(self._both_lines(patch, self._net(patch, _TULLE_SLANTS, _TULLE_APART)), pen)
        for kind, line in patch.strokes:
            self._stroke(self._both_lines(patch, line), Pen(kind, _PENS[kind] * self._fine))

    def _picture(self, patch: Patch) -> bool:
        """Her own lace over the patch, each half with its own; whether it has one."""
        if patch.repeat is None or not self._pictures:
            return False
        drawn = False
        for area, repeat in ((patch.area, patch.repeat), (_mirror(patch.area), -patch.repeat.conjugate()))[
            : 1 if patch.single else 2
        ]:
            corner, length, width = (complex(point) for point in self._origin + self._scale * repeat)
            lie = Lie(corner, length - corner, width - corner)
            drawn = lay_picture(
                self._canvas, patch.cloth, lie, self._rings(area), ground=_LACE, strength=_SHOWN, less=_LESS
            )  # fmt: skip
        return drawn

    def _both_lines(self, patch: Patch, line: Any) -> Any:
        return line if patch.single else _mirrored_pair(line)

    def _net(self, patch: Patch, slants: tuple[float, ...], apart: float = 1.0) -> Any:
        """Sets of lines over half a piece, each at its slant to the cloth's length."""
        step = apart * _MESH * self._fine / self._scale
        left, bottom, right, top = patch.area.bounds
        middle, reach = complex(left + right, bottom + top) / 2.0, abs(complex(right - left, top - bottom)) / 2.0
        lines = []
        for slant in slants:
            along = cmath.exp(1j * math.radians(patch.lie + slant))
            for shift in np.arange(math.ceil(-reach / step), math.floor(reach / step) + 1) * step:
                ends = [middle + shift * 1j * along + side * reach * along for side in (-1.0, 1.0)]
                lines.append([(end.real, end.imag) for end in ends])
        return shapely.geometrycollections(shapely.intersection(shapely.linestrings(lines), patch.area))

    def _fill(self, area: Any, colour: Colour) -> None:
        rings = self._rings(area)
        if rings:
            self._canvas.fill(rings, Fill(colour))

    def _rings(self, area: Any) -> tuple[Path, ...]:
        rings = [ring for polygon in _parts(area, "Polygon") for ring in (polygon.exterior, *polygon.interiors)]
        return tuple(self._path(ring, closed=True) for ring in rings)

    def _stroke(self, line: Any, pen: Pen) -> None:
        for part in _parts(line, "LineString", "LinearRing"):
            if part.length > SAME_POINT:
                self._canvas.stroke(self._path(part, closed=part.is_ring), pen)

    def _path(self, line: Any, *, closed: bool) -> Path:
        points = shapely.get_coordinates(shapely.simplify(line, _DETAIL / self._scale))
        placed = self._origin + self._scale * (points[:, 0] + 1j * points[:, 1])
        return Path.polyline(placed[:-1] if closed else placed, closed=closed)


def _mirror(shape: Any) -> Any:
    return shapely.transform(shape, lambda points: points * np.array([-1.0, 1.0]))


def _halves(patch: Patch) -> Any:
    """A patch with its mirror image, unless it lies on one half only."""
    return patch.area if patch.single else _both(patch.area)


def _both(area: Any) -> Any:
    """Both halves as one, grown together at the centre line."""
    return shapely.union(area, _mirror(area), grid_size=_GRID)


def _mirrored_pair(line: Any) -> Any:
    """A line with its mirror image; a line on the centre line stands for itself."""
    parts = list(_parts(line, "LineString", "LinearRing"))
    if not parts:
        return line
    off = [part for part in parts if np.abs(shapely.get_coordinates(part)[:, 0]).max() > 0.01]
    return shapely.geometrycollections([*parts, *map(_mirror, off)])


def _parts(shape: Any, *kinds: str) -> Iterable[Any]:
    """The simple shapes of some kinds within a shape, however nested."""
    if shape.geom_type in kinds:
        if not shape.is_empty:
            yield shape
    elif hasattr(shape, "geoms"):
        merged = shapely.line_merge(shape) if shape.geom_type == "MultiLineString" else shape
        for part in merged.geoms if hasattr(merged, "geoms") else [merged]:
            yield from _parts(part, *kinds)
