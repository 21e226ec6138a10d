"""Every default of the draft and the checks, in one table; each carries its unit and its source.

A ``Default`` is a float: use it in arithmetic as it stands. ``table()`` lists them all for the manual.
"""

from __future__ import annotations

from typing import Final, NamedTuple

PRACTICE: Final = "common practice, no source"
CHOICE: Final = "chosen by eye on drawn patterns, no source"
SURFACE: Final = "measured on a CC0 body surface fitted to real girths (docs/sources.md)"


class Default(float):
    """A number with its unit and source; behaves as a float."""

    unit: str
    source: str

    def __new__(cls, value: float, unit: str, source: str) -> Default:
        """A default of ``value`` in ``unit``, from ``source``."""
        made = super().__new__(cls, value)
        made.unit, made.source = unit, source
        return made


class Row(NamedTuple):
    """One line of the table of defaults."""

    name: str
    value: float
    unit: str
    source: str


def table() -> tuple[Row, ...]:
    """All defaults in the order they are written here."""
    return tuple(
        Row(name, float(value), value.unit, value.source)
        for name, value in globals().items()
        if isinstance(value, Default)
    )


# --- body -------------------------------------------------------------------------------------------------------------
WAIST_TO_HIP_SHARE: Final = Default(0.125, "of height", SURFACE + "; assumed there")
WAIST_TO_HIP_SPREAD: Final = Default(10.0, "mm, one sd", SURFACE + "; assumed there")
CROTCH_SHARE: Final = Default(0.75, "of hip", "mean of five bodies of a CC0 body surface, 0.72 to 0.78")
CROTCH_SPREAD_SHARE: Final = Default(0.03, "of hip, one sd", "the same five bodies, widened")

# --- reduction --------------------------------------------------------------------------------------------------------
WORN_SHARE: Final = Default(
    0.20,
    "of measured stretch",
    PRACTICE + ": gives 4.8, 9.1, 13 and 16.7 % less girth at 25, 50, 75 and 100 % stretch",
)
WORN_SHARE_LIMIT: Final = Default(0.5, "of measured stretch", PRACTICE)
WORN_STRAIN_LIMIT: Final = Default(0.6, "strain", PRACTICE)
LENGTH_SHARE: Final = Default(0.05, "of lengthwise stretch", PRACTICE + ": 0 to 5 % less length")
LENGTH_LIMIT: Final = Default(0.05, "reduction", PRACTICE)
LENGTH_FROM: Final = Default(0.20, "stretch", PRACTICE + ": no length is taken off a cloth that stretches less")
HAND_PULL: Final = Default(
    300.0, "N/m", "3 N/cm of width, weft knits under 5 % elastane, ISO 20932-1 (read second hand)"
)

# --- block ------------------------------------------------------------------------------------------------------------
GUSSET_SHARE: Final = Default(0.20, "of crotch length", CHOICE)
GUSSET_LONGEST: Final = Default(160.0, "mm", PRACTICE)
FRONT_SHARE: Final = Default(
    0.45,
    "of crotch length less gusset",
    SURFACE + ": 0.43-0.45; kept for large wearers, where the surface is least sure",
)
GUSSET_FRONT_HALF: Final = Default(36.0, "mm", PRACTICE)
GUSSET_NARROW_HALF: Final = Default(33.0, "mm", PRACTICE)
GUSSET_NARROWEST_AT: Final = Default(0.38, "of gusset length from the front", CHOICE)
LEG_BELOW_HIP: Final = Default(25.0, "mm", PRACTICE)
FRONT_CLEAR: Final = Default(35.0, "mm, leg point above the front gusset seam", CHOICE)
FRONT_CLEAR_SHARE: Final = Default(0.14, "of centre front, the same", CHOICE)
LEAST_SIDE: Final = Default(22.0, "mm of side seam", CHOICE)
LEAST_CENTRE: Final = Default(60.0, "mm of centre line", CHOICE)
STEEPEST_SIDE: Final = Default(0.65, "mm across per mm along the side", CHOICE)
STEEPER_HALF: Final = Default(
    1.2,
    "times the steepest side, for half of it",
    "choice: keeps bends of the side wider than a seam allowance of 6 mm",
)
SIDE_SLOPE_AT_WAIST: Final = Default(
    0.35, "of the mean slope", "between a fitted body surface, which has none, and 260 women, who are fuller there"
)
WAIST_DIP: Final = Default(14.0, "mm, handle of the waist line beside a slanted seam", CHOICE)
STEEPEST_LEG_TURN: Final = Default(28.0, "degrees", CHOICE)
STEEPEST_FRONT_LEG: Final = Default(78.0, "degrees", CHOICE)
GUSSET_FLARE: Final = Default(55.0, "degrees, the back end of the gusset's leg edge", CHOICE)
THONG_HALF: Final = Default(15.0, "mm, half the strip of a thong at its narrowest", PRACTICE + ", 12 to 20")
THONG_GUSSET_HALF: Final = Default(20.0, "mm, half the gusset's back end in a thong", PRACTICE)
TANGA_HALF: Final = Default(28.0, "mm, half the strip of a tanga at its narrowest", PRACTICE + ", 25 to 40")
TANGA_GUSSET_HALF: Final = Default(31.0, "mm, half the gusset's back end in a tanga", PRACTICE)
GUSSET_BEND: Final = Default(40.0, "mm, least radius of the gusset's leg edge", CHOICE + ": turns in flat")

