"""Hands the pieces of a garment to the cutting planner: lace strips by their edges, cloths by their width."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Final, TypeVar

from galloon import cutting
from galloon.cutting import Plan, Progress
from galloon.errors import CannotMake
from galloon.findings import Finding, Status, refusal
from galloon.materials import Cloth
from galloon.pieces import Garment, Piece, ring_of
from galloon.report import CuttingRow
from galloon.said import said
from galloon.workflow.cutting_orders import StripOrder, order_of


@dataclass(frozen=True)
class Longer:
    """A longer search for each cloth's plan, at most ``seconds`` for each.

    ``progress`` hears the cloth's name and how its search stands; ``cancelled`` ends a search early, with the best plan
    so far.
    """

    seconds: float
    progress: Callable[[str, Progress], None] = lambda name, now: None
    cancelled: Callable[[], bool] = lambda: False


def plan_cutting(garment: Garment, longer: Longer | None = None) -> tuple[tuple[CuttingRow, ...], tuple[Finding, ...]]:
    """A plan for every cloth that a piece is cut from, in the order of the design; a finding where none can be made.

    With ``longer`` the clock ends each search, so two runs may differ. What is on hand can never do for, by the areas
    alone, is told at once and not searched longer.
    """

    short = never_enough(garment)

    def plan(cloth: Cloth, pieces: Sequence[Piece]) -> Plan:
        return _plan(garment, cloth, pieces, None if cloth.name in short else longer)

    plans, findings = _each_cloth(garment, plan)
    return tuple(CuttingRow(name, plan) for name, plan in plans.items()), (*short.values(), *findings)


def never_enough(garment: Garment) -> dict[str, Finding]:
    """By cloth, a finding where the pieces' areas alone add up to more than what is on hand, however they are laid."""
    found: dict[str, Finding] = {}
    for name, cloth in garment.design.cloths.items():
        rings = [
            tuple((float(at.real), float(at.imag)) for at in ring_of(piece))
            for piece in garment.pieces
            if piece.part.cloth == name
            for _ in range(piece.part.quantity)
        ]
        if cloth.on_hand is None or not rings:
            continue
        try:
            cutting.refuse_too_many(rings, cloth.width * cloth.on_hand, said("{cloth} on hand", cloth=name))
        except CannotMake as refused:
            found[name] = Finding("enough on hand", Status.FAIL, refusal(refused), about=f"cloth {name}")
    return found


def plan_longer(
    garment: Garment,
    cloth: str,
    *,
    seconds: float,
    progress: Callable[[Progress], None] = lambda now: None,
    cancelled: Callable[[], bool] = lambda: False,
) -> Plan:
    """The plan of one cloth after a search of at most ``seconds``; never longer than the usual plan, but for a cloth
    with more than 20 pieces, or where ``cancelled`` ends it early.

    Raises CannotMake where nothing is cut from that cloth, or no plan can be made.
    """
    pieces = [piece for piece in garment.pieces if piece.part.cloth == cloth]
    if not pieces:
        raise CannotMake(said("cloth {cloth}", cloth=cloth), said("has no piece cut from it"))
    longer = Longer(seconds, lambda _, now: progress(now), cancelled)
    return _plan(garment, garment.design.cloths[cloth], pieces, longer)


def bound_cutting(garment: Garment) -> tuple[dict[str, float], tuple[Finding, ...]]:
    """By cloth, a length (mm) that no plan is shorter than, found without searching; findings as ``plan_cutting``."""

    def bound(cloth: Cloth, pieces: Sequence[Piece]) -> float:
        order = order_of(cloth, pieces, garment.design.cutting)
        if isinstance(order, StripOrder):
            return cutting.bound_strip(order.lace, order.pieces)
        return cutting.bound_cloth(order.cloth, order.pieces)

    lengths, findings = _each_cloth(garment, bound)
    return lengths, (*never_enough(garment).values(), *findings)


@dataclass(frozen=True)
class _Planner:
    """The planner of a lace by its edges or of a cloth with a width: in reading order, as usual, searching longer."""

    plain: Callable[..., Plan]
    usual: Callable[..., Plan]
    longer: Callable[..., Plan]


_STRIP: Final = _Planner(cutting.plan_strip_plain, cutting.plan_strip, cutting.plan_strip_longer)
_CLOTH: Final = _Planner(cutting.plan_cloth_plain, cutting.plan_cloth, cutting.plan_cloth_longer)
Answer = TypeVar("Answer")


def _each_cloth(
    garment: Garment, ask: Callable[[Cloth, Sequence[Piece]], Answer]
) -> tuple[dict[str, Answer], tuple[Finding, ...]]:
    answers: dict[str, Answer] = {}
    findings = []
    for name, cloth in garment.design.cloths.items():
        pieces = [piece for piece in garment.pieces if piece.part.cloth == name]
        if not pieces:
            continue
        try:
            answers[name] = ask(cloth, pieces)
        except CannotMake as refused:
            says = said("{cloth} cannot be laid out: {why}", cloth=name, why=refusal(refused))
            findings.append(Finding("cutting plan", Status.FAIL, says, about=f"cloth {name}"))
    return answers, tuple(findings)


def _plan(garment: Garment, cloth: Cloth, pieces: Sequence[Piece], longer: Longer | None) -> Plan:
    wishes = garment.design.cutting
    order = order_of(cloth, pieces, wishes)
    planner = _STRIP if isinstance(order, StripOrder) else _CLOTH
    lies_on = order.lace if isinstance(order, StripOrder) else order.cloth
    if wishes.order == "reading":
        return planner.plain(lies_on, order.pieces)
    if longer is None:
        return planner.usual(lies_on, order.pieces)
    return planner.longer(
        lies_on,
        order.pieces,
        seconds=longer.seconds,
        progress=lambda now: longer.progress(cloth.name, now),
        cancelled=longer.cancelled,
    )


def to_buy(length: float, unit: str) -> float:
    """A length rounded up to what shops sell; 0 stays 0."""
    return cutting.length_to_buy(length, unit) if length > 0.0 else 0.0
