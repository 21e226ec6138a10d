"""What sewing gives: elastic rows with their marks, shopping rows, and steps."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class ElasticZone:
    """One zone an elastic runs through: ``edge_length`` on the stitch line (mm), ``ratio`` in force and ``asked``."""

    zone: str
    edge_length: float
    ratio: float
    asked: float


@dataclass(frozen=True)
class Mark:
    """A pair of pins: ``along_elastic`` mm from its first end meets ``along_edge`` mm from where the run begins."""

    at: str
    along_edge: float
    along_elastic: float


@dataclass(frozen=True)
class ElasticRow:
    """One elastic to cut, ``count`` times. ``edge`` waist, leg, or the zones of a run that ends at a seam; lengths mm.

    ``edge_length`` is the finished edge on the stitch line (whole waist; one leg), ``cut_length`` includes ``ends``:
    the overlap of a closed ring, or what is caught or turned under at both ends of an open run. ``worn`` is its strain
    on the body, None where the body's length there is not known.
    """

    edge: str
    kind: str
    edge_length: float
    cut_length: float
    opening: str
    zones: tuple[ElasticZone, ...]
    ends: float
    closed: bool
    count: int
    stretch: float
    worn: float | None
    marks: tuple[Mark, ...]
    says: str

    @property
    def relaxed(self) -> float:
        """Its length on the edge, ends apart (mm)."""
        return self.cut_length - self.ends

    @property
    def reach(self) -> float:
        """How far it stretches, ends apart (mm)."""
        return self.relaxed * (1.0 + self.stretch)


@dataclass(frozen=True)
class Reach:
    """How far (mm) an opening goes before its elastics, and lace left bare, come to their stretch; their names."""

    reach: float
    kind: str


@dataclass(frozen=True)
class ShoppingRow:
    """What a cloth or an elastic takes: mm of its length, before washing; ``cost`` None where no price is known."""

    cloth: str
    need: float
    on_hand: float
    buy: float
    cost: float | None


@dataclass(frozen=True)
class Step:
    """One operation at the machine or the table, in its place.

    ``needs`` are numbers of earlier steps. ``edges`` ("piece/edge", both halves of the body) are closed by it for good,
    those in ``begins`` by a later pass of the same; ``free`` must be neither closed nor begun when it is done,
    ``closed`` must be sewn before; ``works`` are the edges it works along. ``stitch`` is the ISO 4915 number, or a name
    where editions number it differently; ``seam_class`` ISO 4916; empty where nothing is stitched.
    """

    step: int
    key: str
    title: str
    do: str
    needs: tuple[int, ...]
    pieces: tuple[str, ...]
    edges: tuple[str, ...]
    begins: tuple[str, ...]
    free: tuple[str, ...]
    closed: tuple[str, ...]
    works: tuple[str, ...]
    spots: tuple[str, ...]
    stitch: str
    seam_class: str
    setting: str
    allowance: str
    trimming: str
    pressing: str
