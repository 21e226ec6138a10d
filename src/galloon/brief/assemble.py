"""Builds the design from the checked tables, going on past every fault so that all are found."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import TypeVar

from galloon.body import Wearer
from galloon.brief.build_finish import TAKEN_WORDS, Stock, build_finishes
from galloon.brief.build_lace import build_lace_use, build_motif, check_motifs, sides_of
from galloon.brief.build_materials import PictureOf, build_cloth, build_elastic
from galloon.brief.build_open_side import build_open_side
from galloon.brief.build_style import (
    build_allowances,
    build_block,
    build_cutting,
    build_panels,
    build_reduction,
    build_style,
)
from galloon.brief.build_wearer import build_wearer
from galloon.brief.fields import read_text
from galloon.brief.model import SvgOutline
from galloon.brief.schema import (
    AllowanceTable,
    BlockTable,
    ClothTable,
    CuttingTable,
    ElasticTable,
    FinishTable,
    LaceTable,
    MotifTable,
    OpenSideTable,
    PanelsTable,
    ReductionTable,
    SplitTable,
    StyleTable,
    WearerTable,
)
from galloon.brief.tables import Reader
from galloon.design import (
    Allowances,
    CuttingWishes,
    Design,
    Finishes,
    Lie,
    OpenSide,
    Panels,
    ProvenBlock,
    Style,
    Use,
    usual_lie,
)
from galloon.materials import Cloth, Elastic
from galloon.said import said

T = TypeVar("T")
_UNTITLED = "Untitled"


def assemble(reader: Reader, svg: SvgOutline | None, picture: PictureOf | None = None) -> Design | None:
    """The design; None where a part that it cannot do without is faulty."""
    faults = reader.faults
    wearer = _wearer(reader)
    cloths = _cloths(reader, picture)
    laces = list(reader.listed("lace", LaceTable))
    panels_table = reader.single("panels", PanelsTable, needed=True)
    uses = [build_lace_use(place, one, panels_table, cloths, faults) for place, one in laces]
    motifs = [build_motif(place, one, svg, faults) for place, one in reader.listed("motif", MotifTable)]
    if wearer is not None:
        check_motifs(motifs, (wearer.hip / 2.0, wearer.crotch_length / 2.0), faults)
    style, panels = _style_and_panels(reader, laces, panels_table)
    finishes, open_side = _edges(reader, cloths, [one for _, one in laces])
    block, allowances, reduction = _extras(reader)
    title, wishes = _title(reader), _cutting(reader)
    _check_names(reader, cloths)
    if wearer is None or style is None or panels is None or faults.found:
        return None
    with faults.at(()):
        return Design(
            title, wearer, _sound(cloths), panels, style, finishes, block, allowances, _all(uses), _all(motifs),
            reader.units, *reduction, wishes, open_side,
        )  # fmt: skip
    return None


def _wearer(reader: Reader) -> Wearer | None:
    table = reader.single("wearer", WearerTable, needed=True)
    return build_wearer(table, reader.faults) if table is not None else None


def _cloths(reader: Reader, picture: PictureOf | None) -> dict[str, Cloth | None]:
    """Every cloth by name, None where its table is faulty, so that its name still counts as known."""
    named = reader.named("cloth", ClothTable)
    return {name: None if table is None else build_cloth(name, table, reader.faults, picture) for name, table in named}


def _elastics(reader: Reader) -> dict[str, Elastic | None]:
    elastics: dict[str, Elastic | None] = {}
    for name, table in reader.named("elastic", ElasticTable):
        if TAKEN_WORDS.match(name):
            rule = said("must not begin with lace trim, scallop, hem or binding, which are finishes")
            reader.faults.add(("elastic", name), rule)
        elastics[name] = None if table is None else build_elastic(name, table, reader.faults)
    return elastics


def _style_and_panels(
    reader: Reader, laces: list[tuple[int, LaceTable]], table: PanelsTable | None
) -> tuple[Style | None, Panels | None]:
    splits = tuple(reader.listed("split", SplitTable))
    style_table = reader.single("style", StyleTable) if "style" in reader.data else StyleTable()
    if style_table is None:
        return None, None
    style = build_style(style_table, tuple(one for _, one in laces), splits, reader.faults)
    panels = build_panels(table, style_table.gusset) if table is not None else None
    if table is not None and panels is None:
        reader.faults.missing(("panels", "gusset"), said("Name the cloth of the gusset."))
    return style, panels


def _edges(
    reader: Reader, cloths: Mapping[str, Cloth | None], laces: list[LaceTable]
) -> tuple[Finishes, OpenSide | None]:
    """The finishes, and the open side where the brief asks for one."""
    along = [
        side
        for one in laces
        for side in sides_of(one.panel)
        if one.use is Use.SCALLOPED_LEG and (one.lie or usual_lie(side)) is Lie.ALONG_LEG
    ]
    stock = Stock(_elastics(reader), cloths, reader.units)
    table = reader.single("open_side", OpenSideTable)
    opened = build_open_side(table, stock, reader.faults) if table is not None else None
    told = reader.single("finish", FinishTable)
    finishes = build_finishes(told, along, stock, reader.faults, open_side="open_side" in reader.data)
    return finishes, opened


def _extras(reader: Reader) -> tuple[ProvenBlock, Allowances, tuple[Mapping[str, float], float | None]]:
    block = reader.single("block", BlockTable)
    allowance = reader.single("allowance", AllowanceTable)
    return (
        build_block(block, reader.faults) if block is not None else ProvenBlock(),
        build_allowances(allowance, reader.faults) if allowance is not None else Allowances(),
        build_reduction(reader.single("reduction", ReductionTable)),
    )


def _cutting(reader: Reader) -> CuttingWishes:
    table = reader.single("cutting", CuttingTable)
    return build_cutting(table, reader.faults) if table is not None else CuttingWishes()


def _title(reader: Reader) -> str:
    with reader.faults.at(("title",)):
        return read_text(reader.data.get("title", _UNTITLED))
    return _UNTITLED


def _check_names(reader: Reader, cloths: Mapping[str, Cloth | None]) -> None:
    """Every cloth that is named must be in the brief; whatever is faulty in itself has been told already."""
    for path in _places_of_cloth_names(reader):
        name = reader.faults.value(path)
        if isinstance(name, str) and name not in cloths and not reader.faults.within(path):
            reader.faults.unknown(path, said("a cloth of the brief"), cloths)


def _places_of_cloth_names(reader: Reader) -> Iterable[tuple[str | int, ...]]:
    yield from (("panels", key) for key in PanelsTable.model_fields)
    for key, names in (("lace", ("cloth", "upper_cloth")), ("motif", ("cloth",)), ("split", ("cloth",))):
        listed = reader.data.get(key)
        count = len(listed) if isinstance(listed, list) else 0
        yield from ((key, place, name) for place in range(count) for name in names)
    folded = reader.faults.value(("cutting", "fold"))
    yield from (("cutting", "fold", place) for place in range(len(folded) if isinstance(folded, list) else 0))


def _sound(cloths: Mapping[str, Cloth | None]) -> Mapping[str, Cloth]:
    return MappingProxyType({name: cloth for name, cloth in cloths.items() if cloth is not None})


def _all(items: Iterable[T | None]) -> tuple[T, ...]:
    return tuple(item for item in items if item is not None)
