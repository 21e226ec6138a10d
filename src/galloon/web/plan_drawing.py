"""A cutting plan for the page: its figures in words, and the cloth with its pieces where they are cut as SVG."""

from __future__ import annotations

from collections.abc import Sequence
from html import escape
from typing import Any, Final

from galloon.cutting import Plan
from galloon.materials import Cloth
from galloon.sheets.plan_marks import edges_of, repeat_on, used_width
from galloon.units import format_length
from galloon.web.words import Words

#: Room round a plan, mm; letters of its words as a share of its longer side, as large on every plan.
_ROOM: Final = 4.0
_LETTER: Final = 0.026


def told_plan(cloth: Cloth, plan: Plan, unit: str, words: Words) -> dict[str, Any]:
    """A plan as the page shows it; a proof in the planner's own sentence, which says for which places it holds."""
    length, width, bound = (format_length(one, unit) for one in (plan.length, plan.width, plan.lower_bound))
    return {
        "cloth": cloth.name,
        "length": words("cutting.length", length=length, width=width),
        "bound": words.said(plan.says) if plan.proven else words("cutting.bound", bound=bound),
        "proven": plan.proven,
        "drawing": plan_drawing(cloth, plan, words),
    }


def plan_drawing(cloth: Cloth, plan: Plan, words: Words) -> str:
    """The plan lying along the page; x along the length, the cloth's own edges with their scallops."""
    tall = used_width(plan)
    lower, upper = edges_of(cloth, plan)
    ring = [*lower, *([(plan.length, tall), (0.0, tall)] if tall < plan.width else upper[::-1])]
    lace = " lace" if cloth.lace is not None else ""
    parts = [f'<path class="cloth{lace}" d="{_path(ring, tall)}"/>', *_picture(cloth, plan, ring, tall)]
    seen = " seen" if len(parts) > 1 else ""
    letter = _LETTER * max(plan.length, 1.6 * tall)
    for one in plan.placed:
        x, y = _middle(one.outline)
        parts.append(f'<path class="piece{seen or lace}" d="{_path(one.outline, tall)}"/>')
        parts.append(
            f'<text class="name" font-size="{letter:.1f}" x="{x:.1f}" y="{tall - y:.1f}">'
            f"{escape(words.term(one.piece))} {one.copy}</text>"
        )
    alt = escape(words("cutting.alt", cloth=cloth.name), quote=True)
    box = f"{-_ROOM} {-_ROOM} {plan.length + 2.0 * _ROOM:.1f} {tall + 2.0 * _ROOM:.1f}"
    return f'<svg class="plan" viewBox="{box}" role="img" aria-label="{alt}">{"".join(parts)}</svg>'


def _picture(cloth: Cloth, plan: Plan, ring: Sequence[tuple[float, float]], tall: float) -> list[str]:
    """Her own lace between the cloth's edges, where it has a picture."""
    if cloth.picture is None or plan.folded:
        return []
    lie, name = repeat_on(cloth, plan), cloth.picture.name
    long, wide = lie.length.real, lie.width.imag
    corners = " ".join(f"{x:.1f},{tall - y:.1f}" for x, y in ring)
    return [
        f'<pattern id="plan-{name}" patternUnits="userSpaceOnUse" x="{lie.corner.real:.3f}" y="{tall - wide:.3f}" '
        f'width="{long:.3f}" height="{wide:.3f}"><image href="/picture/{name}.png" width="{long:.3f}" '
        f'height="{wide:.3f}" preserveAspectRatio="none"/></pattern>'
        f'<polygon class="picture" points="{corners}" fill="url(#plan-{name})"/>'
    ]


def _path(ring: Sequence[tuple[float, float]], tall: float) -> str:
    return "M" + " ".join(f"{x:.1f} {tall - y:.1f}" for x, y in ring) + "Z"


def _middle(ring: Sequence[tuple[float, float]]) -> tuple[float, float]:
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return (min(xs) + max(xs)) / 2.0, (min(ys) + max(ys)) / 2.0
