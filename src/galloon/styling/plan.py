"""The seam plan a design can have: what its style asks, less what its lace and cloths rule out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from galloon.design import Design, GussetPlan, Shape, Split, Use
from galloon.drafting import NARROW_BACKS, NarrowBack
from galloon.findings import Finding, Status
from galloon.said import Said, Term, listed, said
from galloon.styling.assemble import centre_is_seam


@dataclass(frozen=True)
class SeamPlan:
    """``forward`` mm the side seam moves; ``wrap``: no side seam; ``seams`` the panels with a centre seam."""

    forward: float = 0.0
    wrap: bool = False
    gusset: GussetPlan = GussetPlan.SET_IN
    seams: frozenset[str] = frozenset()
    narrow: NarrowBack | None = None
    splits: tuple[Split, ...] = ()


def seam_plan(design: Design, straight: frozenset[str]) -> tuple[SeamPlan, tuple[Finding, ...]]:
    """The plan in force and what gave way. ``straight`` are the panels whose leg is a lace's own straight edge."""
    style = design.style
    narrow = NARROW_BACKS.get(style.shape)
    found = list(_against_narrow(style.shape, straight))
    if "back" in straight:
        narrow = None
    against = list(_against_wrap(design)) if style.side_forward is None else []
    wrap = style.side_forward is None and not against
    grown = list(_against_grown(design, wrap))
    gusset = GussetPlan.SET_IN if grown else style.gusset
    seams = set(straight) | {panel for panel in ("front", "back") if centre_is_seam(design, panel)}
    if gusset is GussetPlan.CENTRE_SEAM:
        seams.add("back")
        found += _through_gusset(design)
    splits, barred = _splits(design, wrap)
    found += [*against, *grown, *barred, *_other_cloth(design, gusset), *_straight_forward(design, straight)]
    return SeamPlan(style.side_forward or 0.0, wrap, gusset, frozenset(seams), narrow, splits), tuple(found)


def _laced(design: Design, panel: str) -> str:
    """The use of the lace that makes ``panel`` or its edges, or ""; what is sewn on its face asks nothing of it."""
    made = (use for use in design.lace if use.use not in (Use.OVERLAY, Use.APPLIQUE))
    return next((use.use.value for use in made if panel in use.panels), "")


def _clash(name: str, says: Said, about: str, status: Status = Status.FAIL) -> Finding:
    return Finding(name, status, says, about=about)


def _against_narrow(shape: Shape, straight: frozenset[str]) -> Iterator[Finding]:
    if shape in NARROW_BACKS and "back" in straight:
        says = said(
            "A {shape} needs a curved back leg and the lace along the back leg is straight; the back was drawn with "
            "the seat coverage of the style instead. Use the lace as a panel or an overlay, or choose another shape.",
            shape=Term(shape.value),
        )
        yield _clash(f"{shape.value} back", says, "back/leg", Status.WARN)


def _against_wrap(design: Design) -> Iterator[Finding]:
    kept = said("the side seams were kept.")
    if design.open_side is not None:
        says = said(
            "Front and back in one piece have no side to open; they were cut apart, with open sides "
            '(side_seam = "none" and [open_side] do not go together).'
        )
        yield _clash("no side seam", says, "side")
        kept = said("the sides were left open.")
    for panel in ("front", "back"):
        if use := _laced(design, panel):
            says = said(
                "No side seams and lace on the {panel} ({use}) do not go together: the piece that wraps has no "
                "{panel} of its own; {kept}",
                panel=Term(panel), use=Term(use), kept=kept,
            )  # fmt: skip
            yield _clash("no side seam", says, "side")
    panels = design.panels
    if panels.front != panels.back:
        says = said(
            "Without side seams all is cut from one cloth, but the front is {front} and the back {back}; {kept}",
            front=panels.front, back=panels.back, kept=kept,
        )  # fmt: skip
        yield _clash("no side seam", says, "side")
    if panels.front_lining != panels.back_lining:
        says = said("Without side seams front and back have one lining, or none; {kept}", kept=kept)
        yield _clash("no side seam", says, "side")
    if not centre_is_seam(design, "back"):
        says = said(
            "Without side seams a centre back seam must take the shaping, but there is to be none (centre_back_seam); "
            "{kept}",
            kept=kept,
        )
        yield _clash("no side seam", says, "back/centre back")
    elif design.style.centre_back_shape or design.style.centre_front_shape:
        says = said(
            "Without side seams all the shaping is in the centre back seam, so no other shaping goes with it "
            "(centre_back_shape, centre_front_shape); {kept}",
            kept=kept,
        )
        yield _clash("no side seam", says, "back/centre back")


def _against_grown(design: Design, wrap: bool) -> Iterator[Finding]:
    plan = design.style.gusset
    if plan is GussetPlan.SET_IN:
        return
    panel = "front" if plan is GussetPlan.ON_FRONT else "back"
    if wrap:
        says = said(
            "Without side seams the gusset cannot be in one with front or back: the piece that wraps ends at both "
            'gusset seams; the gusset was set in (not gusset = "{plan}").',
            plan=plan.value,
        )
        yield _clash("gusset grown on", says, "gusset")
    elif use := _laced(design, panel):
        says = said(
            "A gusset in one with the {panel} would carry its lace ({use}) between the legs; the gusset was set in "
            '(not gusset = "{plan}").',
            panel=Term(panel), use=Term(use), plan=plan.value,
        )  # fmt: skip
        yield _clash("gusset grown on", says, f"{panel}/gusset")


def _through_gusset(design: Design) -> list[Finding]:
    if design.style.shape in NARROW_BACKS:
        return []
    says = said(
        "A centre seam through the gusset is usual on a tanga or a thong; on a {shape} it lies where one sits. A "
        'gusset that is set in, or in one with the back, avoids it (gusset = "set in" or "on back").',
        shape=Term(design.style.shape.value),
    )
    return [_clash("centre seam through the gusset", says, "back/centre back", Status.WARN)]


def _other_cloth(design: Design, plan: GussetPlan) -> list[Finding]:
    if plan is GussetPlan.SET_IN:
        return []
    panel = "front" if plan is GussetPlan.ON_FRONT else "back"
    cloth = design.cloth_of(panel).name
    if design.cloth_of("gusset").name == cloth:
        return []
    says = said(
        "The gusset is grown on to the {panel}, so it is cut from {cloth}, not from {other}.",
        panel=Term(panel), cloth=cloth, other=design.cloth_of("gusset").name,
    )  # fmt: skip
    return [_clash("gusset grown on", says, f"{panel}/gusset", Status.WARN)]


def _splits(design: Design, wrap: bool) -> tuple[tuple[Split, ...], list[Finding]]:
    kept, found = [], []
    for split in design.style.splits:
        why = said("no side seams") if wrap else Term(_laced(design, split.panel))
        if not why:
            kept.append(split)
            continue
        says = said(
            "A style line across the {panel} and {why} do not go together; the {panel} was not split. A V inset cuts a "
            "panel along its lace.",
            panel=Term(split.panel), why=why,
        )  # fmt: skip
        found.append(_clash("style line", says, split.panel))
    return tuple(kept), found


def _straight_forward(design: Design, straight: frozenset[str]) -> list[Finding]:
    if not straight or not design.style.side_forward:
        return []
    says = said(
        "The lace along the {panels} leg runs straight to the side seam, wherever that is: moved forward, it changes "
        "the leg opening, and front and back are drawn anew to it.",
        panels=listed([Term(panel) for panel in sorted(straight)]),
    )
    return [_clash("side seam forward", says, "side", Status.WARN)]
