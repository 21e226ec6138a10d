"""How the lace is used, and motifs, from their tables."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Final, Literal

from galloon.brief.beside import reader_of
from galloon.brief.faults import Faults
from galloon.brief.lines import KeyPath
from galloon.brief.model import SvgOutline
from galloon.design import CUT_FROM_LACE, LaceUse, Motif, Use
from galloon.errors import BadInput
from galloon.materials import Cloth, Edges, Kind
from galloon.said import Term, said

if TYPE_CHECKING:
    from galloon.brief.schema import LaceTable, MotifTable, PanelsTable

#: Where a use goes when the brief does not say; the others have to say.
_USUAL_PANEL: Final[Mapping[Use, str]] = {
    Use.V_INSET: "back",
    Use.EDGE_TRIM: "both",
    Use.WAISTBAND: "both",
    Use.SPLIT_EDGING: "both",
    Use.INSERTION: "both",
}
#: Uses that any cloth will do for.
_ANY_CLOTH: Final = (Use.PANEL, Use.OVERLAY, Use.APPLIQUE)
#: Uses that need a strip with two edges of its own: an allover has none.
_STRIP: Final = (Use.V_INSET, Use.INSERTION, Use.EDGE_TRIM, Use.WAISTBAND, Use.SPLIT_EDGING)

Side = Literal["front", "back"]


def sides_of(panel: str | None) -> tuple[Side, ...]:
    """The panels that ``front``, ``back`` or ``both`` stand for; none where nothing is said."""
    named: Mapping[str | None, tuple[Side, ...]] = {
        "front": ("front",), "back": ("back",), "both": ("front", "back")
    }  # fmt: skip
    return named.get(panel, ())


def build_lace_use(
    place: int, table: LaceTable, panels: PanelsTable | None, cloths: Mapping[str, Cloth | None], faults: Faults
) -> LaceUse | None:
    """One use of a lace, None where it does not hold together."""
    path: KeyPath = ("lace", place)
    where = table.panel or _USUAL_PANEL.get(table.use)
    if where is None:
        faults.missing((*path, "panel"), said("Say front, back or both."))
    _check_cloth(path, table, cloths.get(table.cloth), faults)
    sides = sides_of(where)
    if panels is not None and where is not None and table.use in CUT_FROM_LACE:
        known = [(side, getattr(panels, side)) for side in sides if getattr(panels, side) in cloths]
        _check_panels(path, table, known if table.cloth in cloths else [], faults)
    if table.use is Use.OVERLAY and where is not None:
        _check_bounds(path, table, faults)
    if where is None or faults.within((*path, "corners")):
        return None
    values = {
        **table.model_dump(exclude={"panel"}, exclude_none=True),
        "panels": sides,
        "outline": _ring(table.outline),
        "corners": _ring(table.corners),
        "between": tuple(table.between or ()),
    }
    return faults.make(path, LaceUse, values, {"outline": (), "corners": ()})


def _check_bounds(path: KeyPath, table: LaceTable, faults: Faults) -> None:
    """An overlay is bounded in just one way."""
    given = [key for key in ("corners", "outline", "between") if getattr(table, key)]
    if not given:
        faults.missing((*path, "corners"), said("An overlay is bounded by corners, an outline, or between two lines."))
    elif len(given) > 1:
        faults.refuse(
            (*path, given[1]),
            said("must not be given beside {other}", other=given[0]),
            hint=said("Keep one of the two."),
        )


def _check_cloth(path: KeyPath, table: LaceTable, cloth: Cloth | None, faults: Faults) -> None:
    if cloth is None:
        return
    if cloth.kind is not Kind.LACE and table.use not in _ANY_CLOTH:
        faults.refuse(
            (*path, "cloth"),
            said("must be a lace for a {use}", use=Term(table.use.value)),
            hint=said("{cloth} is {kind}.", cloth=cloth.name, kind=Term(cloth.kind.value)),
        )
    elif table.use is Use.SCALLOPED_LEG and cloth.lace is not None and cloth.lace.first is None:
        rule = said("must be a lace with a scalloped edge for a scalloped leg")
        faults.refuse(
            (*path, "cloth"),
            rule,
            hint=said("The edges of {lace} are {edges}.", lace=cloth.name, edges=Term(cloth.lace.edges.value)),
        )
    elif table.use in _STRIP and cloth.lace is not None and cloth.lace.edges is Edges.NONE:
        rule = said("must be a strip with two edges of its own for a {use}", use=Term(table.use.value))
        faults.refuse(
            (*path, "cloth"), rule, hint=said("{lace} is an allover: use it as a panel or an overlay.", lace=cloth.name)
        )


def _check_panels(path: KeyPath, table: LaceTable, sides: list[tuple[Side, str]], faults: Faults) -> None:
    for side, cloth in sides:
        if cloth != table.cloth:
            rule = said(
                "must be the cloth of the {panel}, which a {use} is cut from",
                panel=Term(side),
                use=Term(table.use.value),
            )
            faults.refuse(
                (*path, "cloth"),
                rule,
                hint=said('Write {panel} = "{cloth}" in [panels].', panel=side, cloth=table.cloth),
            )


def build_motif(place: int, table: MotifTable, svg: SvgOutline | None, faults: Faults) -> Motif | None:
    """One motif; its outline is listed in the brief or comes from an SVG file beside it."""
    path: KeyPath = ("motif", place)
    if faults.within(path):
        return None
    if bool(table.outline) == (table.svg is not None):
        faults.add(path, said("needs either outline or svg, not both"), hint=said("Give one of the two."))
        return None
    outline = _ring(table.outline)
    if table.svg is not None:
        outline = _outline_from(table.svg, (*path, "svg"), svg, faults)
        if faults.within(path):
            return None
    at = None if table.at is None else (table.at[0], table.at[1])
    side: Side = "front" if table.panel == "front" else "back"
    with faults.at(path, {"outline": "svg"} if table.svg is not None else {}):
        return Motif(outline, side, table.cloth or "", at, table.turn, table.stretches, table.mirrored)
    return None


def _ring(points: list[list[float]]) -> tuple[tuple[float, float], ...]:
    """The outline without repeated points; the last may repeat the first to close it."""
    kept = [(x, y) for place, (x, y) in enumerate(points) if place == 0 or [x, y] != points[place - 1]]
    return tuple(kept[:-1] if len(kept) > 1 and kept[0] == kept[-1] else kept)


def _outline_from(name: str, path: KeyPath, svg: SvgOutline | None, faults: Faults) -> tuple[tuple[float, float], ...]:
    example, instead = said('As in "motifs/leaf.svg".'), said("List the outline in the brief.")
    read = reader_of(name, path, svg, faults, example=example, instead=instead)
    if read is not None:
        try:
            with faults.at(path):
                return read(name)
        except BadInput as error:
            for fault in error.faults:
                faults.refuse(path, fault.rule, hint=fault.hint)
    return ()


def check_motifs(motifs: Sequence[Motif | None], reach: tuple[float, float], faults: Faults) -> None:
    """Every motif that has a place lies where a panel can be: within ``reach`` (mm) to both sides of the centre line
    and below the waist.
    """
    for place, motif in enumerate(motifs):
        if motif is None or motif.at is None:
            continue
        if not (abs(motif.at[0]) <= reach[0] and -reach[1] <= motif.at[1] <= 0.0):
            rule = said(
                "must lie on the {panel}: at most {across:.0f} cm to either side of its centre line, and 0 to "
                "{down:.0f} cm below the waist (y negative)",
                panel=Term(motif.panel), across=reach[0] / 10, down=reach[1] / 10,
            )  # fmt: skip
            faults.refuse(("motif", place, "at"), rule, hint=said("Leave out at to have the motif placed."))
