"""Cloths, laces and elastics from their tables."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from galloon.brief.faults import Faults
from galloon.brief.lines import KeyPath
from galloon.findings import Finding, Status
from galloon.materials import (
    Cloth,
    Edges,
    Elastic,
    Kind,
    LaceEdges,
    LacePicture,
    PullTest,
    Scallops,
    SecondEdge,
)
from galloon.said import Term, said
from galloon.units import format_length

if TYPE_CHECKING:
    from galloon.brief.schema import ClothTable, ElasticTable, PullTable

_LACE_KEYS: Final = (
    "edges", "scallop_pitch", "scallop_depth", "second_pitch", "second_depth", "repeat", "mirror_across",
    "second_edge", "half_turn",
)  # fmt: skip
_SECOND_KEYS: Final = ("second_pitch", "second_depth", "second_edge")
_SCALLOP_KEYS: Final = ("scallop_pitch", "scallop_depth")
#: Values for a second look at the rest when one of these is faulty; nothing is ever made of them.
_STAND_IN: Final = {
    "width": 4000.0, "stretch_length": 0.0, "stretch_width": 0.0, "shrink_length": 0.0, "shrink_width": 0.0,
    "kind": Kind.KNIT,
}  # fmt: skip
_ELASTIC_STAND_IN: Final = {"width": 8.0, "stretch": 1.0}
#: Opens the picture of that name, for the key at that path.
PictureOf = Callable[[str, KeyPath], LacePicture | None]
#: Forms of elastic, as they show in a name.
_FORMS: Final = ("plush", "picot", "fold-over", "strap", "clear", "plain")


def build_cloth(name: str, table: ClothTable, faults: Faults, picture: PictureOf | None = None) -> Cloth | None:
    """The cloth, None where its table does not hold together; ``picture`` opens the one its table names."""
    path: KeyPath = ("cloth", name)
    lace = _lace_edges(table, path, faults)
    _check_stretch(table, path, faults)
    taken = table.model_dump(exclude={*_LACE_KEYS, "shrink", "pull_test", "kind", "picture"}, exclude_none=True)
    values = {
        **taken,
        "name": name,
        "kind": Kind.KNIT if table.kind is Kind.LACE and lace is None else table.kind,
        "lace": lace,
        "pull_tests": _pull_tests(table.pull_test, path, faults),
        "shrink_length": table.shrink.length,
        "shrink_width": table.shrink.width,
        "picture": picture(table.picture, (*path, "picture")) if table.picture and picture else None,
    }
    made = faults.make(path, Cloth, values, _STAND_IN)
    return None if faults.within(path) else made


def _check_stretch(table: ClothTable, path: KeyPath, faults: Faults) -> None:
    if table.kind is Kind.RIGID:
        return
    for key in ("stretch_length", "stretch_width"):
        if getattr(table, key) is None:
            faults.missing((*path, key), said("Measure it: mark 10 cm, pull as far as is comfortable; 14 cm is 40 %."))


def _lace_edges(table: ClothTable, path: KeyPath, faults: Faults) -> LaceEdges | None:
    """The lace's edges; faults where keys are given that this kind of edge has no use for, or needed and missing."""
    scalloped = table.edges in (Edges.DOUBLE, Edges.SINGLE)
    if table.kind is not Kind.LACE:
        _refuse_given(table, _LACE_KEYS, path, said("is for a lace only"), faults)
        return None
    if table.edges is None:
        faults.missing((*path, "edges"), said("One of: {words}.", words=", ".join(Edges)))
        return None
    if not scalloped:
        _refuse_given(table, (*_SCALLOP_KEYS, *_SECOND_KEYS), path, said("is for a lace with scallops only"), faults)
    elif table.edges is Edges.SINGLE:
        _refuse_given(table, _SECOND_KEYS, path, said("is for a double scallop only"), faults)
    for key in _SCALLOP_KEYS:
        if scalloped and getattr(table, key) is None:
            faults.missing((*path, key), said("A scalloped lace needs it."))
    return _sound_edges(table, path, faults)


def _sound_edges(table: ClothTable, path: KeyPath, faults: Faults) -> LaceEdges | None:
    first = second = None
    if table.edges in (Edges.DOUBLE, Edges.SINGLE):
        first = _scallops(table.scallop_pitch, table.scallop_depth, path, faults)
        if first is None:
            return None
    if first is not None and table.edges is Edges.DOUBLE:
        rename = {"scallop_pitch": "second_pitch", "scallop_depth": "second_depth"}
        pitch = first.pitch if table.second_pitch is None else table.second_pitch
        depth = first.depth if table.second_depth is None else table.second_depth
        second = _scallops(pitch, depth, path, faults, rename)
        if second is None:
            return None
    values = {
        "edges": table.edges,
        "first": first,
        "second": second,
        "repeat": table.repeat,
        "mirror_across": table.mirror_across or False,
        "second_edge": table.second_edge or SecondEdge.OTHER,
        "half_turn": table.half_turn or False,
    }
    return faults.make(path, LaceEdges, values, {"second_edge": SecondEdge.OTHER})


