"""Style, block figures, allowances and reductions from their tables, with what a shape's name stands for."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from galloon.brief.faults import Faults
from galloon.brief.lines import KeyPath
from galloon.design import (
    SHAPES,
    Allowances,
    CuttingWishes,
    Drops,
    GussetPlan,
    Lie,
    Panels,
    ProvenBlock,
    Split,
    Style,
    Use,
)
from galloon.said import said

if TYPE_CHECKING:
    from galloon.brief.schema import (
        AllowanceTable,
        BlockTable,
        CuttingTable,
        DropsTable,
        LaceTable,
        PanelsTable,
        ReductionTable,
        SplitTable,
        StyleTable,
    )

#: Uses that cut a panel from lace and so limit how high its waist can be.
LIMITING: Final = (Use.SCALLOPED_LEG, Use.PANEL)

_NO_DROP: Final = {"front": 0.0, "side": 0.0, "back": 0.0}


def build_style(
    table: StyleTable, laces: tuple[LaceTable, ...], splits: tuple[tuple[int, SplitTable], ...], faults: Faults
) -> Style | None:
    """The style; figures that are left out come from the shape, or from the lace that needs them."""
    preset = SHAPES[table.shape]
    limited = any(lace.use in LIMITING for lace in laces)
    usual_drop = None if limited else Drops.level(preset.waist_drop)
    drop = usual_drop if table.waist_drop is None else _drops(table.waist_drop, faults)
    cuts = _splits(splits, faults)
    values = {
        "shape": table.shape,
        "waist_drop": drop,
        "leg_raise": preset.leg_raise if table.leg_raise is None else table.leg_raise,
        "coverage": table.seat_coverage or preset.coverage,
        "centre_back_seam": _needs_back_seam(table, laces)
        if table.centre_back_seam is None
        else table.centre_back_seam,
        "centre_front_seam": table.centre_front_seam,
        "centre_back_shape": table.centre_back_shape,
        "centre_front_shape": table.centre_front_shape,
        "side_forward": table.side_seam,
        "gusset": table.gusset,
        "splits": cuts,
        "lapped": tuple(dict.fromkeys(table.lapped)),
    }
    spare = {"leg_raise": 0.0, "centre_back_shape": 0.0, "centre_front_shape": 0.0}
    return faults.make(("style",), Style, values, spare)


def _drops(table: DropsTable, faults: Faults) -> Drops | None:
    """The three drops, None for "auto"."""
    path: KeyPath = ("style", "waist_drop")
    if table.front is None and table.side is None and table.back is None:
        return None
    for key in ("front", "side", "back"):
        if getattr(table, key) is None:
            faults.missing((*path, key), said('Give front, side and back, or one length, or "auto".'))
    given = {key: value for key, value in table.model_dump().items() if value is not None}
    return faults.make(path, Drops, {**_NO_DROP, **given}, _NO_DROP)


def _needs_back_seam(table: StyleTable, laces: tuple[LaceTable, ...]) -> bool:
    """Two strips along the back legs meet at the centre; front and back in one piece need a way to lie flat."""
    along = any(
        lace.use is Use.SCALLOPED_LEG and lace.panel != "front" and lace.lie in (None, Lie.ALONG_LEG) for lace in laces
    )
    return along or table.side_seam is None


def _splits(tables: tuple[tuple[int, SplitTable], ...], faults: Faults) -> tuple[Split, ...]:
    cuts = []
    for place, one in tables:
        with faults.at(("split", place)):
            points = tuple((x, y) for x, y in one.points)
            cuts.append(Split(one.panel, points, one.curved, one.cloth or ""))  # type: ignore[arg-type]
    return tuple(cuts)


def build_panels(table: PanelsTable, gusset: GussetPlan) -> Panels | None:
    """The cloth of each panel; a gusset grown on to a panel is of that panel's cloth. None where it has none."""
    grown = {GussetPlan.ON_FRONT: table.front, GussetPlan.ON_BACK: table.back, GussetPlan.CENTRE_SEAM: table.back}
    cloth = table.gusset or grown.get(gusset)
    if cloth is None:
        return None
    others = table.model_dump(exclude={"front", "back", "gusset"})
    return Panels(table.front, table.back, cloth, **{key: name or "" for key, name in others.items()})


def build_block(table: BlockTable, faults: Faults) -> ProvenBlock:
    """The maker's own block figures."""
    return faults.make(("block",), ProvenBlock, table.model_dump()) or ProvenBlock()


def build_allowances(table: AllowanceTable, faults: Faults) -> Allowances:
    """The seam allowances; those left out are the usual ones."""
    usual = Allowances()
    made = faults.make(("allowance",), Allowances, table.model_dump(exclude_none=True), vars(usual))
    return made or usual


def build_cutting(table: CuttingTable, faults: Faults) -> CuttingWishes:
    """How the cutting is to be planned."""
    usual = CuttingWishes()
    made = faults.make(("cutting",), CuttingWishes, {**table.model_dump(), "fold": tuple(table.fold)}, vars(usual))
    return made or usual


def build_reduction(table: ReductionTable | None) -> tuple[Mapping[str, float], float | None]:
    """Girth reduction by panel and lengthwise reduction, as fractions, where the brief sets them."""
    if table is None:
        return MappingProxyType({}), None
    girth = {panel: getattr(table, panel) for panel in ("front", "back") if getattr(table, panel) is not None}
    return MappingProxyType(girth), table.length
