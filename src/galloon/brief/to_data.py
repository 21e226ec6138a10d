"""A design back to the plain data of the brief that describes it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import MISSING, fields
from typing import Any, Final

from galloon.body import Wearer
from galloon.brief.lace_picture import ON_SHELF
from galloon.design import (
    Allowances,
    CuttingWishes,
    Design,
    Drops,
    Finish,
    FinishKind,
    LaceUse,
    Motif,
    OpenSide,
    Split,
    Style,
)
from galloon.materials import Cloth, Edges, Elastic, LaceEdges, PullTest, SecondEdge, usual_elastic
from galloon.units import MM_PER

#: Decimal places kept of a figure: finer than 1e-9 mm in any unit, and free of the noise of conversion.
_PLACES: Final = 11
_FORM_OF: Final = {FinishKind.FOLD_OVER: "fold-over", FinishKind.STRAP: "strap"}
_PERCENT: Final = ("stretch_length", "stretch_width", "stretch_bias", "recovery")
_LENGTHS: Final = ("width", "on_hand")


def to_data(design: Design) -> dict[str, Any]:
    """Brief data in the design's own units; reading it gives the design again, lengths within 1e-9 mm.

    Elastics that no finish uses are not part of a design and so are not written. The picture of a lace is named as
    the shelf keeps it.
    """
    writer = _Writer(MM_PER[design.units])
    data = {
        "title": design.title,
        "units": design.units,
        "wearer": writer.wearer(design.wearer),
        "block": writer.lengths(vars(design.block)),
        "cloth": {name: writer.cloth(cloth) for name, cloth in design.cloths.items()},
        "elastic": {one.name: writer.elastic(one) for one in _own_elastics(design)},
        "panels": dict(design.panels.items()),
        "style": writer.style(design.style),
        "split": [writer.split(one) for one in design.style.splits],
        "reduction": _reduction(design),
        "finish": {zone: writer.finish(finish) for zone, finish in design.finishes},
        "open_side": writer.open_side(design.open_side) if design.open_side is not None else {},
        "allowance": writer.allowances(design.allowances),
        "lace": [writer.lace(use) for use in design.lace],
        "motif": [writer.motif(motif) for motif in design.motifs],
        "cutting": _cutting(design.cutting),
    }
    return {key: value for key, value in data.items() if value not in ({}, [])}


def _tidy(value: float) -> float | int:
    """The figure without the noise of conversion, whole numbers as such."""
    short = round(value, _PLACES)
    return int(short) if short == int(short) else short


def _percent(fraction: float) -> float | int:
    return _tidy(fraction * 100.0)


def _own_elastics(design: Design) -> Iterable[Elastic]:
    return (elastic for elastic in design.elastics if elastic != usual_elastic(elastic.name))


def _reduction(design: Design) -> dict[str, Any]:
    girth = {panel: _percent(value) for panel, value in design.girth_reduction.items()}
    return girth if design.length_reduction is None else {**girth, "length": _percent(design.length_reduction)}


def _cutting(wishes: CuttingWishes) -> dict[str, Any]:
    return {**_unusual(wishes, ("order", "centre_motif", "unmatched")), **_said({"fold": list(wishes.fold)})}


def _said(table: Mapping[str, Any]) -> dict[str, Any]:
    """The keys that say something."""
    return {key: value for key, value in table.items() if value not in (None, "", [], {})}


def _unusual(thing: Any, names: Iterable[str]) -> dict[str, Any]:
    """The named fields of a value object that differ from their defaults."""
    usual = {item.name: item.default for item in fields(thing) if item.default is not MISSING}
    return {name: value for name in names if (value := getattr(thing, name)) != usual.get(name)}


class _Writer:
    """Writes values with lengths in one unit of ``mm`` millimetres."""

    def __init__(self, mm: float) -> None:
        self.mm = mm

    def length(self, value: float) -> float | int:
        return _tidy(value / self.mm)

    def lengths(self, table: Mapping[str, float | None]) -> dict[str, Any]:
        return {key: self.length(value) for key, value in table.items() if value is not None}

    def points(self, points: Iterable[tuple[float, float]]) -> list[list[float | int]]:
        return [[self.length(x), self.length(y)] for x, y in points]

    def wearer(self, wearer: Wearer) -> dict[str, Any]:
        taken = {key: value for key, value in wearer.measurements().items() if key not in wearer.estimated}
        head = {"name": wearer.name} if wearer.name else {}
        return {**head, **self.lengths(taken), **({"estimate": True} if wearer.estimated else {})}

    def cloth(self, cloth: Cloth) -> dict[str, Any]:
        return _said(
            {
                "kind": cloth.kind.value,
                **(self.lace_edges(cloth.lace) if cloth.lace else {}),
                **self.lengths({key: getattr(cloth, key) for key in _LENGTHS}),
                **{key: _percent(getattr(cloth, key)) for key in _PERCENT if getattr(cloth, key) is not None},
                **_unusual(cloth, ("reversible", "motif_up", "nap", "openness", "opacity", "price", "fibre", "weight")),
                "shrink": self.shrink(cloth),
                "pull_test": self.pull_tests(cloth.pull_tests),
                "picture": f"{ON_SHELF}{cloth.picture.name}" if cloth.picture else "",
            }
        )

    def shrink(self, cloth: Cloth) -> dict[str, Any]:
        shares = {"length": cloth.shrink_length, "width": cloth.shrink_width}
        return {key: _percent(share) for key, share in shares.items() if share}

    def lace_edges(self, lace: LaceEdges) -> dict[str, Any]:
        table: dict[str, Any] = {"edges": lace.edges.value}
        if lace.first is not None:
            table |= self.lengths({"scallop_pitch": lace.first.pitch, "scallop_depth": lace.first.depth})
        if lace.second is not None and lace.second != lace.first:
            table |= self.lengths({"second_pitch": lace.second.pitch, "second_depth": lace.second.depth})
        table |= self.lengths({"repeat": lace.repeat}) | _unusual(lace, ("mirror_across", "half_turn"))
        if lace.edges is Edges.DOUBLE and lace.second_edge is not SecondEdge.OTHER:
            table["second_edge"] = lace.second_edge.value
        return table

    def pull_tests(self, tests: tuple[PullTest, ...]) -> Any:
        tables = [
            {
                "along": test.along,
                "strip": self.length(test.strip),
                "load_g": _tidy(test.load_g),
                "stretch": _percent(test.stretch),
            }
            for test in tests
        ]
        return tables[0] if len(tables) == 1 else tables

    def elastic(self, elastic: Elastic) -> dict[str, Any]:
        return _said(
            {
                "form": elastic.form,
                "width": self.length(elastic.width),
                "stretch": _percent(elastic.stretch),
                "ratio": {zone: _tidy(ratio) for zone, ratio in elastic.ratio.items()},
                **_unusual(elastic, ("fibre", "weight")),
                "pull_test": self.pull_tests(elastic.pull_tests),
            }
        )

    def style(self, style: Style) -> dict[str, Any]:
        flags = ("centre_front_seam",)
        shapes = {key: getattr(style, key) for key in ("centre_back_shape", "centre_front_shape")}
        return {
            "shape": style.shape.value,
            "waist_drop": "auto" if style.waist_drop is None else self.drops(style.waist_drop),
            "leg_raise": self.length(style.leg_raise),
            "seat_coverage": style.coverage.value,
            "centre_back_seam": style.centre_back_seam,
            **_unusual(style, flags),
            **self.lengths({key: value for key, value in shapes.items() if value}),
            "side_seam": self.side_seam(style.side_forward),
            "gusset": style.gusset.value,
            **_said({"lapped": list(style.lapped)}),
        }

    def drops(self, drops: Drops) -> Any:
        three = self.lengths(vars(drops))
        return three["side"] if len(set(three.values())) == 1 else three

    def side_seam(self, forward: float | None) -> Any:
        return "none" if forward is None else self.length(forward) if forward else "side"

    def split(self, split: Split) -> dict[str, Any]:
        return {"panel": split.panel, "points": self.points(split.points), **_unusual(split, ("curved", "cloth"))}

    def finish(self, finish: Finish) -> str:
        if finish.kind is FinishKind.SCALLOP:
            return f"scallop with {finish.elastic.name}" if finish.elastic else "scallop"
        if finish.trim is not None:
            return f"lace trim {finish.trim.name}"
        if finish.elastic is None:
            usual = finish.wide == Finish(finish.kind).wide
            return finish.kind.value if usual else f"{finish.kind.value} {_tidy(round(finish.wide, 9))} mm"
        form = _FORM_OF.get(finish.kind, finish.elastic.form)
        return finish.elastic.name if form == finish.elastic.form else f"{form} {finish.elastic.name}"

    def open_side(self, side: OpenSide) -> dict[str, Any]:
        gap = self.lengths({"waist": side.waist, "leg": side.leg})
        return _said(
            {
                "gap": gap["waist"] if gap["waist"] == gap["leg"] else gap,
                "straps": side.straps,
                "strap": side.elastic.name,
                "worn_stretch": None if side.strain is None else _percent(side.strain),
            }
        )

    def allowances(self, allowances: Allowances) -> dict[str, Any]:
        return self.lengths(vars(allowances))

    def lace(self, use: LaceUse) -> dict[str, Any]:
        lap = {key: self.length(value) for key in ("lap", "width", "phase") if (value := getattr(use, key)) is not None}
        flags = {key: getattr(use, key) for key in ("cut_away", "mirrored") if getattr(use, key) is not None}
        return _said(
            {
                "use": use.use.value,
                "cloth": use.cloth,
                "panel": "both" if len(set(use.panels)) == 2 else use.panels[0],
                "lie": use.lie and use.lie.value,
                "meet": use.meet and use.meet.value,
                **{key: getattr(use, key) for key in ("upper_cloth", "over_seam", "edge_on", "stitch")},
                **lap,
                **flags,
                **{key: self.points(getattr(use, key)) for key in ("outline", "corners")},
                "between": list(use.between),
            }
        )

    def motif(self, motif: Motif) -> dict[str, Any]:
        at = {} if motif.at is None else {"at": self.points([motif.at])[0]}
        return {
            "outline": self.points(motif.outline),
            "panel": motif.panel,
            **at,
            **({"turn": _tidy(motif.turn)} if motif.turn else {}),
            **_unusual(motif, ("cloth", "stretches", "mirrored")),
        }
