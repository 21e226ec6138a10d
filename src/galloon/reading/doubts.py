"""Judges whether a picture can be read at all, and names what disturbed it where it can."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

import numpy as np

from galloon.reading.edges import Side
from galloon.reading.evidence import Evidence, shared_pitch
from galloon.reading.figures import ALIKE, ALIKE_UNSURE, alikeness
from galloon.reading.level import Levelled
from galloon.reading.model import Doubt
from galloon.reading.pitch import NEAR_RATIO, simple_ratio
from galloon.reading.profile import Profile
from galloon.said import Term, said

#: Thread stands out from its ground by at least this (grey levels); busy from plain by this (log energy).
_LEAST_CONTRAST, _LEAST_GAP = 14.0, 1.0
#: Likeness of shifted motifs that counts as a repeat, and its greatest local difference.
_ALIKE, _WORST = 0.62, 0.45
#: Share of an edge's columns that must be measured, and its greatest roughness (mm).
_SEEN, _ROUGH = 0.3, 0.25
#: A finished straight edge is smoother than this (mm); a fold or a torn edge is not.
_FINISHED: Final = 0.085
#: Beside a fold the ground lies double: this much denser than in the middle.
_DOUBLE: Final = 1.45
#: Share of an edge that may leave the picture.
_CROPPED: Final = 0.02
#: Of the lace's length, the part that may lie against the border beside an edge.
_ALONG_BORDER: Final = 0.6
#: More cover than this is cloth or ribbon, not lace.
_SOLID: Final = 0.1
#: Tips less sure than this share of the depth are told; with more of an edge measured than this, from so many mm
#: on; and from so many mm on in any case.
_VAGUE, _HIDDEN, _VAGUE_MM, _VAGUEST_MM = 0.02, 0.8, 0.12, 0.4
#: The longest stretch of a scallop that may be missing in every one (mm, share of the pitch).
_BLANK_MM, _BLANK = 1.2, 0.05
#: Depths of like edges that differ by more than this share, and this (mm), are not both right.
_TWIN, _TWIN_MM = 0.04, 0.35
#: Fewer repeats than this in the picture cannot be checked against each other.
_REPEATS: Final = 1.75


def refusal(evidence: Evidence) -> Doubt | None:
    """Why the picture cannot be read as a lace, or None."""
    lace = evidence.lace
    if evidence.band is None or lace is None or evidence.motifs is None:
        return Doubt(
            "no lace",
            said("Nothing in the picture looks like lace. Lay the lace flat on a plain ground in another tone."),
        )
    if evidence.cover.contrast < _LEAST_CONTRAST or evidence.cover.energy_gap < 0.55:
        return Doubt(
            "no lace", said("Nothing stands out from the ground. Use a ground much darker or lighter than the thread.")
        )
    if evidence.openness < _SOLID and not repeats(evidence) and not _waves(evidence):
        return Doubt(
            "ribbon", said("The band in the picture has no holes: it looks like a ribbon or plain cloth, not lace.")
        )
    if evidence.openness < 0.04:
        return Doubt(
            "ribbon", said("The band in the picture has no holes: it looks like a ribbon or plain cloth, not lace.")
        )
    if repeats(evidence):
        return _too_vague(evidence)
    if _waves(evidence):
        return None
    if evidence.motifs.rise < 0.12 or _is_net(evidence):
        return Doubt(
            "plain net",
            said("There is an even net but no motif and no scallop, so there is no lace pattern to measure."),
        )
    return Doubt(
        "no lace", said("No scallop and no pattern that repeats was found, so the picture is not read as lace.")
    )


def _is_net(evidence: Evidence) -> bool:
    lace = evidence.lace
    return lace is not None and all(not s.scalloped and s.strength > 0.5 and s.seen > 0.4 for s in (lace.top, lace.low))


def _too_vague(evidence: Evidence) -> Doubt | None:
    lace = evidence.lace
    assert lace is not None
    vague = [side.seen < _SEEN or side.strength < 0.3 for side in (lace.top, lace.low)]
    if all(vague) and min(lace.top.cropped, lace.low.cropped) < 0.3:
        return Doubt(
            "no lace",
            said("A pattern repeats but no edge of a lace was found. Lay one layer of lace flat on a plain ground."),
        )
    return None


def repeats(evidence: Evidence) -> bool:
    """Whether the motifs repeat along the lace beyond doubt."""
    repeat = evidence.repeat
    return repeat is not None and repeat.likeness >= _ALIKE and repeat.worst <= _WORST


def _waves(evidence: Evidence) -> bool:
    """Whether some edge is a clean row of scallops."""
    lace = evidence.lace
    return lace is not None and any(clean_wave(side) for side in (lace.top, lace.low))


def clean_wave(side: Side) -> bool:
    """Whether an edge shows at least one and a half like scallops, cleanly drawn."""
    if side.wave is None or side.profile is None:
        return False
    count = float(np.ptp(side.x)) / side.wave.pitch
    clean = side.profile.spread < 0.06 * side.profile.depth and side.wave.miss < 0.08 * side.profile.depth
    return bool(count > 1.5 and clean and side.seen > _SEEN and side.strength > 0.5 and side.cropped < 0.1)


def doubts(evidence: Evidence) -> tuple[Doubt, ...]:
    """Everything that makes a readable picture less than sure."""
    return tuple(_doubts(evidence))


def _doubts(evidence: Evidence) -> Iterator[Doubt]:
    lace = evidence.lace
    assert lace is not None
    yield from _outside_picture(evidence)
    yield from _edge_doubts(lace)
    yield from _twin_doubts(evidence)
    yield from _fold_doubts(evidence)
    if evidence.openness < _SOLID and not _waves(evidence):
        yield Doubt("ribbon", said("The band has hardly any holes: it may be a ribbon or plain cloth, not lace."))
    yield from _repeat_doubts(evidence)
    yield from _symmetry_doubts(evidence)
    yield from _light_doubts(evidence)
    yield from _ruler_doubts(evidence)


def _runs_out(evidence: Evidence, *, low: bool) -> bool:
    """Whether most of the lace's length lies against the picture border beyond one of its edges."""
    band = evidence.band
    assert band is not None
    upright = abs(band.angle) > 45
    body = band.mask.T if upright else band.mask
    # turned by more than 45 degrees, the upper side of the levelled lace is the picture's right (angle above 0) or left
    last = low != (upright and band.angle > 0)
    rim = body[-3:] if last else body[:3]
    return bool(rim.any(0).sum() > _ALONG_BORDER * max(1, int(body.any(0).sum())))


