"""Carries a seam plan out: on the draft where lines move, on the dressed parts where pieces join."""

from __future__ import annotations

from galloon.design import Design, Use
from galloon.drafting import Draft
from galloon.findings import Finding
from galloon.styling.assemble import dress_wrap
from galloon.styling.centre_shape import shape_centres
from galloon.styling.grown_gusset import grow_gusset
from galloon.styling.model import Part
from galloon.styling.plan import SeamPlan
from galloon.styling.side_forward import move_side
from galloon.styling.wrap import wrap_panel


def planned_draft(
    design: Design, draft: Draft, plan: SeamPlan, straight: frozenset[str]
) -> tuple[Draft, tuple[Finding, ...]]:
    """The draft with its side seam moved and its centre seams shaped; one with straight lace legs was moved before."""
    found: tuple[Finding, ...] = ()
    if plan.forward and not straight:
        straight_waist = any(use.use is Use.PANEL and use.edge_on == "waist" for use in design.lace)
        draft, found = move_side(draft, plan.forward, straight_waist=straight_waist)
    shapes = {"front": design.style.centre_front_shape, "back": design.style.centre_back_shape}
    if any(shapes.values()) and not plan.wrap:
        draft, more = shape_centres(draft, shapes)
        found = (*found, *more)
    return draft, found


def planned_parts(
    design: Design, draft: Draft, parts: tuple[Part, ...], plan: SeamPlan
) -> tuple[tuple[Part, ...], tuple[Finding, ...]]:
    """The dressed parts joined as the plan says: front and back in one, or the gusset on one of them."""
    if plan.wrap:
        panel, found = wrap_panel(draft)
        return dress_wrap(design, panel, parts, front_seam="front" in plan.seams), found
    return grow_gusset(parts, plan.gusset), ()
