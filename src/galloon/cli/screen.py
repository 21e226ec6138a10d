"""A reckoned design as text for a terminal: the headline first, then what matters most."""

from __future__ import annotations

from galloon.checks import coverage_word
from galloon.cli.render import plain, sentence, table
from galloon.findings import Finding, Status
from galloon.report import Made
from galloon.units import format_length

_WORDS = {
    Status.PASS: "good to sew",
    Status.WARN: "can be sewn; read the warnings",
    Status.FAIL: "not yet: something fails",
}
_MARKS = {Status.FAIL: "FAIL", Status.WARN: "warn", Status.PASS: "ok"}


def headline(made: Made) -> str:
    """Title, verdict and every failure, a few lines."""
    lines = [f"{plain(made.garment.design.title)}: {_WORDS[made.verdict]}."]
    lines += [_line(finding) for finding in made.findings if finding.status is Status.FAIL]
    return "\n".join(lines)


def screen(made: Made) -> str:
    """Everything worth reading, heaviest first."""
    blocks = [headline_only(made), _figures(made)]
    heavy = [finding for finding in made.findings if finding.status is not Status.PASS]
    blocks += (
        ["\n".join(_line(finding) for finding in sorted(heavy, key=lambda one: -one.status.weight))] if heavy else []
    )
    good = [finding for finding in made.findings if finding.status is Status.PASS]
    blocks.append("\n".join(_line(finding) for finding in good))
    blocks.append(_lengths(made))
    return "\n\n".join(block for block in blocks if block)


def headline_only(made: Made) -> str:
    """Title and verdict."""
    return f"{plain(made.garment.design.title)}: {_WORDS[made.verdict]}."


def _line(finding: Finding) -> str:
    return sentence(f"{_MARKS[finding.status]:>5}  {finding.says}", indent="")


def _figures(made: Made) -> str:
    garment = made.garment
    unit, draft = garment.design.units, garment.draft
    rows = [
        ("waist drop", ", ".join(
            f"{name} {format_length(drop, unit)}"
            for name, drop in (("front", draft.front_drop), ("side", draft.side_drop), ("back", draft.back_drop))
        )),
        ("side seam" if garment.design.open_side is None else "open side", format_length(garment.side_seam, unit)),
        ("less girth than the body", f"front {garment.reductions.front:.1%}, back {garment.reductions.back:.1%}"),
    ]  # fmt: skip
    if garment.placements:
        rows.append(("coverage", coverage_word(garment)))
    return "\n".join(f"{name:<26}{value}" for name, value in rows)


def _lengths(made: Made) -> str:
    unit = made.garment.design.units
    rows = [(row.cloth, format_length(row.plan.length, unit)) for row in made.cutting]
    rows += [(f"{row.edge}: {row.kind}", format_length(row.cut_length, unit)) for row in made.elastic]
    return table(("cut from", "length"), rows, right=(1,)) if rows else ""
