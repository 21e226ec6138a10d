"""From a design to its garment: reductions, frame, laces' needs, draft, parts, laces, pieces."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from galloon.design import Design, Drops
from galloon.drafting import Frame, Lines, Reductions, draft_block, held_leg
from galloon.findings import Finding, Status
from galloon.lace import (
    TECHNIQUES,
    DropNeed,
    Placement,
    Scene,
    fit_drops,
    implied_uses,
    lay_order,
    match_sides,
    straight_legs,
    workable,
)
from galloon.lace.style_lines import split_panels
from galloon.pieces import Garment, make_piece, off_strip
from galloon.said import Term, said
from galloon.styling import (
    Part,
    SeamPlan,
    Share,
    assemble,
    centre_is_seam,
    hold_trims,
    lap_seams,
    open_sides,
    place_straps,
    planned_draft,
    planned_parts,
    room_for_trims,
    seam_plan,
    settle,
    usual_angle,
)
from galloon.tolerance import ON_LACE

#: Passes in which a drop is deepened until the whole cut outline lies on lace.
_PASSES = 6


def make_garment(design: Design) -> Garment:
    """The garment of a design. Raises CannotMake where the body leaves no panel at all."""
    uses, clashes = workable((*design.lace, *implied_uses(design)), open_side=design.open_side is not None)
    design, too_wide = hold_trims(dressed(replace(design, lace=uses)))
    straight = straight_legs(design.lace)
    plan, barred = seam_plan(design, straight)
    frame, cut, angles, notes = settle(design, _base_angles(design), straight, plan=plan)
    leg = held_leg(frame, frame.leg - design.style.leg_raise)
    if shares := _shares(design, frame, leg):
        frame, cut, angles, notes = settle(design, _base_angles(design), straight, shares=shares, plan=plan)
        leg = held_leg(frame, frame.leg - design.style.leg_raise)
    notes = (*notes, *clashes, *too_wide, *barred)
    needs = tuple(need for use in design.lace for need in TECHNIQUES[use.use].drop_needs(use, design, frame, leg))
    garment = _garment(design, frame, cut, angles, needs=needs, straight=straight, plan=plan, notes=notes)
    for _ in range(_PASSES):
        over = _off_lace(garment)
        if not over or design.style.waist_drop is not None:
            break
        needs = tuple(replace(need, drop=need.drop + over.get(need.panel, 0.0)) for need in needs)
        deeper = _garment(design, frame, cut, angles, needs=needs, straight=straight, plan=plan, notes=notes)
        if deeper.draft.back_drop <= garment.draft.back_drop and deeper.draft.front_drop <= garment.draft.front_drop:
            break
        garment = deeper
    return garment


def dressed(design: Design) -> Design:
    """The design with the finishes its lace uses make."""
    for use in design.lace:
        design = TECHNIQUES[use.use].dress(use, design)
    return design


def _shares(design: Design, frame: Frame, leg: float) -> dict[str, tuple[Share, ...]]:
    """Panels that a lace use makes of several cloths side by side, as they share the width of a first frame."""
    found: dict[str, tuple[Share, ...]] = {}
    for use in design.lace:
        found.update(TECHNIQUES[use.use].shares(use, design, frame, leg))
    return found


def _base_angles(design: Design) -> dict[str, float]:
    angles = {panel: usual_angle(design.cloth_of(panel)) for panel in ("front", "back", "gusset")}
    for use in design.lace:
        angles.update(TECHNIQUES[use.use].angles(use, design))
    return angles


def _garment(
    design: Design,
    frame: Frame,
    cut: Reductions,
    angles: Mapping[str, float],
    *,
    needs: tuple[DropNeed, ...],
    straight: frozenset[str],
    plan: SeamPlan,
    notes: tuple[Finding, ...],
) -> Garment:
    leg = held_leg(frame, frame.leg - design.style.leg_raise)
    fit = fit_drops(design, needs, frame, leg)
    lines = Lines(fit.drops, frame.leg - design.style.leg_raise, design.style.coverage, straight, plan.narrow)
    draft, cut_back = draft_block(frame, lines)
    draft, reshaped = planned_draft(design, draft, plan, straight)
    design, draft, opened = open_sides(design, draft, cut)
    design, cramped = room_for_trims(design, draft)
    scene = Scene(design, draft.frame, draft, lines, cut, angles)
    parts, joined = planned_parts(design, draft, assemble(design, draft, angles, plan.seams), plan)
    parts, cut_up = split_panels(design, plan.splits, parts)
    parts, placements, found = _lay_laces(scene, parts)
    parts, lapped = lap_seams(design, parts)
    parts = place_straps(design, parts)
    found = (*found, *reshaped, *opened, *cramped, *joined, *cut_up, *lapped)
    return Garment(
        scene,
        parts,
        tuple(make_piece(part) for part in parts),
        placements,
        needs,
        (*notes, *fit.findings, *cut_back, *found, *_added_seams(design, straight)),
    )


def _lay_laces(
    scene: Scene, parts: tuple[Part, ...]
) -> tuple[tuple[Part, ...], tuple[Placement, ...], tuple[Finding, ...]]:
    placements: tuple[Placement, ...] = ()
    found: tuple[Finding, ...] = ()
    for use in lay_order(scene.design.lace):
        laced = TECHNIQUES[use.use].apply(use, scene, parts)
        parts, placements, found = laced.parts, (*placements, *laced.placements), (*found, *laced.findings)
    parts, placements = match_sides(scene, parts, placements)
    return parts, placements, found


def _added_seams(design: Design, straight: frozenset[str]) -> tuple[Finding, ...]:
    return tuple(
        Finding(
            "centre seam added",
            Status.WARN,
            said(
                "A lace along both legs slants, so the {panel} cannot be cut on a fold; a {seam} was added.",
                panel=Term(panel),
                seam=Term(f"centre {panel} seam"),
            ),
            about=f"{panel}/centre {panel}",
        )
        for panel in sorted(straight)
        if not centre_is_seam(design, panel)
    )


def _off_lace(garment: Garment) -> dict[str, float]:
    """By panel, how much deeper (mm) the waist must drop for the cut outline to come on to the lace."""
    found: dict[str, float] = {}
    asking = {need.panel for need in garment.needs}
    for piece in garment.outer:
        if piece.strip is None or piece.part.laid_on or piece.part.covers not in asking:
            continue
        over = off_strip(piece)
        if over > ON_LACE:
            found[piece.part.covers] = over / abs(piece.strip.along.real)
    return found


def level_drop(garment: Garment) -> Drops:
    """The drops in force."""
    draft = garment.draft
    return Drops(draft.front_drop, draft.side_drop, draft.back_drop)
