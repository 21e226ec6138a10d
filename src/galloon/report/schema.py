"""The shape of ``report.json`` as types, from which its JSON schema is generated; imports pydantic, so load it late."""

from __future__ import annotations

from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

Point = tuple[float, float]
Word = Literal["pass", "warn", "fail"]


class _Strict(BaseModel):
    model_config = ConfigDict(extra="forbid")


class EdgeShape(_Strict):
    """One side of a piece."""

    name: str
    start: int = Field(description="index into stitch_line, walked anticlockwise")
    end: int = Field(description="index of its last point; 0 where the ring closes")
    length: float = Field(description="mm on the stitch line")
    finish: Literal["seam", "elastic", "scallop", "fold", "lapped", "trim", "hem", "binding"]
    allowance: float = Field(description="mm beyond the stitch line; negative under a laid-on lace")
    sewn_to: str | None = Field(description="piece/edge it is sewn to")


class StrapShape(_Strict):
    """One end of a strap across an open side, caught in an edge; mm, in the piece's own place."""

    number: int = Field(description="from the waist, 1 the uppermost")
    edge: str
    at: Point = Field(description="middle of the strap on the stitch line; from there it lies level, inward")
    width: float


class PieceShape(_Strict):
    """One pattern piece; mm, x from the centre line to the side, y up from the block's waist level."""

    name: str
    cloth: str
    quantity: int
    mirrored: bool = Field(description="half of the quantity are cut mirrored")
    fold: str | None = Field(description="the edge on x = 0 that is a fold")
    stitch_line: list[Point] = Field(description="closed ring, anticlockwise, first point not repeated")
    cut_line: list[Point]
    laid_on: list[str] = Field(description="pieces that this one is laid on; empty for a panel of its own")
    edges: list[EdgeShape]
    straps: list[StrapShape] = Field(description="ends of straps caught on it; empty where the sides are sewn")
    greatest_stretch: float = Field(description="degrees from x")
    notches: list[Point] = Field(description="on the cut line; on a scalloped edge, marked on the valley line")
    area: float = Field(description="mm² inside the cut line")


class DropShape(_Strict):
    """Waist drop from the block's waist level, mm."""

    front: float
    side: float
    back: float


class LaceShape(BaseModel):
    """One lace on one piece; a use may add figures of its own."""

    model_config = ConfigDict(extra="allow")

    use: str
    cloth: str
    piece: str
    lie: str
    tilt: float
    valley_line: tuple[Point, Point]
    far_line: tuple[Point, Point]
    waist_drop: DropShape
    governed_by: str | None
    least_drop: dict[str, float]
    side_seam: float
    coverage: Literal["good", "low", "too little"]
    seat_covered: float
    phase: float
    pairing: str
    centre_mismatch: float | None
    side_mismatch: float | None
    side_kink: float
    gusset_kink: float
    area_change: float
    deviation: float


class CheckShape(_Strict):
    """One finding."""

    name: str
    status: Word
    value: float | None
    limit: float | None
    unit: str
    says: str
    about: str


class PlacedShape(_Strict):
    """One copy of a piece on the cloth; x along the length from 0, y across from 0."""

    piece: str
    copy_: int = Field(alias="copy")
    flipped: bool
    turned: bool
    edge: str
    other_side: bool
    outline: list[Point]


class CuttingShape(_Strict):
    """The plan of one cloth."""

    cloth: str
    width: float
    length: float
    lower_bound: float
    proven: bool
    grid: float | None
    use: float
    folded: bool
    says: str
    placed: list[PlacedShape]


class ElasticShape(_Strict):
    """One elastic to cut."""

    edge: str
    kind: str
    edge_length: float
    cut_length: float


class ShoppingShape(_Strict):
    """What one material takes."""

    cloth: str
    need: float
    on_hand: float
    buy: float
    cost: float | None


class StepShape(_Strict):
    """One sewing step; ``needs`` are earlier steps."""

    step: int
    do: str
    needs: list[int]
    pieces: list[str]
    stitch: str = Field(description="ISO 4915 stitch type, or words where editions differ")


class ReportShape(_Strict):
    """The whole report, millimetres and degrees anticlockwise."""

    format: Literal["galloon-report 1"]
    title: str
    verdict: Word
    units: Literal["mm"]
    wearer: dict[str, float]
    estimated: dict[str, dict[str, Any]]
    reduction: dict[str, float]
    waist_drop: DropShape
    pieces: list[PieceShape]
    lace: list[LaceShape]
    checks: list[CheckShape]
    cutting: list[CuttingShape]
    elastic: list[ElasticShape]
    shopping: list[ShoppingShape]
    sewing: list[StepShape]


def json_schema() -> dict[str, Any]:
    """The JSON schema (2020-12) of a report."""
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **ReportShape.model_json_schema()}
