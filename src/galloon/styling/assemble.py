"""Dresses a draft as parts: cloth, finishes, allowances, folds and linings, before any lace changes them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Literal

from galloon.design import Design, Finish
from galloon.drafting import Draft, Panel
from galloon.styling.finish_rules import edge_allowance, report_word
from galloon.styling.lay import usual_angle
from galloon.styling.model import Part

PanelName = Literal["front", "back"]


def centre_is_seam(design: Design, panel: str) -> bool:
    """Whether ``panel`` has a centre seam rather than a fold; a shaped centre or a lace along the leg asks for one."""
    style = design.style
    asked = style.centre_front_seam if panel == "front" else style.centre_back_seam
    shaped = style.centre_front_shape if panel == "front" else style.centre_back_shape
    return asked or shaped > 0.0


def assemble(design: Design, draft: Draft, angles: Mapping[str, float], seams: frozenset[str]) -> tuple[Part, ...]:
    """Front, back and gusset as dressed parts, then their linings. ``seams`` are the panels with a centre seam."""
    parts = [_body_part(design, draft.panels[name], angles[name], name in seams) for name in ("front", "back")]
    parts.append(_gusset_part(design, draft.panels["gusset"], angles["gusset"]))
    return (*parts, *(lining for part in parts if (lining := _lining(design, part)) is not None))


def dress_wrap(design: Design, panel: Panel, parts: tuple[Part, ...], *, front_seam: bool) -> tuple[Part, ...]:
    """Front and back in one: finishes and allowances of the dressed ``parts`` on ``panel``, which takes their place."""
    dressed = {part.name: part for part in parts}
    for name, of in (("leg", "leg"), ("gusset", "gusset")):
        for side in ("front", "back"):
            was = dressed[side].edge(of)
            panel = panel.with_edge(f"{side} {name}", finish=was.finish, allowance=was.allowance)
    waist = dressed["back"].edge("waist")
    panel = panel.with_edge("waist", finish=waist.finish, allowance=waist.allowance)
    panel = panel.with_edge("centre back", allowance=design.allowances.seam)
    if front_seam:
        panel = panel.with_edge("centre front", allowance=design.allowances.seam, sewn_to="wrap/centre front")
    else:
        panel = panel.with_edge("centre front", finish="fold")
    fold = None if front_seam else "centre front"
    whole = replace(
        dressed["front"],
        panel=panel,
        covers="wrap",
        quantity=2 if front_seam else 1,
        mirrored=front_seam,
        fold=fold,
        spans=("front", "back"),
    )
    others = [_sewn_to_wrap(part) for part in parts if part.covers == "gusset"]
    lining = [
        replace(part, panel=replace(panel, name="wrap lining"), covers="wrap", fold=fold, quantity=whole.quantity,
                mirrored=front_seam, spans=whole.spans)
        for part in parts
        if part.lining and part.covers == "front"
    ]  # fmt: skip
    return (whole, *others, *lining)


def _sewn_to_wrap(gusset: Part) -> Part:
    for end in ("front", "back"):
        gusset = gusset.with_edge(end, sewn_to=f"wrap/{end} gusset")
    return gusset


def _finished(panel: Panel, edge: str, finish: Finish) -> Panel:
    return panel.with_edge(edge, finish=report_word(finish), allowance=edge_allowance(finish), sewn_to=None)


def _body_part(design: Design, panel: Panel, angle: float, seam: bool) -> Part:
    name: PanelName = "front" if panel.name == "front" else "back"
    finishes, allowance = design.finishes, design.allowances.seam
    panel = _finished(panel, "waist", finishes.waist)
    panel = _finished(panel, "leg", finishes.front_leg if name == "front" else finishes.back_leg)
    for edge in ("gusset", "side"):
        panel = panel.with_edge(edge, allowance=allowance)
    if finishes.side is not None:
        panel = _finished(panel, "side", finishes.side)
    centre = f"centre {name}"
    if seam:
        panel = panel.with_edge(centre, allowance=allowance, sewn_to=f"{name}/{centre}")
    else:
        panel = panel.with_edge(centre, finish="fold")
    return Part(
        panel,
        design.cloth_of(name).name,
        name,
        greatest_stretch=stretch_direction(design, name, angle),
        quantity=2 if seam else 1,
        mirrored=seam,
        fold=None if seam else centre,
    )


def stretch_direction(design: Design, panel: str, angle: float) -> float:
    """Direction of greatest stretch (degrees from x) of the cloth of ``panel`` whose length lies at ``angle``."""
    cloth = design.cloth_of(panel)
    turned = angle if cloth.stretches_most == "length" else angle - 90.0
    return (turned + 90.0) % 180.0 - 90.0


def _gusset_part(design: Design, panel: Panel, angle: float) -> Part:
    panel = _finished(panel, "leg", design.finishes.gusset_leg)
    for edge in ("front", "back"):
        panel = panel.with_edge(edge, allowance=design.allowances.seam)
    panel = panel.with_edge("centre gusset", finish="fold")
    return Part(
        panel,
        design.cloth_of("gusset").name,
        "gusset",
        greatest_stretch=stretch_direction(design, "gusset", angle),
        fold="centre gusset",
    )


def _lining(design: Design, part: Part) -> Part | None:
    name = getattr(design.panels, f"{part.covers}_lining")
    if not name:
        return None
    cloth = design.cloths[name]
    panel = replace(part.panel, name=f"{part.name} lining")
    if cloth.stretches_most != "width":
        angle = 0.0
    else:
        angle = usual_angle(cloth) - 90.0
    return replace(part, panel=panel, cloth=name, greatest_stretch=angle, lining=True)
