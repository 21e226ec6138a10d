"""Every key a brief may hold, table by table; importing this loads pydantic, so it is imported only to read a brief."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Annotated, Any, ClassVar, Final, get_args

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, PlainValidator

from galloon.brief.fields import (
    Coordinate,
    Count,
    Fibre,
    Flag,
    Length,
    LengthWeight,
    Name,
    Number,
    OneOrList,
    Percent,
    Share,
    Text,
    Weight,
    word_in,
    word_of,
)
from galloon.brief.lines import KeyPath
from galloon.design import LAPPED_SEAMS, Coverage, GussetPlan, Lie, Meet, Shape, Use
from galloon.materials import Edges, Kind, SecondEdge

Point = Annotated[list[Coordinate], Field(min_length=2, max_length=2)]
Points = Annotated[list[Point], Field(max_length=5000)]
Along = Annotated[str, PlainValidator(word_of("width", "length", "bias"))]
Lapped = Annotated[str, PlainValidator(word_of(*LAPPED_SEAMS))]
Panel = Annotated[str, PlainValidator(word_of("front", "back"))]
PanelOrBoth = Annotated[str, PlainValidator(word_of("front", "back", "both"))]


class Table(BaseModel):
    """Any table of a brief: unknown keys are faults.

    ``stand_in`` holds values for needed keys that are faulty, for a second look at the rest of the table.
    """

    stand_in: ClassVar[Mapping[str, Any]] = {}

    model_config = ConfigDict(extra="forbid", frozen=True, defer_build=True)


class WearerTable(Table):
    """``[wearer]``."""

    stand_in: ClassVar[Mapping[str, Any]] = {"waist": "74 cm", "hip": "100 cm"}

    waist: Length
    hip: Length
    top_hip: Length | None = None
    thigh: Length | None = None
    height: Length | None = None
    waist_to_hip: Length | None = None
    crotch_length: Length | None = None
    name: Text = ""
    estimate: Flag = False


class BlockTable(Table):
    """``[block]``."""

    side: Length | None = None
    centre_front: Length | None = None
    centre_back: Length | None = None
    gusset_length: Length | None = None
    gusset_front: Length | None = None
    gusset_back: Length | None = None
    gusset_narrowest: Length | None = None
    front_hip: Length | None = None
    back_hip: Length | None = None
    front_waist: Length | None = None
    back_waist: Length | None = None


class ShrinkTable(Table):
    """``shrink`` of a cloth."""

    length: Percent = 0.0
    width: Percent = 0.0


class PullTable(Table):
    """``pull_test`` of a cloth."""

    along: Along
    strip: Length
    load_g: Number
    stretch: Percent


class ElasticPullTable(PullTable):
    """``pull_test`` of an elastic, which has no other direction than its length."""

    along: Along = "length"


class ClothTable(Table):
    """``[cloth.NAME]``."""

    stand_in: ClassVar[Mapping[str, Any]] = {"width": "4 m"}

    kind: Annotated[Kind, PlainValidator(word_in(Kind))]
    width: Length
    edges: Annotated[Edges, PlainValidator(word_in(Edges))] | None = None
    scallop_pitch: Length | None = None
    scallop_depth: Length | None = None
    second_pitch: Length | None = None
    second_depth: Length | None = None
    repeat: Length | None = None
    mirror_across: Flag | None = None
    second_edge: Annotated[SecondEdge, PlainValidator(word_in(SecondEdge))] | None = None
    half_turn: Flag | None = None
    stretch_length: Percent | None = None
    stretch_width: Percent | None = None
    stretch_bias: Percent | None = None
    recovery: Percent | None = None
    pull_test: Annotated[list[PullTable], OneOrList, Field(max_length=50)] = []
    reversible: Flag = True
    motif_up: Flag = False
    openness: Share | None = None
    opacity: Share | None = None
    nap: Flag = False
    shrink: ShrinkTable = ShrinkTable()
    on_hand: Length | None = None
    price: Number | None = None
    fibre: Fibre = ""
    weight: Weight | None = None
    picture: Name | None = None


class RatioTable(Table):
    """``ratio`` of an elastic."""

    waist: Number | None = None
    front_leg: Number | None = None
    back_leg: Number | None = None


class ElasticTable(Table):
    """``[elastic.NAME]``."""

    stand_in: ClassVar[Mapping[str, Any]] = {"width": "8 mm", "stretch": 100}

    width: Length
    stretch: Percent
    form: Annotated[str, PlainValidator(word_of("plush", "picot", "plain", "fold-over", "strap", "clear"))] | None = (
        None
    )
    ratio: RatioTable = RatioTable()
    pull_test: Annotated[list[ElasticPullTable], OneOrList, Field(max_length=50)] = []
    fibre: Fibre = ""
    weight: LengthWeight | None = None


class PanelsTable(Table):
    """``[panels]``."""

    front: Name
    back: Name
    gusset: Name | None = None
    gusset_lining: Name | None = None
    front_lining: Name | None = None
    back_lining: Name | None = None
    upper_back: Name | None = None


def _drops(given: Any) -> Any:
    """One figure stands for all three; "auto" for none."""
    if isinstance(given, str) and given.strip().lower() == "auto":
        return {}
    return given if isinstance(given, Mapping) and given else {"front": given, "side": given, "back": given}


class DropsTable(Table):
    """``waist_drop``; all three or, for "auto", none."""

    front: Length | None = None
    side: Length | None = None
    back: Length | None = None


def _side_seam(given: Any) -> Any:
    """ "side" is a seam moved forward by nothing; "none" is no seam."""
    word = given.strip().lower() if isinstance(given, str) else ""
    return {"side": 0.0, "none": None}.get(word, given)


class StyleTable(Table):
    """``[style]``."""

    shape: Annotated[Shape, PlainValidator(word_in(Shape))] = Shape.BRIEF
    waist_drop: Annotated[DropsTable, BeforeValidator(_drops)] | None = None
    leg_raise: Length | None = None
    seat_coverage: Annotated[Coverage, PlainValidator(word_in(Coverage))] | None = None
    centre_back_seam: Flag | None = None
    centre_front_seam: Flag = False
    centre_back_shape: Length = 0.0
    centre_front_shape: Length = 0.0
    side_seam: Annotated[Length | None, BeforeValidator(_side_seam)] = 0.0
    gusset: Annotated[GussetPlan, PlainValidator(word_in(GussetPlan))] = GussetPlan.SET_IN
    lapped: Annotated[list[Lapped], OneOrList] = []


class FinishTable(Table):
    """``[finish]``."""

    waist: Name | None = None
    front_leg: Name | None = None
    back_leg: Name | None = None
    gusset_leg: Name | None = None
    side: Name | None = None


def _gap(given: Any) -> Any:
    """One figure stands for both ends."""
    return given if isinstance(given, Mapping) and given else {"waist": given, "leg": given}


class GapTable(Table):
    """``gap`` of an open side."""

    waist: Length
    leg: Length


class OpenSideTable(Table):
    """``[open_side]``."""

    stand_in: ClassVar[Mapping[str, Any]] = {"gap": "8 cm"}

    gap: Annotated[GapTable, BeforeValidator(_gap)]
    straps: Count = 2
    strap: Name | None = None
    worn_stretch: Percent | None = None


class AllowanceTable(Table):
    """``[allowance]``."""

    seam: Length | None = None
    lapped_upper: Length | None = None
    lapped_under: Length | None = None


class CuttingTable(Table):
    """``[cutting]``."""

    order: Annotated[str, PlainValidator(word_of("shortest", "reading"))] = "shortest"
    centre_motif: Flag = False
    unmatched: Flag = False
    fold: Annotated[list[Name], Field(max_length=50)] = []


class ReductionTable(Table):
    """``[reduction]``."""

    front: Percent | None = None
    back: Percent | None = None
    length: Percent | None = None


class LaceTable(Table):
    """One ``[[lace]]``."""

    use: Annotated[Use, PlainValidator(word_in(Use))]
    cloth: Name
    panel: PanelOrBoth | None = None
    lie: Annotated[Lie, PlainValidator(word_in(Lie))] | None = None
    meet: Annotated[Meet, PlainValidator(word_in(Meet))] | None = None
    upper_cloth: Name | None = None
    lap: Length | None = None
    cut_away: Flag | None = None
    over_seam: Annotated[str, PlainValidator(word_of("side", "centre front", "centre back"))] | None = None
    outline: Points = []
    corners: Points = []
    between: Annotated[list[Name], Field(min_length=2, max_length=2)] | None = None
    edge_on: Annotated[str, PlainValidator(word_of("waist", "leg"))] | None = None
    mirrored: Flag | None = None
    stitch: Annotated[str, PlainValidator(word_of("straight", "zigzag"))] | None = None
    width: Length | None = None
    phase: Length | None = None


class MotifTable(Table):
    """One ``[[motif]]``."""

    outline: Points = []
    svg: Name | None = None
    panel: Panel = "front"
    cloth: Name | None = None
    at: Point | None = None
    turn: Number = 0.0
    stretches: Flag = False
    mirrored: Flag = False


class SplitTable(Table):
    """One ``[[split]]``."""

    panel: Panel
    points: Points
    curved: Flag = False
    cloth: Name | None = None


#: Tables in the order a brief is written; [cloth] and [elastic] hold one such table per name.
SINGLE: Final[Mapping[str, type[Table]]] = {
    "wearer": WearerTable,
    "block": BlockTable,
    "panels": PanelsTable,
    "style": StyleTable,
    "reduction": ReductionTable,
    "finish": FinishTable,
    "open_side": OpenSideTable,
    "allowance": AllowanceTable,
    "cutting": CuttingTable,
}
NAMED: Final[Mapping[str, type[Table]]] = {"cloth": ClothTable, "elastic": ElasticTable}
LISTED: Final[Mapping[str, type[Table]]] = {"lace": LaceTable, "motif": MotifTable, "split": SplitTable}
PLAIN: Final = ("title", "units")
#: Tables that may be taken from the shelf by name.
ON_SHELF: Final = ("wearer", "cloth", "elastic", "block")


def tables() -> Mapping[str, type[Table]]:
    """Every table by its key."""
    return {**SINGLE, **NAMED, **LISTED}


def table_at(path: KeyPath) -> type[Table] | None:
    """The table at ``path``, None where there is no such table."""
    key, *rest = [part for part in path if isinstance(part, str)] or [""]
    found = tables().get(key)
    for inside in rest[1:] if key in NAMED else rest:
        field = found.model_fields.get(inside) if found else None
        found = next(_tables_in(field.annotation), None) if field else None
    return found


def keys_at(path: KeyPath) -> tuple[str, ...]:
    """The keys known in the table at ``path``."""
    found = table_at(path)
    return tuple(found.model_fields) if found else (*PLAIN, *tables())


def unit_at(path: KeyPath, units: str) -> str:
    """What stands behind a bare number at ``path`` in a message: the brief's unit, a percent sign or nothing."""
    keys = [part for part in path if isinstance(part, str)]
    found = table_at(tuple(keys[:-1])) if len(keys) > 1 else None
    field = found.model_fields.get(keys[-1]) if found else None
    marks = {mark for mark in (*field.metadata, *_marks(field.annotation)) if isinstance(mark, str)} if field else set()
    return units if "length" in marks else "%" if "percent" in marks else ""


def _tables_in(annotation: Any) -> Iterator[type[Table]]:
    if isinstance(annotation, type) and issubclass(annotation, Table):
        yield annotation
    for inner in get_args(annotation):
        yield from _tables_in(inner)


def _marks(annotation: Any) -> Iterator[Any]:
    yield from getattr(annotation, "__metadata__", ())
    for inner in get_args(annotation):
        yield from _marks(inner)