def _outside_picture(evidence: Evidence) -> Iterator[Doubt]:
    lace = evidence.lace
    assert lace is not None
    sides = (("upper", lace.top, False), ("lower", lace.low, True))
    cut = [name for name, side, low in sides if side.cropped > _CROPPED or _runs_out(evidence, low=low)]
    if len(cut) == 2:
        yield Doubt(
            "edges not in picture",
            said(
                "The lace fills the picture from edge to edge, so its width is not known. Show both edges if it has "
                "any."
            ),
        )
    elif cut:
        yield Doubt(
            "cropped edge",
            said(
                "The {edge} edge of the lace runs out of the picture, so its width is not known. Show both edges.",
                edge=Term(cut[0]),
            ),
        )


def _edge_doubts(lace: Levelled) -> Iterator[Doubt]:
    for name, side in (("upper", lace.top), ("lower", lace.low)):
        if side.cropped > _CROPPED:
            continue
        if side.miss > _ROUGH or side.seen < _SEEN or side.strength < 0.5:
            yield Doubt(
                "edge unsure",
                said(
                    "The {edge} edge is not clear: look at the drawn line and correct it if it strays.", edge=Term(name)
                ),
            )
        elif side.wave is not None and float(np.ptp(side.x)) / side.wave.pitch < 1.6:
            yield Doubt(
                "few scallops",
                said("The {edge} edge shows fewer than two whole scallops, so its pitch is not sure.", edge=Term(name)),
            )
        elif side.profile is not None and side.profile.spread > 0.05 * side.profile.depth + 0.1:
            yield Doubt(
                "uneven scallops",
                said(
                    "The scallops of the {edge} edge differ from each other: is the lace stretched or folded?",
                    edge=Term(name),
                ),
            )
        if side.profile is not None and _vague_depth(side, side.profile):
            yield Doubt(
                "depth unsure",
                said(
                    "Fringe or blur hides the tips of the {edge} edge: measure the depth of a scallop with a ruler.",
                    edge=Term(name),
                ),
            )
    if lace.top.wave and lace.low.wave:
        yield from _ratio_doubts(lace.top.wave.pitch / lace.low.wave.pitch)


def _vague_depth(side: Side, profile: Profile) -> bool:
    """Whether tips are not known well against the depth, or a stretch of the scallop was never seen."""
    error = float(np.hypot(profile.peak_error, profile.valley_error))
    least = 0.0 if side.seen < _HIDDEN else _VAGUE_MM
    blank = max(_BLANK_MM, _BLANK * side.wave.pitch) if side.wave else _BLANK_MM
    return error > min(max(_VAGUE * profile.depth, least), _VAGUEST_MM) or profile.blank > blank