# --- finishes ---------------------------------------------------------------------------------------------------------
PICOT: Final = Default(2.0, "mm of a picot elastic's width that is picot", PRACTICE)
WIDEST_TRIM: Final = Default(50.0, "mm of a lace laid on an edge as its elastic", PRACTICE)
WIDEST_EDGING: Final = Default(25.0, "mm of a lace laid round the legs: the gusset keeps cloth between two", CHOICE)
TRIM_CLEAR: Final = Default(10.0, "mm of cloth left between the laces laid on waist and leg", CHOICE)
BAND_TAPER: Final = Default(0.25, "of a band's stretch that its upper edge may fall short of the body", CHOICE)
TRIM_LAP: Final = Default(8.0, "mm a laid-on lace laps over the cloth", PRACTICE + ", 5 to 10")
ELASTIC_OVERLAP: Final = Default(10.0, "mm", PRACTICE)
ELASTIC_TURNED_END: Final = Default(10.0, "mm of elastic turned under where it stops at a closed seam", PRACTICE)
STRAP_END: Final = Default(12.0, "mm of strap elastic caught at each end", PRACTICE + ", 10 to 15")
STRAP_STRAIN: Final = Default(0.15, "worn strain of a strap over an open side", PRACTICE + ", 0.10 to 0.20")
STRAPS_APART: Final = Default(70.0, "mm of an open side's edge between two straps", PRACTICE)
BINDING_RATIO: Final = Default(0.95, "binding strip over finished edge", PRACTICE)
MARK_EVERY: Final = Default(150.0, "mm of edge above which its middle is marked too", PRACTICE)

# --- checks -----------------------------------------------------------------------------------------------------------
HIP_MARGIN: Final = Default(1.02, "of hip girth the waist must open to", PRACTICE + ", 1.02 to 1.05")
THIGH_MARGIN: Final = Default(1.02, "of thigh girth a leg must open to", PRACTICE)
SEAM_EXTENSION: Final = Default(1.0, "of seam length, zigzag or 3-thread overlock", PRACTICE)
ELASTIC_WORN_SHARE: Final = Default(0.5, "of an elastic's stretch, when worn", PRACTICE)
SIDE_SEAM_GOOD: Final = Default(60.0, "mm of side seam left", PRACTICE)
SIDE_SEAM_LOW: Final = Default(45.0, "mm of side seam left", PRACTICE)
SEAT_GOOD: Final = Default(0.50, "of the block's whole back area", PRACTICE)
SEAT_LOW: Final = Default(0.38, "of the block's whole back area", PRACTICE)
SIDE_SEAM_SHIFT: Final = Default(15.0, "mm the side seam may sit off the side", PRACTICE)
LEAST_RECOVERY: Final = Default(
    0.85, "recovery of a lace edge with no elastic behind", PRACTICE + ", mills state 85 to 95 %"
)
LEAST_GUSSET: Final = Default(55.0, "mm at its narrowest", PRACTICE + ", 60 to 75 usual")
WIDEST_GUSSET: Final = Default(95.0, "mm at its narrowest", PRACTICE)
SEE_THROUGH: Final = Default(0.5, "share that shows through", PRACTICE)
PRESSURE_LIGHT: Final = Default(
    1300.0, "Pa", "Anthropometry, Apparel Sizing and Design, table 13.5: 0.4-1.3 kPa comfortable daily"
)
PRESSURE_FIRM: Final = Default(2000.0, "Pa", "the same table: 2.0-3.3 kPa medical and shaping wear")
PRESSURE_HIGH: Final = Default(3300.0, "Pa", "the same table: critical above")

# --- lace uses --------------------------------------------------------------------------------------------------------
V_POINT_CLEAR: Final = Default(10.0, "mm from the point of a V to the seam below, allowances apart", CHOICE)
SHORTEST_SIDE: Final = Default(10.0, "mm of seam that can still be sewn", PRACTICE)
CUT_AWAY_EDGE: Final = Default(3.0, "mm of cloth left beside the stitching where it is cut away", PRACTICE + ", 2 to 4")
MOTIF_CLEAR: Final = Default(6.0, "mm between a motif and any seam, edge or other motif", PRACTICE)
EASE_SHARE: Final = Default(0.5, "of a strip's lengthwise stretch that easing round a curve may take", PRACTICE)
STRIP_EDGE_CLEAR: Final = Default(
    10.0, "mm a piece stays off the edge of its lace where there is lace to spare", CHOICE
)

# --- shelf ------------------------------------------------------------------------------------------------------------
REMNANT_AREA: Final = Default(8000.0, "mm² of a leftover worth keeping", CHOICE + ": a gusset takes about as much")
REMNANT_WIDTH: Final = Default(40.0, "mm across a leftover worth keeping, at its narrowest", CHOICE)
REMNANT_CLEAR: Final = Default(2.0, "mm kept off the cut pieces, for the blade", PRACTICE)

# --- ideas ------------------------------------------------------------------------------------------------------------
SCRAP_LENGTH: Final = Default(1000.0, "mm of a cloth on hand that counts as a leftover", CHOICE)
WANTED_FULL: Final = Default(0.80, "of a full brief's back, where full coverage is wanted", CHOICE)
WANTED_MEDIUM: Final = Default(0.65, "the same for medium", CHOICE)
WANTED_LOW: Final = Default(0.45, "the same for low", CHOICE)
