"""Frozen facts about one cloth, one lace or one elastic; lengths in mm, stretch and recovery as fractions of one."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from types import MappingProxyType
from typing import Final, Literal

from galloon.errors import BadValue
from galloon.materials.picture import LacePicture
from galloon.said import said
from galloon.units import limits

#: Standard acceleration of free fall, m/s² (CGPM 1901, exact).
GRAVITY: Final = 9.80665


class Kind(StrEnum):
    """What sort of cloth it is."""

    LACE = "lace"
    KNIT = "knit"
    MESH = "mesh"
    RIGID = "rigid"


class Edges(StrEnum):
    """How the long edges of a lace are shaped."""

    DOUBLE = "double scallop"
    SINGLE = "single scallop"
    STRAIGHT = "straight"
    NONE = "none"


class SecondEdge(StrEnum):
    """How a galloon's second edge follows from the first."""

    MIRROR = "mirror"
    HALF_STEP = "half step"
    OTHER = "other"


def require(holds: bool, subject: str, rule: str, seen: object) -> None:
    """Raise BadValue unless ``holds``."""
    if not holds:
        raise BadValue(subject, rule, seen)


def require_between(subject: str, value: float | None, least: float, most: float, unit: str = "") -> None:
    """Raise BadValue unless ``value`` is None or a finite number from ``least`` to ``most``.

    The message gives the limits in ``unit``; those of a fraction whose unit is "%" are shown in percent.
    """
    if value is not None and not (math.isfinite(value) and least <= value <= most):
        times = 100.0 if unit == "%" else 1.0
        raise BadValue(subject, limits(least * times, most * times, unit), value)


@dataclass(frozen=True)
class PullTest:
    """A strip ``strip`` mm wide lengthened by the fraction ``stretch`` under a hung weight of ``load_g`` grams."""

    along: Literal["width", "length", "bias"]
    strip: float
    load_g: float
    stretch: float

    def __post_init__(self) -> None:
        require(
            self.along in ("width", "length", "bias"),
            "pull_test.along",
            said("must be width, length or bias"),
            self.along,
        )
        require_between("pull_test.strip", self.strip, 1.0, 1000.0, "mm")
        require_between("pull_test.load_g", self.load_g, 1.0, 100_000.0, "g")
        require_between("pull_test.stretch", self.stretch, 0.001, 5.0, "%")

    @property
    def stiffness(self) -> float:
        """Tension per width at unit strain, N/m, taken as linear."""
        return self.load_g / 1000.0 * GRAVITY / (self.strip / 1000.0) / self.stretch


@dataclass(frozen=True)
class Scallops:
    """One scalloped edge: ``pitch`` peak to peak along it, ``depth`` from peak line to valley line."""

    pitch: float
    depth: float

    def __post_init__(self) -> None:
        require_between("scallop_pitch", self.pitch, 2.0, 1000.0, "mm")
        require_between("scallop_depth", self.depth, 0.1, 300.0, "mm")


@dataclass(frozen=True)
class LaceEdges:
    """The edges and the motif of a lace. ``first`` is the edge described first; ``repeat`` is the motif's length."""

    edges: Edges
    first: Scallops | None = None
    second: Scallops | None = None
    repeat: float | None = None
    mirror_across: bool = False
    second_edge: SecondEdge = SecondEdge.OTHER
    half_turn: bool = False

    def __post_init__(self) -> None:
        scalloped = self.edges in (Edges.DOUBLE, Edges.SINGLE)
        require(
            scalloped == (self.first is not None),
            "scallop_pitch",
            said("is given just where an edge is scalloped"),
            self.edges.value,
        )
        require(
            (self.edges is Edges.DOUBLE) == (self.second is not None),
            "second_pitch",
            said("is for a double scallop only"),
            self.edges.value,
        )
        if self.repeat is not None:
            require_between("repeat", self.repeat, 2.0, 5000.0, "mm")
            self._check_repeat(self.repeat)
        if self.second_edge is not SecondEdge.OTHER and self.first is not None:
            require(
                self.first == self.second,
                "second_edge",
                said("mirror and half step need two like edges"),
                self.second_edge.value,
            )

    def _check_repeat(self, repeat: float) -> None:
        for name, edge in (("scallop_pitch", self.first), ("second_pitch", self.second)):
            if edge is None:
                continue
            count = repeat / edge.pitch
            near = round(count) >= 1 and abs(count - round(count)) <= 0.02 * max(1.0, count)
            require(
                near,
                "repeat",
                said("must be a whole number of times {name}", name=name),
                f"{repeat:g} mm for a pitch of {edge.pitch:g} mm",
            )

    @property
    def turns(self) -> bool:
        """Whether it looks the same turned by half a turn (follows where both mirrors hold)."""
        return self.half_turn or (self.mirror_across and self.second_edge is not SecondEdge.OTHER)

    @property
    def motif(self) -> float | None:
        """The motif's length along the lace: the repeat, or else one pitch, or None for a plain lace."""
        return self.repeat if self.repeat is not None else (self.first.pitch if self.first else None)


