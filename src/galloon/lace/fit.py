"""Chooses the waist drop the laces ask for, and says which panel governs and what the other could have kept."""

from __future__ import annotations

from dataclasses import dataclass

from galloon.design import Design, Drops
from galloon.drafting import Frame, deepest_drop, waist_line
from galloon.findings import Finding, Status
from galloon.geometry import flatten
from galloon.lace.model import DropNeed
from galloon.said import Term, in_a_row, said
from galloon.units import format_length


@dataclass(frozen=True)
class Fit:
    """The drops to draft with; ``governing`` is the need that forces them, None where no lace sets a limit."""

    drops: Drops
    governing: DropNeed | None
    findings: tuple[Finding, ...] = ()


def fit_drops(design: Design, needs: tuple[DropNeed, ...], frame: Frame, leg: float) -> Fit:
    """ "auto" takes the deepest need, level all round; set drops stay, and fail by how much too little they are."""
    governing = max(needs, key=lambda need: need.drop, default=None)
    laces = tuple(need for need in needs if not need.band)
    asked = design.style.waist_drop
    if asked is not None:
        return Fit(asked, governing, tuple(_too_high(design, need, asked) for need in laces))
    if governing is None:
        return Fit(Drops.level(0.0), None)
    level = max(0.0, governing.drop)
    most = min(deepest_drop(frame, edge, leg) for edge in ("front", "side", "back"))
    findings = [_reaches(design, need, min(level, most)) for need in laces]
    if not governing.band:
        findings.extend(_others(design, governing, needs, frame, leg))
    return Fit(Drops.level(min(level, most)), governing, tuple(findings))


def _reaches(design: Design, need: DropNeed, drop: float) -> Finding:
    return _too_high(design, need, Drops.level(drop))


def _too_high(design: Design, need: DropNeed, drops: Drops) -> Finding:
    has = drops.front if need.panel == "front" else drops.back
    short = need.drop - has
    unit = design.units
    about = f"{need.panel}/waist"
    if short <= 0.05:
        says = said("The {lace} lace covers the {panel} up to the waist line.", lace=need.cloth, panel=Term(need.panel))
        return Finding("lace reaches", Status.PASS, says, has, need.drop, "mm", about)
    wider = short / (1.0 + need.slope**2) ** 0.5
    says = said(
        "The {lace} lace ends {short} below the waist line of the {panel}: lower the waist to {drop}, let the lace set "
        'it (waist_drop = "auto"), or take a lace {wider} wider.',
        lace=need.cloth, short=format_length(short, unit), panel=Term(need.panel),
        drop=format_length(need.drop, unit), wider=format_length(wider, unit),
    )  # fmt: skip
    return Finding("lace reaches", Status.FAIL, says, has, need.drop, "mm", about)


def _others(
    design: Design, governing: DropNeed, needs: tuple[DropNeed, ...], frame: Frame, leg: float
) -> list[Finding]:
    """Which panel governs, what the rest of the garment could have kept, and the dipped back as a way to keep it."""
    unit = design.units
    level = max(0.0, governing.drop)
    other = "front" if governing.panel == "back" else "back"
    kept = max([0.0, *(need.drop for need in needs if need.panel == other)])
    if level <= 0.0:
        says = said(
            "The {lace} lace is wide enough for the whole {panel}; nothing has to be lowered.",
            lace=governing.cloth, panel=Term(governing.panel),
        )  # fmt: skip
        return [Finding("what governs the waist", Status.PASS, says, 0.0, 0.0, "mm", f"{governing.panel}/waist")]
    says = said(
        "The {panel} governs: its lace asks for a waist {level} lower all round; the {other} alone could have kept "
        "{kept}.",
        panel=Term(governing.panel), level=format_length(level, unit), other=Term(other),
        kept=format_length(kept, unit),
    )  # fmt: skip
    side = dipped_side(governing, frame, leg)
    if governing.panel == "back" and side < level - 5.0:
        dipped = said(
            "A back dipped below the sides would keep {left} from the waist to the leg at the side: lower the waist by "
            "{front} in front, {side} at the sides and {back} behind (waist_drop).",
            left=format_length(leg - side, unit), front=format_length(max(kept, 0.0), unit),
            side=format_length(side, unit), back=format_length(level, unit),
        )  # fmt: skip
        says = in_a_row(" ", [says, dipped])
    return [Finding("what governs the waist", Status.PASS, says, level, kept, "mm", f"{governing.panel}/waist")]


def dipped_side(need: DropNeed, frame: Frame, leg: float) -> float:
    """The least side drop (mm) at which a panel whose centre drops as the lace asks still lies on it; bisection on
    the waist line.
    """
    if need.slope <= 0.0:
        return need.drop
    level = max(0.0, need.drop)
    low, high = 0.0, level
    while high - low > 0.02:
        middle = (low + high) / 2.0
        line = waist_line(frame, need.panel, middle, level, side_left=leg - middle)
        points = flatten((line,), 0.5)
        over = float((points.imag - need.slope * points.real).max()) + level
        low, high = (low, middle) if over <= 0.0 else (middle, high)
    return high
