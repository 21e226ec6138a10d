"""The wearer from her table, with the two lengths that may be estimated and what is unusual about the figures."""

from __future__ import annotations

from types import MappingProxyType
from typing import TYPE_CHECKING, Final

from galloon.body import Estimate, Wearer, estimate_crotch_length, estimate_waist_to_hip, plausibility
from galloon.brief.faults import Faults
from galloon.findings import Finding, Status
from galloon.said import Term, said
from galloon.units import format_length

if TYPE_CHECKING:
    from galloon.brief.schema import WearerTable


#: Values for a second look at the rest when one of these is missing or faulty; no wearer is ever made of them.
_STAND_IN: Final = {"waist": 740.0, "hip": 1000.0, "waist_to_hip": 50.0, "crotch_length": 1500.0}


def build_wearer(table: WearerTable, faults: Faults) -> Wearer | None:
    """The wearer, None where a length is missing or a measurement impossible."""
    estimated = _estimates(table)
    for name, basis in (("waist_to_hip", said("the height")), ("crotch_length", said("the hip girth"))):
        if getattr(table, name) is None and name not in estimated:
            ask = said(
                "Measure it, or write estimate = true in [wearer] to have it reckoned from {basis} for a first try.",
                basis=basis,
            )
            needs_height = said("Estimating it needs the height.") if table.estimate else ask
            faults.missing(("wearer", name), needs_height)
    taken = {name: value for name, value in table.model_dump(exclude={"estimate"}).items() if value is not None}
    reckoned = {name: estimate.value for name, estimate in estimated.items()}
    values = {**_STAND_IN, **taken, **reckoned, "estimated": MappingProxyType(estimated)}
    return faults.make(("wearer",), Wearer, values, _STAND_IN)


def _estimates(table: WearerTable) -> dict[str, Estimate]:
    estimated: dict[str, Estimate] = {}
    if table.estimate and table.waist_to_hip is None and table.height is not None:
        estimated["waist_to_hip"] = estimate_waist_to_hip(table.height)
    if table.estimate and table.crotch_length is None:
        estimated["crotch_length"] = estimate_crotch_length(table.hip)
    return estimated


def findings_on(wearer: Wearer, units: str) -> tuple[Finding, ...]:
    """What is unusual or only estimated about the measurements."""
    return (
        *plausibility(wearer),
        *(_estimated(name, estimate, units) for name, estimate in wearer.estimated.items()),
    )


def _estimated(name: str, estimate: Estimate, units: str) -> Finding:
    says = said(
        "{what:C} was not measured: {length} is {how}, and the true length may well lie {spread} to either side. "
        "Please measure it before cutting.",
        what=Term(name.replace("_", " ")), length=format_length(estimate.value, units), how=estimate.how,
        spread=format_length(2 * estimate.spread, units),
    )  # fmt: skip
    return Finding("estimated measurement", Status.WARN, says, value=estimate.value, unit="mm", about=f"wearer {name}")
