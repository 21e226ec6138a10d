"""Builds ``report.json`` as the contract gives it: millimetres, degrees anticlockwise, rings without a repeated
point.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

import numpy as np

from galloon.checks import coverage_word, seat_covered
from galloon.findings import Finding
from galloon.geometry import Points
from galloon.lace import Placement
from galloon.pieces import Garment, Piece, PieceEdge
from galloon.report.made import CuttingRow, Made

FORMAT = "galloon-report 1"
#: Decimals kept: a nanometre, so that nothing is lost and files stay readable.
_DECIMALS = 6


def build_report(made: Made) -> dict[str, Any]:
    """The report as plain data."""
    garment = made.garment
    return {
        "format": FORMAT,
        "title": garment.design.title,
        "verdict": made.verdict.value,
        "units": "mm",
        "wearer": garment.design.wearer.measurements(),
        "estimated": _estimates(garment),
        "reduction": {
            "front": garment.reductions.front,
            "back": garment.reductions.back,
            "length": garment.reductions.length,
        },
        "waist_drop": _drops(garment),
        "pieces": [_piece(piece) for piece in garment.pieces],
        "lace": [_lace(garment, placement) for placement in garment.placements],
        "checks": [_check(finding) for finding in made.findings],
        "cutting": [_cutting(row) for row in made.cutting],
        "elastic": [_row(row, ("edge", "kind", "edge_length", "cut_length")) for row in made.elastic],
        "shopping": [_row(row, ("cloth", "need", "on_hand", "buy", "cost")) for row in made.shopping],
        "sewing": [_step(step) for step in made.sewing],
    }


def report_bytes(report: dict[str, Any]) -> bytes:
    """The report as UTF-8 JSON; the same report gives the same bytes."""
    return (json.dumps(_rounded(report), ensure_ascii=False, indent=1) + "\n").encode("utf-8")


def _rounded(value: Any) -> Any:
    if isinstance(value, float):
        return round(float(value), _DECIMALS) + 0.0
    if isinstance(value, dict):
        return {key: _rounded(inner) for key, inner in value.items()}
    if isinstance(value, list | tuple):
        return [_rounded(inner) for inner in value]
    return value


def _estimates(garment: Garment) -> dict[str, dict[str, Any]]:
    return {
        name: {"value": one.value, "spread": one.spread, "how": one.how}
        for name, one in garment.design.wearer.estimated.items()
    }


def _drops(garment: Garment) -> dict[str, float]:
    draft = garment.draft
    return {"front": draft.front_drop, "side": draft.side_drop, "back": draft.back_drop}


def _ring(points: Points) -> list[list[float]]:
    return [[float(x), float(y)] for x, y in zip(np.real(points), np.imag(points), strict=True)]


def _segment(ends: Iterable[complex]) -> list[list[float]]:
    return [[end.real, end.imag] for end in ends]


def _piece(piece: Piece) -> dict[str, Any]:
    part = piece.part
    return {
        "name": piece.name,
        "cloth": part.cloth,
        "quantity": part.quantity,
        "mirrored": part.mirrored,
        "fold": part.fold,
        "stitch_line": _ring(piece.stitch),
        "cut_line": _ring(piece.cut),
        "edges": [_edge(edge, laid=bool(part.laid_on)) for edge in piece.edges],
        "laid_on": list(part.laid_on),
        "straps": [
            {"number": end.number, "edge": end.edge, "at": [end.at.real, end.at.imag], "width": end.wide}
            for end in part.strap_ends
        ],
        "greatest_stretch": part.greatest_stretch,
        "notches": [[notch.at.real, notch.at.imag] for notch in piece.notches],
        "area": piece.area,
    }


def _edge(edge: PieceEdge, *, laid: bool) -> dict[str, Any]:
    """An edge; one of a part laid on a panel is stitched on the panel's face and has no edge for a partner."""
    return {
        "name": edge.name,
        "start": edge.start,
        "end": edge.end,
        "length": edge.length,
        "finish": edge.finish,
        "allowance": edge.allowance,
        "sewn_to": None if laid else edge.sewn_to,
    }


def _lace(garment: Garment, placement: Placement) -> dict[str, Any]:
    governing = max(garment.needs, key=lambda need: need.drop, default=None)
    return {
        "use": placement.use.value,
        "cloth": placement.cloth,
        "piece": placement.piece,
        "lie": placement.lie,
        "tilt": placement.tilt,
        "valley_line": _segment(placement.valley),
        "far_line": _segment(placement.far),
        "waist_drop": _drops(garment),
        "governed_by": governing.panel if governing else None,
        "least_drop": {need.panel: need.drop for need in garment.needs},
        "side_seam": garment.side_seam,
        "coverage": coverage_word(garment),
        "seat_covered": seat_covered(garment),
        "phase": placement.phase,
        "pairing": placement.pairing,
        "centre_mismatch": placement.centre_mismatch,
        "side_mismatch": placement.side_mismatch,
        "side_kink": placement.side_kink,
        "gusset_kink": placement.gusset_kink,
        "area_change": placement.area_change,
        "deviation": placement.deviation,
        **(dict(placement.figures) if placement.figures else {}),
    }


def _check(finding: Finding) -> dict[str, Any]:
    return {
        "name": finding.name,
        "status": finding.status.value,
        "value": finding.value,
        "limit": finding.limit,
        "unit": finding.unit,
        "says": finding.says,
        "about": finding.about,
    }


def _cutting(row: CuttingRow) -> dict[str, Any]:
    plan = row.plan
    return {
        "cloth": row.cloth,
        "width": plan.width,
        "length": plan.length,
        "lower_bound": plan.lower_bound,
        "proven": plan.proven,
        "grid": plan.grid,
        "use": plan.use,
        "folded": plan.folded,
        "says": plan.says,
        "placed": [
            {
                "piece": placed.piece,
                "copy": placed.copy,
                "flipped": placed.flipped,
                "turned": placed.turned,
                "edge": placed.edge,
                "other_side": placed.other_side,
                "outline": [[float(point[0]), float(point[1])] for point in placed.outline],
            }
            for placed in plan.placed
        ],
    }


def _row(row: Any, keys: tuple[str, ...]) -> dict[str, Any]:
    return {key: getattr(row, key) for key in keys}


def _step(step: Any) -> dict[str, Any]:
    return {
        "step": step.step,
        "do": step.do,
        "needs": list(step.needs),
        "pieces": list(step.pieces),
        "stitch": step.stitch,
    }
