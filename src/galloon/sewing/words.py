"""Every sentence of the sewing part, by key; another language is another table of the same keys."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from galloon.said import Said, listed

SAYS: Final[Mapping[str, str]] = MappingProxyType(
    {
        # --- elastics ---
        "elastic.row": "{kind}, {edge}: cut {cut} for a finished edge of {length}.",
        "elastic.bounded": "Cut {share:.0%} longer than usual, so that it keeps enough stretch on the body.",
        "mark.quarter": "a quarter on",
        "mark.dot.front_leg": "dot where the gusset begins",
        "mark.dot.gusset_leg": "dot where the gusset ends",
        "mark.dot.back_leg": "dot at the side",
        "mark.dot.side_leg": "dot at the side",
        "mark.dot.front_side": "waist end of the front's open side",
        "mark.dot.back_side": "waist end of the back's open side",
        "mark.middle.front_side": "middle of the front's open side",
        "mark.middle.back_side": "middle of the back's open side",
        "mark.end": "first end",
        "mark.seam": "{seam}",
        "stop": (
            "It runs from {first} to {last}, {length} along the edge: cut {cut} of {kind}{each}. "
            "The lace's own edge begins at {lace}."
        ),
        "stop.each": " for each leg",
        "stop.seam": "the {seam}",
        "stop.away": "{seam} ({away} from the side seam)",
        "stop.free": "the place where the lace begins",
        "stop.finding": "The elastic on the {edge} stops at lace. {stop}",
        "mark.middle.wrap_waist": "centre front",
        "mark.middle.front_waist": "centre front",
        "mark.middle.back_waist": "centre back",
        "mark.middle.front_leg": "middle of the front leg",
        "mark.middle.gusset_leg": "middle of the gusset",
        "mark.middle.back_leg": "middle of the back leg",
        "mark.after.wrap_waist": "centre back seam",
        "mark.after.front_waist": "right side seam",
        "mark.after.back_waist": "left side seam",
        "mark.after.front_leg": "front gusset seam",
        "mark.after.gusset_leg": "back gusset seam",
        "mark.after.back_leg": "side seam",
        "mark.middle.side_waist": "middle of the side piece",
        "mark.middle.side_leg": "middle of the side piece",
        "mark.after.side_waist": "back side seam",
        "mark.after.side_leg": "front side seam",
        "zone.side_waist": "side waist",
        "zone.side_leg": "side leg",
        "zone.front_side": "open side, front edge",
        "zone.back_side": "open side, back edge",
        "zone.wrap_waist": "waist",
        "zone.front_waist": "front waist",
        "zone.back_waist": "back waist",
        "zone.front_leg": "front leg",
        "zone.gusset_leg": "gusset",
        "zone.back_leg": "back leg",
        # --- notions ---
        "notion.thread": (
            "Polyester thread that gives, about {metres} m; textured thread for the overlock loopers if you use one."
        ),
        "notion.needle": (
            "Stretch or ball-point needle, 75/11; 65/9 for very fine lace or mesh. Start with a new one."
        ),
        "notion.test": "Sew a test seam on a scrap and pull it: the stitching must stretch as far as the cloth.",
        "notion.pins": "Pins with round heads, and a pen that washes out for the marks.",
        "notion.binding": "Binding: cut strips across the cloth, four times the finished width, {strip} in all.",
        # --- settings ---
        "setting.seam": (
            "3-thread overlock; without one, zigzag (304) 1.5 mm wide, 2 mm long, and a second row 3 mm outside it"
        ),
        "setting.lace seam": "zigzag 2 mm wide, 2.5 mm long; a second row just outside it",
        "setting.lap": "zigzag 2 mm wide, 1.5 mm long, following the edge of the motifs",
        "setting.lining edge": "zigzag 1.5 mm wide, 2 mm long, over the lining's edge",
        "setting.baste": "long straight stitch 4 mm, taken out later, or hand basting",
        "setting.tack": "zigzag 2.5 mm wide, 0.5 mm long, 6 mm of it",
        "setting.laid straight": "straight stitch 2.5 mm long (only where nothing has to stretch)",
        # --- trimming ---
        "trim.seam": "The overlock trims as it goes; after a zigzag cut both layers back to 4 mm.",
        "trim.lace seam": "Lace does not ravel: cut both layers back to 3 mm, nothing folded.",
        "trim.lap": (
            "From the wrong side cut the lower layer back to 3 mm from the stitching; hold the lace away with a finger."
        ),
        "trim.cut away": (
            "Cut the cloth behind away to 2 to 4 mm from the stitching: pinch the lace away first, blunt point of"
            " the scissors inside, and look at both sides before every cut."
        ),
        "trim.lining edge": "Cut the lining back to the stitching, never the lace.",
        "trim.elastic": "Cut cloth that stands out beyond the elastic, never the elastic itself.",
        "trim.gusset": "Even out the layers to 5 mm.",
        # --- pressing ---
        "press.lace": (
            "Cool iron (synthetics, no steam) through a cloth; lift and set down, do not pull the scallops."
        ),
        "press.cloth": "Warm iron through a cloth, seam to one side.",
        "press.elastic": "No iron on the elastic; steam from a hand's breadth away lets it draw back.",
        # --- steps: title | text ---
        "prepare": "Prepare",
        "prepare.do": (
            "Lay all cut pieces right side up and check them against the list. Mark right sides with a pin, carry"
            " over the notches, and mark each elastic as in its table.{lace}"
        ),
        "prepare.lace": (
            " Lay the lace pieces flat and let them rest for an hour without pulling; measure one again before you sew."
        ),
        "line": "Line the {panel}",
        "line.do": (
            "Lay the {lining} under the {panel}, wrong sides together, smooth, and baste them together all round "
            "3 mm inside the cut edges. From here treat them as one."
        ),
        "join": "Join {one} and {other}",
        "join.do": "Right sides together, notches matching, sew {one} to {other}.",
        "lap": "Lap {upper} over {under}",
        "lap.do": (
            "Lay the {upper} over the {under}, both right side up, so that the lace's edge line lies on the stitch "
            "line of the {under}. Pin from the middle outwards without stretching either. Sew along the edge of the "
            "motifs."
        ),
        "laid": "Sew {upper} on to {under}",
        "laid.do": (
            "Lay the {upper} on the {under} where the pattern marks it, both right side up, edges together where they "
            "share one.{fold} Pin or hand baste from the middle outwards, flat and unstretched. Sew close to its free "
            "edges, following the motifs, and baste it along the edges they share: those are caught later."
        ),
        "laid.fold": " Its fold line lies on the panel's centre.",
        "laid.keep": "Leave the cloth behind whole; it carries the shape together with the lace.",
        "insertion": "Let in the {upper} over the {seam}",
        "insertion.do": (
            "Open the allowances of the {seam} flat. Lay the {upper} over the seam, both right side up, its middle on "
            "the seam and its ends out to the edges. {ease} Baste, then sew along both its edges, following the motifs."
        ),
        "insertion.ease": (
            "It is cut {longer} shorter than the seam: pin both ends first, then stretch its middle to the seam "
            "between them, its edges flat."
        ),
        "insertion.flat": "Pin it flat and unstretched.",
        "insertion.cut": (
            "From the wrong side cut the cloth with its seam away between the two rows, to 2 to 4 mm from the "
            "stitching: pinch the lace away first, blunt point of the scissors inside, and look at both sides before "
            "every cut. Leave the seam whole in the allowances at both ends."
        ),
        "applique": "Sew the {upper} on the {panel}",
        "applique.do": (
            "{first}Lay the {upper} on the {panel} where the pattern marks it, right side up, and baste it flat. Sew "
            "round it just inside its outline.{twice}"
        ),
        "applique.cluster": "Lap the {count} motifs as drawn and sew them to one another first. ",
        "applique.twice": " Sew the other one on its mirror-image place.",
        "lap.centre.do": (
            "Trim the allowance of the half that comes below to {under}. Lay the other half of the {panel} over it, "
            "both right side up, stitch line on stitch line, baste, and sew along the motifs of the upper half. Cut "
            "the upper half back along them."
        ),
        "centre": "{seam:C}",
        "centre.do": (
            "Right sides together, sew the two halves of the {panel} from the waist down, notches matching.{scallops}"
        ),
        "centre.scallops": " Match the scallops at the seam: pin there first.",
        "lining.end": "Hem the free end of the {lining}",
        "lining.end.do": (
            "Turn {wide} of the {end} end of the {lining} to its wrong side and sew it flat, not stretched: no seam "
            "will catch this end."
        ),
        "gusset.sandwich": "{seam:C}, enclosed",
        "gusset.sandwich.do": (
            "Lay the gusset on the {panel} right sides together. Lay the lining under the {panel}, its right side"
            " against the {panel}'s wrong side, so that the {panel} lies between. Sew all three layers. Fold "
            "gusset and lining over the seam: its raw edges are inside."
        ),
        "gusset.roll": "{seam:C}, enclosed",
        "gusset.roll.do": (
            "Pin the gusset's other end to the {panel}, right sides together. Roll up the rest of the garment "
            "small and lay it on the gusset. Bring the lining round the roll so that its right side lies on the "
            "{panel}'s wrong side, and sew all three layers; take care not to catch the roll. Pull everything out"
            " at one leg edge: both raw edges are enclosed."
        ),
        "gusset.plain": "{seam:C}",
        "gusset.plain.do": "Right sides together, sew the gusset to the {panel}, notches matching.",
        "gusset.lap": "{seam:C}, lapped",
        "gusset.lap.do": (
            "Lay the scalloped edge of the {panel} over the end of the gusset{lining}, all right side up, the "
            "line through the scallops' valleys on the gusset's stitch line. Baste, then sew along the scallops."
        ),
        "gusset.lap.lining": " and its lining, wrong sides together",
        "gusset.legs": "Hold gusset and lining together",
        "gusset.legs.do": (
            "Smooth the lining inside the gusset and baste the two together along both leg edges, 3 mm inside the"
            " cut edge, so that they are finished as one."
        ),
        "side": "Side seams",
        "side.do": "Right sides together, sew front to back along both sides, notches matching.{caught}",
        "side.caught": " Let the ends of the elastic lie in the seam and sew over them twice.",
        "edge.ring": " Lap its ends {overlap} and sew the lap flat, so that it is a ring.",
        "edge.flat": " Do it flat: {ends}.",
        "edge.flat.caught": "the end at the {seam} lies even with the raw edge and is caught when that seam is sewn",
        "edge.flat.turned": "at the {seam} turn the last {turned} of it under and stop there",
        "edge.flat.free": "at the end where the lace begins turn the last {turned} under",
        "edge.flat.open": "the ends at the open side lie even with the raw edge and are caught in that edge",
        "edge.flat.corner": "turn the last {turned} under at both ends",
        "edge.pins": " Pin mark to mark and stretch it between the pins only, never the cloth.",
        "turned.1": "{edge:C}: elastic on",
        "turned.1.do": (
            "Lay the {elastic} on the right side, its straight edge along the cut edge, its soft side up, picot or "
            "pretty edge towards the garment.{how}{pins} Sew close to the pretty edge, just on the stitch line."
        ),
        "turned.2": "{edge:C}: elastic turned in",
        "turned.2.do": (
            "Fold the elastic to the wrong side along the stitch line, so that only the pretty edge shows. From "
            "the right side sew along its other edge, with the same stretch."
        ),
        "fold-over": "{edge:C}: fold-over elastic",
        "fold-over.do": (
            "Fold the {elastic} round the raw edge, which lies in its fold, a hair more of it on the wrong "
            "side.{how}{pins} Sew through all layers close to its open edge."
        ),
        "trim": "{edge:C}: lace laid on",
        "trim.do": (
            "{slit}Lay the {elastic} right side up on the right side of the cloth, lapping over its raw edge by {lap}, "
            "so that the lace's outer edge is the finished edge.{how}{pins} Sew along the lace's inner edge."
        ),
        "trim.slit": (
            "Slit the {galloon} lengthwise, between its motifs, into two edgings {wide} wide from the scallops in, one "
            "for each leg. The slit edges are raw: they go on the cloth, under the zigzag. "
        ),
        "band": "{edge:C}: lace band on",
        "band.do": (
            "Lay the {elastic} right side up on the right side of the cloth so that it stands above it: its lower "
            "edge, or the valleys of its scallops there, on the stitch line, and {lap} of cloth beneath it."
            "{how}{pins} Sew along its lower edge."
        ),
        "strap": "{edge:C}: strap elastic",
        "strap.do": (
            "Lay the {elastic} along the edge, its outer edge even with the finished edge.{how}{pins} Sew along "
            "both its edges, and tack each end {end} deep."
        ),
        "strap.ends": (
            "Before you sew it lay {ends} {strap} on the wrong side, over this finish, at the marks: {end} of each "
            "inside the finished edge and the rest pointing out, level and not twisted. The row catches them."
        ),
        "strap.ends.front": "one end of each of the {count} lengths of",
        "strap.ends.back": "the other ends of the {count} lengths of",
        "straps": "Straps: bar tacks",
        "straps.do": (
            "Set a bar tack across each end of each strap, through all layers just inside the finished edge, and a "
            "second one {end} further in. Between front and back the straps hang free: sew them to nothing else. Try "
            "on: no strap may cut in at the hip bone or in the crease of the groin; if one does, cut it longer."
        ),
        "strap.row": "open side, strap {number} of {count}",
        "strap.row.one": "open side, strap",
        "hem": "{edge:C}: hem",
        "hem.do": (
            "Turn {wide} to the wrong side along the stitch line, not stretched, and sew from the right side "
            "{inside} from the fold."
        ),
        "binding.1": "{edge:C}: binding on",
        "binding.1.do": (
            "Cut a strip {strip} wide across the cloth and {long} long.{how} Right sides together, sew it to the "
            "edge {wide} from the raw edge, stretching it lightly."
        ),
        "binding.2": "{edge:C}: binding turned",
        "binding.2.do": (
            "Fold the strip round the edge to the wrong side, its own raw edge under, and sew in the groove of "
            "the first row."
        ),
        "soft": "{edge:C}: soft elastic behind the scallop",
        "soft.do": (
            "Lay the {elastic} on the wrong side of the lace, along the line through the valleys and not beyond "
            "it.{how}{pins} Sew along its middle; the scallops stay free."
        ),
        "bare": "{edge:C}: the scallop stays as it is",
        "bare.do": (
            "Nothing is sewn here: the lace's own edge is the finished edge. Cut loose threads, but no loop of "
            "the edge."
        ),
        "bare.lined": "{edge:C}: the lining sewn down behind the scallop",
        "bare.lined.do": (
            "The lace's own edge is the finished edge. Smooth the {lining} behind it and sew its free edge to the lace "
            "just inside the line through the valleys, not stretched; the scallops stay free. Cut loose threads, but "
            "no loop of the edge."
        ),
        "other": "Finish {edges}",
        "other.do": "Finish {edges} as the pattern says: {finish}.",
        "tacks": "Bar tacks",
        "tacks.do": "Set a bar tack over the seam, 2 mm inside the edge, {where}.",
        "tacks.turned": "where an elastic ends at a closed seam",
        "tacks.scallop": "where a scalloped edge begins and ends",
        "finish": "Finish",
        "finish.do": (
            "Take out the basting, cut the threads, let the garment rest flat. Try it on over your own: it must "
            "go over the hips without a stitch cracking. Wash it before the first wear."
        ),
        "other.edge": "the {edge} edge of the {piece}",
        "trim.named": "{lace} lace",
        "allowance.short": "none, the cloth ends {short} inside the finished edge",
        "edge.waist": "Waist",
        "edge.leg": "Legs",
    }
)


def say(key: str, **fields: object) -> Said:
    """The sentence ``key`` with its fields filled in; KeyError for one that is not there."""
    return Said(SAYS[key], fields, f"sewing.{key}")


def zone_words(zones: tuple[str, ...]) -> Said:
    """The zones of a run in words: "front leg and gusset"."""
    return listed([say(f"zone.{zone}") for zone in zones])
