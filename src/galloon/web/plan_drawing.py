"""A cutting plan for the page: its figures in words, and the cloth with its pieces where they are cut as SVG."""

from __future__ import annotations

from html import escape
from typing import Any

import numpy as np

from galloon.cutting import Plan
from galloon.units import format_length
from galloon.web.words import Words


def told_plan(cloth: str, plan: Plan, unit: str, words: Words) -> dict[str, Any]:
    """A plan as the page shows it; a proof in the planner's own sentence, which says for which places it holds."""
    length, width, bound = (format_length(one, unit) for one in (plan.length, plan.width, plan.lower_bound))
    return {
        "cloth": cloth,
        "length": words("cutting.length", length=length, width=width),
        "bound": plan.says if plan.proven else words("cutting.bound", bound=bound),
        "proven": plan.proven,
        "drawing": plan_drawing(plan, words("cutting.alt", cloth=cloth)),
    }


def plan_drawing(plan: Plan, alt: str) -> str:
    """The plan lying along the page; x along the length, the cloth's lower edge below."""
    top = max((y for one in plan.placed for _, y in one.outline), default=plan.width)
    tall = plan.width if top > 0.6 * plan.width else min(plan.width, top + 40.0)
    parts = [f'<rect class="cloth" x="0" y="0" width="{plan.length:.1f}" height="{tall:.1f}"/>']
    for one in plan.placed:
        ring = np.array(one.outline)
        steps = " ".join(f"{x:.1f} {tall - y:.1f}" for x, y in ring)
        middle = ring.mean(axis=0)
        parts.append(f'<path class="piece" d="M{steps}Z"/>')
        parts.append(
            f'<text class="name" x="{middle[0]:.1f}" y="{tall - middle[1]:.1f}">{escape(one.piece)} {one.copy}</text>'
        )
    box = f"-4 -4 {plan.length + 8.0:.1f} {tall + 8.0:.1f}"
    return f'<svg class="plan" viewBox="{box}" role="img" aria-label="{escape(alt, quote=True)}">{"".join(parts)}</svg>'
