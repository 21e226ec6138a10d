"""Which sheets of paper one large page is cut into: grid, orientation, labels, and the sheets left out as empty."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, Final

import shapely

from galloon.drawing.marks import Area, Box, Mark, Page, Stroke, bounds
from galloon.drawing.paper import Paper
from galloon.drawing.paths import Path
from galloon.errors import BadValue, CannotMake

#: More sheets than this is a mistake in the drawing, not a print.
MOST_SHEETS: Final = 400
#: Least room between the drawing and the outer frames, so that no line falls on a frame, mm.
PAD: Final = 2.0


@dataclass(frozen=True)
class TileSettings:
    """Paper and the strips kept on it, mm.

    ``margin`` is left blank all round for the printer, ``footer`` holds rule and labels below the window that shows
    the drawing, ``overlap`` is shown again on the next sheet. The window is what is left.
    """

    paper: Paper
    margin: float = 10.0
    overlap: float = 10.0
    footer: float = 16.0
    landscape: bool = False

    def __post_init__(self) -> None:
        if min(self.margin, self.overlap, self.footer) < 0.0:
            raise BadValue("tile margin, overlap and footer", "must not be negative", self)
        if min(self.window) < 2.0 * self.overlap + 20.0:
            raise BadValue("tile window", "must be 20 mm more than two overlaps", self.window)

    @property
    def sheet(self) -> tuple[float, float]:
        """Width and height of the paper as it is printed."""
        width, height = self.paper.width, self.paper.height
        return (height, width) if self.landscape else (width, height)

    @property
    def window(self) -> tuple[float, float]:
        """Width and height of the part that shows the drawing."""
        width, height = self.sheet
        return width - 2.0 * self.margin, height - 2.0 * self.margin - self.footer


@dataclass(frozen=True)
class Tile:
    """One sheet: row and column from 0 at the upper left, and the box of the drawing that it shows."""

    row: int
    column: int
    window: Box

    @property
    def label(self) -> str:
        """Row as letters, column as a number: A1, B3."""
        return f"{_letters(self.row)}{self.column + 1}"


@dataclass(frozen=True)
class TilePlan:
    """The grid and the sheets that are needed, row by row from the top."""

    settings: TileSettings
    rows: int
    columns: int
    tiles: tuple[Tile, ...]

    @cached_property
    def grid(self) -> dict[tuple[int, int], Tile]:
        """The sheets by row and column."""
        return {(tile.row, tile.column): tile for tile in self.tiles}

    def at(self, row: int, column: int) -> Tile | None:
        """The sheet at a place; None where it is left out or off the grid."""
        return self.grid.get((row, column))


def plan_tiles(page: Page, settings: TileSettings) -> TilePlan:
    """The plan that needs fewest sheets, upright or lying (upright when equal).

    A sheet is needed where a line, words, a picture or the inside of a closed outline falls on its own part of the
    grid: the paper inside an outline is cut too. Raises CannotMake for a page without marks or of too many sheets.
    """
    box = bounds(page.marks)
    if box is None:
        raise CannotMake(f"page {page.name}", "has nothing on it to print", (page.width, page.height))
    ways = [_plan(page.marks, box, replace(settings, landscape=way)) for way in (False, True)]
    return min(ways, key=lambda plan: len(plan.tiles))


def _plan(marks: tuple[Mark, ...], box: Box, settings: TileSettings) -> TilePlan:
    (width, height), overlap = settings.window, settings.overlap
    long, high = box[2] - box[0] + 2.0 * PAD, box[3] - box[1] + 2.0 * PAD
    columns, rows = _count(long, width, overlap), _count(high, height, overlap)
    if rows * columns > MOST_SHEETS:
        raise CannotMake("tiles", f"needs more than {MOST_SHEETS} sheets of {settings.paper.name}", (long, high))
    across, down = width - overlap, height - overlap
    left = (box[0] + box[2] - columns * across - overlap) / 2.0
    top = (box[1] + box[3] + rows * down + overlap) / 2.0
    every = [
        Tile(row, column, (x, y - height, x + width, y))
        for row, y in enumerate(top - row * down for row in range(rows))
        for column, x in enumerate(left + column * across for column in range(columns))
    ]
    return TilePlan(settings, rows, columns, _needed(every, marks, overlap))


def _count(length: float, window: float, overlap: float) -> int:
    return max(1, math.ceil((length - overlap) / (window - overlap) - 1e-9))


def _needed(tiles: list[Tile], marks: tuple[Mark, ...], overlap: float) -> tuple[Tile, ...]:
    """Tiles whose own cell, the window less what the sheets to the left and above show, meets a mark."""
    cells = shapely.box(*zip(*(_cell(tile, overlap) for tile in tiles), strict=True))
    shapes = [shape for mark in marks for shape in _shapes(mark)]
    met: set[int] = set(shapely.STRtree(cells).query(shapes, predicate="intersects")[1].tolist())
    return tuple(tile for index, tile in enumerate(tiles) if index in met)


def _cell(tile: Tile, overlap: float) -> Box:
    left, bottom, right, top = tile.window
    return left + (overlap if tile.column else 0.0), bottom, right, top - (overlap if tile.row else 0.0)


def _shapes(mark: Mark) -> list[Any]:
    match mark:
        case Stroke():
            return [_shape(mark.path)]
        case Area():
            return [_shape(path) for path in mark.paths]
        case _:
            return [_shape(_box_path(mark.bounds))]


def _shape(path: Path) -> Any:
    points = path.flat(0.1)
    if len(points) == 1:
        return shapely.Point(points[0])
    return shapely.Polygon(points) if path.closed and len(points) > 2 else shapely.LineString(points)


def _box_path(box: Box) -> Path:
    left, bottom, right, top = box
    return Path.rectangle(left, bottom, right - left, top - bottom)


def _letters(row: int) -> str:
    text, rest = "", row + 1
    while rest:
        rest, digit = divmod(rest - 1, 26)
        text = chr(65 + digit) + text
    return text