def _scallops(
    pitch: float | None,
    depth: float | None,
    path: KeyPath,
    faults: Faults,
    rename: Mapping[str, str] = MappingProxyType({}),
) -> Scallops | None:
    if pitch is None or depth is None:
        return None
    with faults.at(path, rename=rename):
        return Scallops(pitch, depth)
    return None


def _refuse_given(table: ClothTable, keys: tuple[str, ...], path: KeyPath, rule: str, faults: Faults) -> None:
    for key in keys:
        if getattr(table, key) is not None:
            faults.refuse((*path, key), rule, hint=said("Leave it out, or mend kind or edges."))


def build_elastic(name: str, table: ElasticTable, faults: Faults) -> Elastic | None:
    """The elastic; its form follows from its name where it is left out."""
    path: KeyPath = ("elastic", name)
    form = table.form or _form_from(name)
    own = {zone: ratio for zone, ratio in table.ratio.model_dump().items() if ratio is not None}
    tests = _pull_tests(table.pull_test, path, faults)
    taken = table.model_dump(include={"width", "stretch", "fibre", "weight"})
    values = {**taken, "name": name, "form": form, "pull_tests": tests}
    made = faults.make(path, Elastic, {**values, "ratio": MappingProxyType(own)}, _ELASTIC_STAND_IN)
    return None if faults.within(path) else made


def _form_from(name: str) -> str:
    words = name.lower()
    return next((form for form in _FORMS if form in words), "plain")


def _pull_tests(tables: Sequence[PullTable], path: KeyPath, faults: Faults) -> tuple[PullTest, ...]:
    spare = {"strip": 50.0, "load_g": 500.0, "stretch": 0.3}
    made = [
        faults.make((*path, "pull_test", place), PullTest, one.model_dump(), spare) for place, one in enumerate(tables)
    ]
    return tuple(test for test in made if test is not None)


def findings_on_cloth(cloth: Cloth, units: str) -> tuple[Finding, ...]:
    """What is odd about the figures of a cloth: a share given for percent, less lace than one scallop or repeat."""
    return (*_tiny_figures(cloth), *_short_lace(cloth, units))


_FIGURE_WORDS: Final = {
    "stretch_length": "stretch along",
    "stretch_width": "stretch across",
    "stretch_bias": "stretch at 45 degrees",
    "recovery": "recovery",
}


def _tiny_figures(cloth: Cloth) -> list[Finding]:
    figures = {
        "stretch_length": cloth.stretch_length,
        "stretch_width": cloth.stretch_width,
        "stretch_bias": cloth.stretch_bias or 0.0,
        "recovery": cloth.recovery or 0.0,
    }
    return [
        Finding(
            "unusual cloth figure",
            Status.WARN,
            said(
                "{cloth}: {what} is {value:g} percent, next to nothing. It is given in percent: for {meant:g} percent "
                "write {meant:g} ({key}).",
                cloth=cloth.name,
                what=Term(_FIGURE_WORDS[key]),
                key=key,
                value=value * 100.0,
                meant=value * 10000.0,
            ),
            value=value * 100.0,
            limit=1.0,
            unit="%",
            about=f"cloth {cloth.name}",
        )
        for key, value in figures.items()
        if 0.0 < value <= 0.01
    ]


def _short_lace(cloth: Cloth, units: str) -> list[Finding]:
    lace, on_hand = cloth.lace, cloth.on_hand
    if lace is None or on_hand is None:
        return []
    lengths = {"scallop pitch": lace.first.pitch if lace.first else None, "repeat": lace.repeat}
    return [
        Finding(
            "lace on hand",
            Status.WARN,
            said(
                "The {what} of {lace} is {length}, longer than the {on_hand} on hand. Please check both figures.",
                what=Term(what),
                lace=cloth.name,
                length=format_length(length, units),
                on_hand=format_length(on_hand, units),
            ),
            value=on_hand,
            limit=length,
            unit="mm",
            about=f"cloth {cloth.name}",
        )
        for what, length in lengths.items()
        if length is not None and length > on_hand
    ]
