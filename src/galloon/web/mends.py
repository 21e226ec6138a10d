"""What would mend a finding: small changes of the brief, each tried with the engine, offered only if it helps."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from galloon.design import Design, Lie, Use
from galloon.errors import BadInput, CannotMake
from galloon.findings import Finding, Status
from galloon.units import format_length
from galloon.web.desk import Change, Data, Desk, changed
from galloon.web.words import Words
from galloon.workflow.job import Judged, bounds_of, reckon_bounds

#: Steps tried when a line is moved, mm.
_STEPS: Final = (10.0, 25.0, 50.0)

Mend = tuple[str, list[Change]]


def mends(desk: Desk, name: str, about: str, words: Words) -> list[dict[str, Any]]:
    """Changes after which the finding called ``about`` weighs less and nothing else weighs more; the mildest first."""
    data = desk.document(name).data
    design = desk.read(data).design
    before = bounds_of(desk.garment(name))
    weight = _weights(before.findings)
    found = []
    for label, changes in candidates(design, before, words):
        after = _tried(desk, changed(data, changes))
        if after is not None and _better(weight, _weights(after.findings), about):
            found.append({"label": label, "changes": [[list(path), value] for path, value in changes]})
    return found[:4]


def candidates(design: Design, judged: Judged, words: Words) -> Iterator[Mend]:
    """Changes worth trying, the mildest first."""
    yield from _lines(design, judged, words)
    yield from _laces(design, words)
    for panel in ("front", "back"):
        if not getattr(design.panels, f"{panel}_lining"):
            for cloth in design.cloths.values():
                if cloth.lace is None and cloth.name != getattr(design.panels, panel):
                    label = words("mend.lining", panel=words(f"panel.{panel}"), cloth=cloth.name)
                    yield label, [(("panels", f"{panel}_lining"), cloth.name)]
    in_lace = {use.cloth for use in design.lace}
    for panel in ("front", "back"):
        for cloth in design.cloths.values():
            if cloth.name not in in_lace and getattr(design.panels, panel) not in (cloth.name, *in_lace):
                label = words("mend.cloth", panel=words(f"panel.{panel}"), cloth=cloth.name)
                yield label, [(("panels", panel), cloth.name)]


def _lines(design: Design, judged: Judged, words: Words) -> Iterator[Mend]:
    style, unit, draft = design.style, design.units, judged.garment.draft
    if style.waist_drop is not None:
        yield words("mend.waist_auto"), [(("style", "waist_drop"), "auto")]
    for by in _STEPS:
        how = format_length(by, unit)
        yield words("mend.waist_lower", by=how), [(("style", "waist_drop"), f"{draft.side_drop + by:.1f} mm")]
        yield words("mend.leg_lower", by=how), [(("style", "leg_raise"), f"{style.leg_raise - by:.1f} mm")]
        yield words("mend.leg_raise", by=how), [(("style", "leg_raise"), f"{style.leg_raise + by:.1f} mm")]
    if not style.centre_back_seam:
        yield words("mend.seam"), [(("style", "centre_back_seam"), True)]


def _laces(design: Design, words: Words) -> Iterator[Mend]:
    for index, use in enumerate(design.lace):
        if use.use is not Use.SCALLOPED_LEG:
            continue
        other = Lie.UPRIGHT if use.lie_on(use.panels[0]) is Lie.ALONG_LEG else Lie.ALONG_LEG
        yield words("mend.lie"), [(("lace", index, "lie"), other.value)]
        upper = next((cloth.name for cloth in design.cloths.values() if cloth.lace is None), "")
        if upper and use.panels == ("back",):
            yield words("mend.v"), [(("lace", index, "use"), "V inset"), (("lace", index, "upper_cloth"), upper)]
        zone = f"{use.panels[0]}_leg"
        yield words("mend.soft"), [(("finish", zone), "scallop with soft elastic 6 mm behind")]


def _tried(desk: Desk, data: Data) -> Judged | None:
    try:
        return reckon_bounds(desk.read(data).design)
    except (BadInput, CannotMake):
        return None


def _weights(findings: tuple[Finding, ...]) -> dict[str, int]:
    found: dict[str, int] = {}
    for one in findings:
        found[one.name] = max(found.get(one.name, 0), one.status.weight)
    return found


def _better(before: dict[str, int], after: dict[str, int], about: str) -> bool:
    if after.get(about, 0) >= before.get(about, 0):
        return False
    fails = Status.FAIL.weight
    return all(weight < fails or before.get(name, 0) >= weight for name, weight in after.items())