@dataclass(frozen=True)
class Cloth:
    """A cloth or a lace. ``stretch_length`` runs along the selvedge or the lace, ``stretch_width`` across; ``weight``
    is grams per square metre, a lace's holes and all."""

    name: str
    kind: Kind
    width: float
    stretch_length: float = 0.0
    stretch_width: float = 0.0
    stretch_bias: float | None = None
    recovery: float | None = None
    lace: LaceEdges | None = None
    pull_tests: tuple[PullTest, ...] = ()
    reversible: bool = True
    motif_up: bool = False
    openness: float | None = None
    opacity: float | None = None
    nap: bool = False
    shrink_length: float = 0.0
    shrink_width: float = 0.0
    on_hand: float | None = None
    price: float | None = None
    fibre: str = ""
    weight: float | None = None
    picture: LacePicture | None = None

    def __post_init__(self) -> None:
        require(bool(self.name), "name", said("must not be empty"), self.name)
        require_between("width", self.width, 3.0, 5000.0, "mm")
        require_between("weight", self.weight, 3.0, 2000.0, "g/m2")
        for key in ("stretch_length", "stretch_width", "stretch_bias"):
            require_between(key, getattr(self, key), 0.0, 5.0, "%")
        for key, unit in (("recovery", "%"), ("openness", ""), ("opacity", "")):
            require_between(key, getattr(self, key), 0.0, 1.0, unit)
        for key in ("shrink_length", "shrink_width"):
            require_between(key, getattr(self, key), -0.1, 0.5, "%")
        require_between("on_hand", self.on_hand, 0.0, 1_000_000.0, "mm")
        require_between("price", self.price, 0.0, 1_000_000.0)
        require(
            (self.kind is Kind.LACE) == (self.lace is not None),
            "edges",
            said("is given just for a lace"),
            self.kind.value,
        )
        require(self.picture is None or self.lace is not None, "picture", said("is for a lace only"), self.kind.value)
        stretches = (self.stretch_length, self.stretch_width, self.stretch_bias or 0.0)
        require(
            self.kind is not Kind.RIGID or max(stretches) == 0.0,
            "kind",
            said("rigid means that nothing stretches"),
            max(stretches),
        )
        require(
            self.lace is None or self.solid_width > 0.0,
            "width",
            said("must exceed the depths of its scallops"),
            self.width,
        )

    @property
    def solid_width(self) -> float:
        """Width of solid lace or cloth: overall width less the depth of each scalloped edge."""
        if self.lace is None:
            return self.width
        return self.width - sum(edge.depth for edge in (self.lace.first, self.lace.second) if edge is not None)

    @property
    def rigid(self) -> bool:
        """Whether it stretches in no direction."""
        return max(self.stretch_length, self.stretch_width) <= 0.0

    @property
    def stretches_most(self) -> Literal["length", "width"]:
        """The direction of greatest stretch; a lace lies along its length where both are equal."""
        if self.stretch_width > self.stretch_length:
            return "width"
        return "length" if self.kind is Kind.LACE or self.stretch_length > self.stretch_width else "width"


ZONES: Final = ("waist", "front_leg", "back_leg")


@dataclass(frozen=True)
class Elastic:
    """An elastic. ``ratio`` holds cut length over finished edge per zone (waist, front_leg, back_leg).

    ``form`` is plush, picot, plain, fold-over, strap or clear; ``stretch`` a fraction; ``pull_g`` grams to
    stretch it by half; ``weight`` grams per metre.
    """

    name: str
    form: str
    width: float
    stretch: float
    ratio: Mapping[str, float] = field(default_factory=lambda: MappingProxyType({}))
    pull_tests: tuple[PullTest, ...] = ()
    source: str = "the maker's own"
    fibre: str = ""
    weight: float | None = None

    def __post_init__(self) -> None:
        require_between("weight", self.weight, 0.1, 500.0, "g/m")
        require(bool(self.name), "elastic", said("must have a name"), self.name)
        require_between("width", self.width, 1.0, 200.0, "mm")
        require_between("stretch", self.stretch, 0.01, 5.0, "%")
        for zone, ratio in self.ratio.items():
            require(zone in ZONES, "ratio", said("has the zones {zones}", zones=", ".join(ZONES)), zone)
            require_between(f"ratio.{zone}", ratio, 0.3, 1.2)
