"""Writes docs/finishes.md from the table of edge finishes and the table of usual elastics."""

import textwrap
from pathlib import Path

from galloon import defaults
from galloon.materials import usual_kinds
from galloon.styling import FINISH_TABLE, FinishRow

TARGET = Path(__file__).parents[1] / "docs" / "finishes.md"
HEAD = """# Edge finishes

Every open edge gets one: waist, front leg, back leg, and the gusset's leg edge, which goes on as the front leg unless
you say otherwise. This page is made by `scripts/finish_page.py` from the table the program works with
(`src/galloon/styling/finish_table.py`), which you may edit.

```toml
[finish]
waist = "picot elastic 10 mm"
front_leg = "fold-over elastic 15 mm"
back_leg = "scallop"
gusset_leg = "picot elastic 8 mm"
```

What you can write: an elastic by its name and width (below, or one of your own); `"fold-over NAME"` or `"strap NAME"`
to use any elastic that way; `"lace trim NAME"` for a stretch lace laid on; `"scallop"`, or `"scallop with NAME"` for a
soft elastic behind it; `"hem 8 mm"`; `"binding 7 mm"`. `side` finishes the edges of [open sides](seams.md#open-sides):
an elastic, fold-over, hem or binding.

## What each finish does

"Ratio" is the length of elastic over the length of the finished edge, measured along the stitch line: 0.88 on a waist
of 640 mm is 563 mm, and 573 mm with a lap of 10 mm. The first figure is what is used unless you say otherwise; in
brackets stand the least and the most that makers use.

"""
#: What holds for every finish: (what it is about, what is done).
RULES = (
    (
        "Ends",
        "A closed ring is lapped by what the table says. Where an elastic stops at a seam that is sewn later, its end "
        f"is caught in it; at a seam that is closed already, {defaults.ELASTIC_TURNED_END:g} mm are turned under. "
        "At an open side the ends of waist and leg lie in its edge, which is finished after them.",
    ),
    (
        "Its own stretch comes first",
        f"Worn, an elastic is stretched by no more than {defaults.ELASTIC_WORN_SHARE:.0%} of what it can stretch. "
        "Where the ratio would ask for more, it is cut longer, up to the edge's own length, and the guide says so.",
    ),
    (
        "Marks",
        "The waist is marked in quarters, at the centres and the side seams; a leg at its seams, and in the middle of "
        f"every part longer than {defaults.MARK_EVERY:g} mm. Pin mark to mark and stretch the elastic between the "
        "pins, never the cloth.",
    ),
    (
        "Lace trim",
        f"The cloth is cut short under it, so that it laps {defaults.TRIM_LAP:g} mm over the cloth's edge. It lies "
        f"flat up to {defaults.WIDEST_TRIM:g} mm wide at the waist and {defaults.WIDEST_EDGING:g} mm at the leg, and "
        f"between two trims {defaults.TRIM_CLEAR:g} mm of cloth must be left. Under a wider one the cloth is cut less "
        "short, and the check fails.",
    ),
    (
        "Corners",
        "An allowance that is turned in is cut as the mirror image of the seam beside it, so that both lie flat when "
        "it is turned. Two edges with different finishes meet in a step at the seam.",
    ),
    (
        "Order",
        "Elastic that ends at a side seam goes on flat, before that seam; one that runs all round goes on in the "
        "round, after all of them.",
    ),
)
ELASTICS = """
## Usual elastics

All common practice, no source. Write the width after the name: `"plush elastic 12 mm"`.

| name | widths | stretches by | waist | front leg | back leg |
| --- | --- | --- | --- | --- | --- |
"""
OWN = """
## Your own elastic

Measure 10 cm of it relaxed, pull until it is firm but not hard, and read how far it went: 10 to 19 cm is a stretch of
90. Its ratios are yours to say; those you leave out are the usual ones of its form (plush, picot, plain, fold-over,
strap, clear).

```toml
[elastic."soft picot 10 mm"]
width = "10 mm"
stretch = 90
form = "picot"
ratio = { waist = 0.88, front_leg = 1.0, back_leg = 0.85 }
```
"""


def _ratio(row: FinishRow, zone: str) -> str:
    if zone not in row.ratios:
        return "-"
    low, usual, high = row.ratios[zone]
    return f"{usual:.2f} ({low:.2f} to {high:.2f})"


def _line(says: str) -> str:
    """One item of a list, folded."""
    return textwrap.fill(says, 118, initial_indent="- ", subsequent_indent="  ", break_on_hyphens=False) + "\n"


def text() -> str:
    """The page."""
    parts = [HEAD]
    zones = (("waist", "Waist"), ("front_leg", "Front leg and gusset"), ("back_leg", "Back leg"))
    for row in FINISH_TABLE.values():
        parts.append(f"### {row.name[0].upper()}{row.name[1:]}\n\n")
        parts.append(f"- Beyond the finished edge: {row.beyond}.\n")
        sewn = "; then ".join(
            each.setting + (f" ({each.stitch})" if each.stitch.isdigit() else "") for each in row.passes
        )
        parts.append(_line(f"Sewn with: {sewn or 'nothing'}."))
        if row.seam_class:
            parts.append(f"- Seam class {row.seam_class} (ISO 4916, sub-number from memory).\n")
        if row.ratios:
            ratios = "; ".join(f"{word.lower()} {_ratio(row, zone)}" for zone, word in zones)
            parts.append(_line(f"Ratio: {ratios}."))
        if row.overlap:
            parts.append(f"- Added for its ends: {row.overlap:g} mm.\n")
        parts.append(f"- Source: {row.source}.\n\n")
    parts.append("## How each is worked\n\n")
    parts += [_line(f"**{about}.** {says}") for about, says in RULES]
    parts.append(ELASTICS)
    for name, kind in usual_kinds().items():
        low, high = kind.widths
        figures = " | ".join(f"{kind.ratio[zone]:.2f}" for zone, _ in zones)
        parts.append(f"| {name} | {low:g} to {high:g} mm | {kind.stretch:.0%} | {figures} |\n")
    return "".join(parts) + OWN


if __name__ == "__main__":
    TARGET.write_text(text(), encoding="utf-8")
