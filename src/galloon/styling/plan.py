"""The seam plan a design can have: what its style asks, less what its lace and cloths rule out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from galloon.design import Design, GussetPlan, Shape, Split, Use
from galloon.drafting import NARROW_BACKS, NarrowBack
from galloon.findings import Finding, Status
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


def _clash(name: str, says: str, about: str, status: Status = Status.FAIL) -> Finding:
    return Finding(name, status, says, about=about)


def _against_narrow(shape: Shape, straight: frozenset[str]) -> Iterator[Finding]:
    if shape in NARROW_BACKS and "back" in straight:
        says = (
            f"A {shape.value} needs a curved back leg and the lace along the back leg is straight; "
            "the back was drawn with the seat coverage of the style instead. "
            "Use the lace as a panel or an overlay, or choose another shape."
        )
        yield _clash(f"{shape.value} back", says, "back/leg", Status.WARN)


def _against_wrap(design: Design) -> Iterator[Finding]:
    kept = "the side seams were kept."
    if design.open_side is not None:
        says = (
            'side_seam = "none" and [open_side] do not go together: front and back in one piece have no side to open; '
            "they were cut apart, with open sides."
        )
        yield _clash("no side seam", says, "side")
        kept = "the sides were left open."
    for panel in ("front", "back"):
        if use := _laced(design, panel):
            says = (
                f'side_seam = "none" and lace on the {panel} ({use}) do not go together: '
                f"the piece that wraps has no {panel} of its own; {kept}"
            )
            yield _clash("no side seam", says, "side")
    panels = design.panels
    if panels.front != panels.back:
        says = f'side_seam = "none" needs one cloth, but the front is {panels.front} and the back {panels.back}; {kept}'
        yield _clash("no side seam", says, "side")
    if panels.front_lining != panels.back_lining:
        says = f'side_seam = "none" needs one lining for front and back, or none; {kept}'
        yield _clash("no side seam", says, "side")
    if not centre_is_seam(design, "back"):
        says = f'side_seam = "none" needs a centre back seam to take its shaping, but centre_back_seam is false; {kept}'
        yield _clash("no side seam", says, "back/centre back")
    elif design.style.centre_back_shape or design.style.centre_front_shape:
        says = (
            'side_seam = "none" puts all its shaping into the centre back seam, so centre_back_shape and '
            f"centre_front_shape do not go with it; {kept}"
        )
        yield _clash("no side seam", says, "back/centre back")


def _against_grown(design: Design, wrap: bool) -> Iterator[Finding]:
    plan = design.style.gusset
    if plan is GussetPlan.SET_IN:
        return
    panel = "front" if plan is GussetPlan.ON_FRONT else "back"
    if wrap:
        says = (
            f'gusset = "{plan.value}" and side_seam = "none" do not go together: the piece that wraps ends at both '
            "gusset seams; the gusset was set in."
        )
        yield _clash("gusset grown on", says, "gusset")
    elif use := _laced(design, panel):
        says = (
            f'gusset = "{plan.value}" would carry the lace of the {panel} ({use}) between the legs; '
            "the gusset was set in."
        )
        yield _clash("gusset grown on", says, f"{panel}/gusset")


def _through_gusset(design: Design) -> list[Finding]:
    if design.style.shape in NARROW_BACKS:
        return []
    says = (
        "A centre seam through the gusset is usual on a tanga or a thong; "
        f"on a {design.style.shape.value} it lies where one sits. "
        'gusset = "set in" or "on back" avoids it.'
    )
    return [_clash("centre seam through the gusset", says, "back/centre back", Status.WARN)]


def _other_cloth(design: Design, plan: GussetPlan) -> list[Finding]:
    if plan is GussetPlan.SET_IN:
        return []
    panel = "front" if plan is GussetPlan.ON_FRONT else "back"
    cloth = design.cloth_of(panel).name
    if design.cloth_of("gusset").name == cloth:
        return []
    says = (
        f"The gusset is grown on to the {panel}, so it is cut from {cloth}, not from {design.cloth_of('gusset').name}."
    )
    return [_clash("gusset grown on", says, f"{panel}/gusset", Status.WARN)]


def _splits(design: Design, wrap: bool) -> tuple[tuple[Split, ...], list[Finding]]:
    kept, found = [], []
    for split in design.style.splits:
        why = 'side_seam = "none"' if wrap else _laced(design, split.panel)
        if not why:
            kept.append(split)
            continue
        says = (
            f"A style line across the {split.panel} and {why} do not go together; the {split.panel} was not split. "
            "A V inset cuts a panel along its lace."
        )
        found.append(_clash("style line", says, split.panel))
    return tuple(kept), found


def _straight_forward(design: Design, straight: frozenset[str]) -> list[Finding]:
    if not straight or not design.style.side_forward:
        return []
    says = (
        f"The lace along the {' and '.join(sorted(straight))} leg runs straight to the side seam, wherever that is: "
        "moved forward, it changes the leg opening, and front and back are drawn anew to it."
    )
    return [_clash("side seam forward", says, "side", Status.WARN)]
