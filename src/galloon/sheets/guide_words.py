"""Every sentence of the guide, by key; another language is another table of the same keys."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

SAYS: Final[Mapping[str, str]] = MappingProxyType(
    {
        "for": "for {name}",
        "legend.rigid": "{cloth}, which does not stretch",
        # --- verdict ---
        "verdict.pass": "Every check passes: this pattern can be cut as it is.",
        "verdict.warn": "This can be cut, but read {count} first.",
        "verdict.fail": "Do not cut yet: {count} must change first.",
        "count.warn.one": "one warning",
        "count.warn.more": "{number} warnings",
        "count.fail.one": "one thing",
        "count.fail.more": "{number} things",
        "verdict.made": "{top}, and the side seam is {side} long.",
        "verdict.made.no side": "{top}; there is no side seam.",
        "verdict.made.open side": "{top}, and the open sides, with {count} across each, are {side} high.",
        "verdict.strap": "one strap",
        "verdict.straps": "{count} straps",
        "verdict.top": "At the side the top edge lies {drop} below the waist",
        "verdict.top.waist": "The top edge lies at the waist",
        "cover.private": "Measurements are private: keep this guide where you keep such papers.",
        "cover.measured": "Drawn for these measurements",
        "measure.waist": "waist",
        "measure.top_hip": "top hip",
        "measure.hip": "hip",
        "measure.thigh": "thigh",
        "measure.height": "height",
        "measure.waist_to_hip": "waist to hip",
        "measure.crotch_length": "crotch length",
        "measure.estimated": "{value}, estimated",
        "estimate": (
            "The {what} was not measured. It is reckoned as {how}: {value}; the true figure lies within {spread} "
            "of that for about two women in three. Please measure it before you cut."
        ),
        "label.cut": "for the pattern envelope: cut out and stick on",
        "label.body": "waist {waist} · hip {hip}",
        "label.cloths": "cloths: {cloths}",
        "label.pieces": "{count} pieces to cut: {pieces}",
        # --- buy and prepare ---
        "buy": "What to buy",
        "buy.cloth": "what",
        "buy.need": "needed",
        "buy.have": "on hand",
        "buy.buy": "to buy",
        "buy.cost": "price",
        "buy.note": (
            "Lengths are for the cloth as it comes from the shop, before its first wash. Elastics are added up "
            "over both legs."
        ),
        "elastic": "Elastics to cut",
        "elastic.lace": "Elastics and laid-on laces to cut",
        "elastic.edge": "edge",
        "elastic.kind": "what",
        "elastic.count": "cut",
        "elastic.length": "length",
        "elastic.finished": "finished edge",
        "elastic.ends.ring": "The length includes {ends} where the ends lap.",
        "elastic.ends.none": "Its ends lie even with the raw edges; nothing is added for them.",
        "elastic.straps": (
            "Straps are counted from the waist; their finished edge is what they bridge on the body. Mark {end} from "
            "both ends of each length of {kind}: so much lies under the edges of the open side."
        ),
        "elastic.ends.flat": "The length includes {ends} for both ends, which are caught in a seam or turned under.",
        "marks": "Marks for the pins: {kind}, {edge}",
        "marks.at": "mark",
        "marks.elastic": "on it",
        "marks.edge": "on the edge",
        "marks.note": (
            "Measure both from the same end. Pin mark to mark; between the pins stretch what is laid on, never the "
            "cloth."
        ),
        "notions": "Thread, needle and small things",
        "prepare": "Before you cut",
        "prepare.wash": (
            "Wash the {cloth} first, as the finished garment will be washed, and dry it flat: it may shrink {shrink}."
        ),
        "prepare.wash.plain": "Wash the {cloth} first, as the finished garment will be washed, and dry it flat.",
        "prepare.relax": (
            "Lay the {cloth} flat and unstretched over night, or for two hours at least, then measure it again. "
            "Width in this pattern: {width}; scallops {pitch} from peak to peak. Measured again: width ________ "
            "scallops ________"
        ),
        "prepare.relax.plain": (
            "Lay the {cloth} flat and unstretched over night, then measure it again. Width in this pattern: "
            "{width}. Measured again: ________"
        ),
        "prepare.again": (
            "If a width differs by more than 2 mm, change it in the brief and make the pattern again before you cut."
        ),
        "prepare.print": (
            "Print at actual size and measure the test squares first: one must be 100 mm, the other 4 in, each way."
        ),
        "prepare.right": "Decide which side of each cloth is its right side and mark it with a thread at one end.",
        # --- pieces ---
        "pieces": "Pieces to cut",
        "pieces.note": (
            "The double arrow shows which way the piece must stretch most. Seam and elastic allowances are in the"
            " pattern; a scalloped edge has none."
        ),
        "piece.cloth": "{cloth}, {cut}",
        "piece.right": "The lace has a right side: it faces out on every piece.",
        "piece.up": "The motif has an up and a down: keep it upright, flowers not hanging.",
        "piece.rigid": "It does not stretch. The double arrow lies along the length of the cloth.",
        "piece.up.arrow": "up",
        "piece.nap": "All pieces of this cloth lie the same way up.",
        "piece.scallop": "Lay the line through the scallops' valleys exactly on the valleys of the lace.",
        "piece.pair": "The second one mirrors the first: cut each as the cutting plan shows it.",
        "piece.pair.other": (
            "The second one mirrors the first: it is cut as the plan shows and worn with the other side of the "
            "cloth out."
        ),
        # --- cutting ---
        "cutting": "Cutting plan",
        "cutting.cloth": "{cloth}: {length} of it, {width} wide",
        "cutting.folded": "{cloth}: {length} of it, folded lengthwise to {width}",
        "cutting.share": "{use} of the cloth is used.",
        "cutting.bound": "Lower bound: no plan under the same rules is shorter than {bound}.",
        "cutting.buy": "Buy {length}.",
        "cutting.fold": "fold of the cloth",
        "page.scale": "true size: print at 100 %, then measure both squares",
        "page.lines": "Cut on the heavy lines; allowances are included. Dashed: ends of the length taken.",
        "page.lines.motif": (
            "Cut on the heavy lines; allowances are included. Dashed: ends of the length taken. "
            "Fine dashes across: where each repeat of the motif begins."
        ),
        "page.lines.fold": (
            "Cut on the heavy lines through both layers; allowances are included. "
            "Line of dashes and dots: fold of the cloth, not cut."
        ),
        "cutting.up": "this way up",
        "cutting.rest": "Beyond the dotted line the width stays free.",
        "cutting.along": "length of the cloth",
        "cutting.most": "stretches most",
        "cutting.key": "{number} is {piece}",
        "cutting.trim": "{lace}: {count} × {length}, {width} wide, for the {edge}",
        "cutting.trim.words": (
            "Cut across the lace between two motifs; where the ends lap, match them as well as the length allows."
        ),
        "cutting.slit.words": (
            "Cut {length} of {galloon} and slit it lengthwise between its motifs: one edging for each leg. The slit "
            "edge is raw and goes on the cloth."
        ),
        "cutting.flipped": "mirrored",
        "cutting.other": "other side out",
        "cutting.none": "No plan has been made for this pattern; lay the pieces by their arrows.",
        # --- findings ---
        "findings": "What the checks say",
        "findings.fail": "Must change",
        "findings.warn": "Look at this",
        "findings.pass": "In order",
        # --- steps ---
        "steps": "Sewing order",
        "steps.note": (
            "Each step may be begun when the steps it names are done. Strong lines are what is sewn; the same "
            "letter stands on both edges of a seam. Lace is grey, linings have broken outlines."
        ),
        "step.stitch": "Stitch: {setting} (ISO 4915 no. {stitch})",
        "step.stitch.plain": "Stitch: {setting}",
        "step.seam": "Seam: {seam} (ISO 4916 class {number}).",
        "step.allowance": "Allowance: {allowance}.",
        "step.trim": "Trim: {trimming}",
        "step.press": "Press: {pressing}",
        "step.after": "After step {needs}",
        "step.after.more": "After steps {needs}",
        "seam.1": "one on the other",
        "seam.2": "lapped",
        "seam.3": "bound",
        "seam.6": "edge turned in",
        "seam.7": "elastic or lace laid on",
        # --- by hand ---
        "hand": "Draw it by hand",
        "hand.note": (
            "For those without a printer. On paper draw an upright line and a level line, exactly square to each "
            "other; they cross at the lower left. For each point measure across from the upright line and up from"
            " the level line, and number it. Then join the points as the second table says. For a curve draw the "
            "straight line first, thinly; from its first point measure along it, and from there square to it, to "
            "the left or to the right as you look from the first point to the last. A smooth line through all "
            "these is the stitch line. Last add the allowance of each edge outside it."
        ),
        "hand.straps": "Straps are caught at the open side; their middles lie so far up ({unit}): {levels}.",
        "hand.fold": "The upright line is the {fold}: cut the cloth on a fold there.",
        "hand.point": "point",
        "hand.across": "across",
        "hand.up": "up",
        "hand.edge": "edge",
        "hand.from": "from, to",
        "hand.how": "how",
        "hand.beyond": "beyond it",
        "hand.straight": "straight",
        "hand.curve": "curve",
        "hand.curve.short": "curve: {offsets}",
        "hand.at": "at {along}, {off} {side}",
        "hand.along": "along {start} to {end}",
        "hand.left": "to the left",
        "hand.right": "to the right",
        "hand.either": "to the left (− right)",
        "hand.like": "{name}: draw it like the {twin}, from {cloth}.",
        "hand.scallop": "lay the valleys of the lace on it",
        "hand.on line": "nothing: cut on it",
        "hand.short": "cut {length} short of it",
        "hand.nothing": "nothing",
        "hand.on fold": "fold",
        # --- care ---
        "care": "Fibres and care",
        "care.note": (
            "For your own label, if you sell or give it away. You are responsible for what it says; ask for your "
            "country's rules."
        ),
        "care.cloth": "what",
        "care.where": "where",
        "care.fibre": "fibres",
        "care.size": "size",
        "care.grams": "weight",
        "care.share": "of all",
        "care.area": "{area} cm²",
        "care.weighs": "{grams} g",
        "care.blank": "______",
        "care.blank.share": "____",
        "care.unknown": "not told: ________",
        "care.percent": "{whole} % {fibre}",
        "care.wholly": "All of it by weight: {fibres}; {grams} g in all.",
        "care.partly": "By weight, without {missing}: {fibres}.",
        "care.none": (
            "The fibres of all of it by weight: ________________. With fibre and weight of every cloth, lace and "
            "elastic in the brief they are reckoned here."
        ),
        "care.reckoned": (
            "Reckoned from the pieces as cut, before trimming, without the thread, in whole percent, the heaviest "
            "first. Weigh the finished garment to make sure. In the European Union a part of corsetry that is under "
            "a tenth of the weight need not be named, and 3 % of the whole either way is allowed."
        ),
        "care.words": (
            "The most delicate part decides for all of it. {lace}Wash cool, by hand or in a net, with a mild "
            "detergent and no softener. No bleach, no tumble dryer. Squeeze in a towel, do not wring; dry flat, "
            "away from heat. Iron cool through a cloth, never on elastic."
        ),
        "care.lace": "Here that is the lace. ",
        # --- cautions ---
        "cautions": "Please mind",
        "caution.skin": (
            "Skin: cotton or silk is the usual choice for the gusset's lining. Wash the garment before it is "
            "worn, dark colours twice. This is no medical advice: where skin is sore, numb, swollen or marked, "
            "ask a doctor or nurse."
        ),
        "caution.tight": (
            "Too tight: marks that stay longer than half an hour, numbness, tingling, or an edge that digs in at "
            "the groin mean longer elastic or more cloth. Do not wear it until that is changed."
        ),
        "caution.who": (
            "Do not make tight elastics for anyone who is pregnant, has swollen legs, a wound or numb skin, or "
            "for a small child; ask a clinician first. The pattern is for adults."
        ),
        "caution.metal": "Rings, sliders and hooks: ask for nickel-free ones.",
        "caution.small": (
            "Bows, beads and other small parts can be swallowed: keep them from children. No cords on anything "
            "for a child."
        ),
        "caution.machine": (
            "Machine: switch it off to thread it, keep the finger guard on and your fingers clear when you "
            "stretch elastic under the needle. Guide it, do not pull: a bent needle breaks. Wear glasses. Close "
            "the guard of a rotary cutter."
        ),
        "caution.iron": "Iron: a hot iron melts lace and elastic. Test on a scrap, cool, through a cloth.",
        "caution.judge": (
            "The figures are reckoned, not tried on. Your own judgement comes first: baste, try on, then sew."
        ),
    }
)


def say(key: str, **fields: object) -> str:
    """The sentence ``key`` with its fields filled in; KeyError for one that is not there."""
    return SAYS[key].format(**fields)