def _twin_doubts(evidence: Evidence) -> Iterator[Doubt]:
    """Edges of one pitch whose motifs mirror or turn into each other should have one depth."""
    lace, alike = evidence.lace, evidence.alike
    if lace is None or alike is None or lace.top.profile is None or lace.low.profile is None:
        return
    _, across, turned = alikeness(alike)
    deep = sorted((lace.top.profile.depth, lace.low.profile.depth))
    gap = deep[1] - deep[0]
    if max(across, turned) > ALIKE and gap > _TWIN_MM and gap > _TWIN * deep[1]:
        yield Doubt(
            "edges disagree",
            said(
                "The motifs of both edges are alike but their scallops are not equally deep: compare the drawn lines."
            ),
        )


def _ratio_doubts(ratio: float) -> Iterator[Doubt]:
    """The pitches of the two edges of one lace divide one repeat."""
    if simple_ratio(ratio)[2] > NEAR_RATIO:
        yield Doubt(
            "edges disagree",
            said("The scallops of the two edges do not fit one repeat: is the lace stretched on one side?"),
        )


def _fold_doubts(evidence: Evidence) -> Iterator[Doubt]:
    lace = evidence.lace
    assert lace is not None
    for name, side, density in (
        ("upper", lace.top, _border_density(evidence, low=False)),
        ("lower", lace.low, _border_density(evidence, low=True)),
    ):
        if side.cropped > _CROPPED:
            continue
        rough, dense = side.miss > _FINISHED, density > _DOUBLE
        if (rough and dense) if side.scalloped else (rough or dense):
            yield Doubt(
                "folded",
                said(
                    "The {edge} edge looks like a fold or a cut, not a finished edge. Lay the lace flat, in one layer.",
                    edge=Term(name),
                ),
            )


def _border_density(evidence: Evidence, *, low: bool) -> float:
    """Ground density beside an edge over that in the middle of the lace."""
    motifs = evidence.motifs
    assert motifs is not None
    rows = np.quantile(np.where(motifs.weight > 0, motifs.density, np.nan)[motifs.rows(motifs.peaks)], 0.15, axis=1)
    rows = rows[np.isfinite(rows)][::-1] if low else rows[np.isfinite(rows)]
    if len(rows) < 20:
        return 1.0
    part = max(4, len(rows) // 9)
    middle = float(np.median(rows[len(rows) // 3 : 2 * len(rows) // 3]))
    return float(np.median(rows[4 : 4 + part])) / max(middle, 0.05)


def _repeat_doubts(evidence: Evidence) -> Iterator[Doubt]:
    repeat = evidence.repeat
    pitch = shared_pitch(evidence.lace) if evidence.lace else None
    if repeat is None or not repeats(evidence):
        yield Doubt(
            "single repeat",
            said("No motif was seen to repeat: it shows too little of the lace. Show two and a half repeats or more."),
        )
        return
    if repeat.count < _REPEATS:
        yield Doubt(
            "single repeat", said("The picture shows less than two whole repeats. Show at least two and a half.")
        )
    if pitch and repeat.pitches and abs(repeat.length / (repeat.pitches * pitch) - 1) > 0.01:
        yield Doubt(
            "repeat unsure",
            said("Motif and scallops give different lengths for the repeat: is the lace stretched unevenly?"),
        )


def _symmetry_doubts(evidence: Evidence) -> Iterator[Doubt]:
    lace, alike = evidence.lace, evidence.alike
    if lace is None or alike is None or not repeats(evidence):
        return
    one_sided = lace.top.scalloped != lace.low.scalloped
    found = alikeness(alike)[:1] if one_sided else alikeness(alike)
    if any(abs(like - ALIKE) < ALIKE_UNSURE for like in found) or [like > ALIKE for like in found].count(True) == 2:
        yield Doubt(
            "symmetry unsure",
            said("The motifs look nearly, but not quite, the same when mirrored or turned: compare them."),
        )


def _light_doubts(evidence: Evidence) -> Iterator[Doubt]:
    if evidence.cover.noise > 0.4:
        yield Doubt(
            "low contrast",
            said(
                "Thread and ground are hard to tell apart. Use a plain ground much darker or lighter than the thread."
            ),
        )


def _ruler_doubts(evidence: Evidence) -> Iterator[Doubt]:
    if evidence.ruler.foreshortened > 0.06:
        yield Doubt(
            "card foreshortened",
            said("The picture was taken at a slant. Hold the camera level above the lace and the card."),
        )
    if evidence.lace is not None and abs(evidence.lace.top.slope + evidence.lace.low.slope) > 0.02:
        yield Doubt(
            "not parallel",
            said("The two edges are not parallel: the lace is pulled out of shape or the camera was held at a slant."),
        )
