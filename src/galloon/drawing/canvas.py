"""The canvas protocol, a canvas that records, and the replay of a recording onto any canvas."""

from __future__ import annotations

from typing import Protocol

from galloon.drawing.marks import Area, Clip, Drawing, Image, Mark, Page, Region, Stroke, Text
from galloon.drawing.paths import Path, Point
from galloon.drawing.pens import Fill, Pen, TextStyle
from galloon.drawing.pictures import Picture
from galloon.drawing.transform import Matrix
from galloon.errors import BadValue


class Canvas(Protocol):
    """The verbs between shapes and every output; mm, origin at the lower left of the page, y upwards."""

    def begin_page(self, width: float, height: float, *, name: str) -> None:
        """Start a page; no layer and no clip are set."""

    def end_page(self) -> None:
        """Finish the page begun."""

    def layer(self, name: str) -> None:
        """Put what follows on this layer."""

    def clip(self, *regions: Region) -> None:
        """Show what follows only inside all these regions; none lifts the limit. Replaces the last clip."""

    def stroke(self, path: Path, pen: Pen) -> None:
        """Draw along a path."""

    def fill(self, paths: Region, fill: Fill) -> None:
        """Fill paths together, even-odd: a ring inside a ring is a hole."""

    def text(self, words: str, at: Point, *, style: TextStyle, angle: float = 0.0) -> None:
        """Write one line; ``at`` is on the base line at the style's anchor."""

    def image(self, picture: Picture, matrix: Matrix) -> None:
        """Place a picture: the matrix takes the unit square to its place."""


class RecordingCanvas:
    """Keeps every mark and gives them back as a ``Drawing``; what sheets draw on, and the double used in tests."""

    def __init__(self, title: str = "") -> None:
        self._title = title
        self._pages: list[Page] = []
        self._open: tuple[float, float, str] | None = None
        self._marks: list[Mark] = []
        self._layer = ""
        self._clip: Clip = ()

    def begin_page(self, width: float, height: float, *, name: str = "") -> None:
        """Start a page of ``width`` × ``height`` mm."""
        if self._open is not None:
            raise BadValue("page", "must be ended before the next begins", name)
        self._open, self._marks, self._layer, self._clip = (width, height, name), [], "", ()

    def end_page(self) -> None:
        """Keep the page."""
        width, height, name = self._begun()
        self._pages.append(Page(name, width, height, tuple(self._marks)))
        self._open = None

    def layer(self, name: str) -> None:
        """Put what follows on this layer."""
        self._layer = name

    def clip(self, *regions: Region) -> None:
        """Show what follows only inside all these regions; none lifts the limit."""
        self._clip = regions

    def stroke(self, path: Path, pen: Pen) -> None:
        """Draw along a path."""
        self.add(Stroke(self._layer, path, pen, self._clip))

    def fill(self, paths: Region, fill: Fill) -> None:
        """Fill paths together, even-odd."""
        self.add(Area(self._layer, paths, fill, self._clip))

    def text(self, words: str, at: Point, *, style: TextStyle, angle: float = 0.0) -> None:
        """Write one line."""
        self.add(Text(self._layer, words, at, style, angle, self._clip))

    def image(self, picture: Picture, matrix: Matrix) -> None:
        """Place a picture."""
        self.add(Image(self._layer, picture, matrix, self._clip))

    def add(self, *marks: Mark) -> None:
        """Take marks as they are, with their own layers and clips (from ``moved``, say)."""
        self._begun()
        self._marks.extend(marks)

    def drawing(self) -> Drawing:
        """All the pages ended so far."""
        if self._open is not None:
            raise BadValue("page", "must be ended before the drawing is taken", self._open[2])
        return Drawing(tuple(self._pages), self._title)

    def _begun(self) -> tuple[float, float, str]:
        if self._open is None:
            raise BadValue("canvas", "needs begin_page before anything is drawn", None)
        return self._open


def replay(page: Page, canvas: Canvas) -> None:
    """Play one page onto a canvas, layer after layer in the order they were first named."""
    canvas.begin_page(page.width, page.height, name=page.name)
    groups: dict[str, list[Mark]] = {}
    for mark in page.marks:
        groups.setdefault(mark.layer, []).append(mark)
    for name, marks in groups.items():
        canvas.layer(name)
        _replay_marks(marks, canvas)
    canvas.end_page()


def _replay_marks(marks: list[Mark], canvas: Canvas) -> None:
    clip: Clip = ()
    for mark in marks:
        if mark.clip is not clip and mark.clip != clip:
            clip = mark.clip
            canvas.clip(*clip)
        _replay_mark(mark, canvas)
    if clip:
        canvas.clip()


def _replay_mark(mark: Mark, canvas: Canvas) -> None:
    match mark:
        case Stroke():
            canvas.stroke(mark.path, mark.pen)
        case Area():
            canvas.fill(mark.paths, mark.fill)
        case Text():
            canvas.text(mark.words, mark.at, style=mark.style, angle=mark.angle)
        case Image():
            canvas.image(mark.picture, mark.matrix)
