"""One call from a picture to a lace reading."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from galloon.errors import BadInput, Fault
from galloon.reading.arrays import Bytes, single_threaded
from galloon.reading.card import card_ruler, without_card
from galloon.reading.doubts import doubts, refusal
from galloon.reading.evidence import Evidence, Ruler, flat_ruler, gather
from galloon.reading.figures import Figures, figures_of
from galloon.reading.level_view import level_view
from galloon.reading.model import Doubt, LaceReading
from galloon.reading.show import found_geometry, straightened
from galloon.said import Said, said

#: Scales read at all, in mm per pixel: 600 dots per mm down to 25 dots per inch.
_FINEST, _COARSEST = 1 / 600, 1.02


def read_lace(
    pixels: Bytes,
    *,
    mm_per_px: float | None = None,
    dpi: float | None = None,
    card: bool = False,
    name: str = "picture",
    level: bool = False,
) -> LaceReading:
    """Measure the lace in an RGB picture (HxWx3 uint8).

    Exactly one of ``mm_per_px``, ``dpi`` (dots per inch) and ``card`` (an ISO/IEC 7810 ID-1 card lies beside the
    lace) says how large it is. ``name`` stands for the picture in messages; ``level`` also lays all the lace straight,
    for ``repeat_of`` and for correcting. Raises BadInput, one fault per
    reason, when there is no lace to read; what merely disturbs the reading comes back as its warnings.
    """
    with single_threaded():
        ruler = _ruler(_checked(pixels, name), mm_per_px, dpi, card, name)
        evidence = gather(pixels if ruler.corners is None else without_card(pixels, ruler.corners), ruler)
        refused = refusal(evidence)
        if refused is not None:
            raise BadInput((Fault(name, None, refused.name, "", _unstopped(refused.says)),))
        read = _reading(pixels, evidence, figures_of(evidence))
        return replace(read, level=level_view(pixels, evidence)) if level else read


def _unstopped(says: Said) -> Said:
    """The sentence without its full stop, as a rule is told."""
    return Said(says.template.rstrip("."), says.fields, says.key)


def _checked(pixels: Bytes, name: str) -> Bytes:
    if pixels.ndim != 3 or pixels.shape[2] != 3 or pixels.dtype != np.uint8:
        raise BadInput((Fault(name, None, "pixels", str(pixels.shape), said("must be height x width x 3 bytes")),))
    if min(pixels.shape[:2]) < 60:
        size = f"{pixels.shape[1]} x {pixels.shape[0]}"
        raise BadInput((Fault(name, None, "size", size, said("is too small to measure; it needs 60 pixels each way")),))
    return pixels


def _ruler(pixels: Bytes, mm_per_px: float | None, dpi: float | None, card: bool, name: str) -> Ruler:
    if [mm_per_px is not None, dpi is not None, card].count(True) != 1:
        raise BadInput(
            (Fault(name, None, "scale", "", said("say either the dots per inch or that a card lies beside it")),)
        )
    if card:
        return card_ruler(pixels, name)
    scale = mm_per_px if mm_per_px is not None else 25.4 / dpi if dpi else 0.0
    if not _FINEST <= scale <= _COARSEST:
        seen = f"{dpi:g} dpi" if dpi is not None else f"{scale:g} mm per pixel"
        raise BadInput((Fault(name, None, "scale", seen, said("must lie between 25 and 15000 dots per inch")),))
    return flat_ruler(pixels.shape, scale)


def _reading(pixels: Bytes, evidence: Evidence, figures: Figures) -> LaceReading:
    found = doubts(evidence)
    names = {doubt.name for doubt in found}
    hidden = names & {"cropped edge", "edges not in picture"}
    return LaceReading(
        edges="none" if "edges not in picture" in names else figures.edges,
        width=None if hidden else figures.width,
        scallop_pitch=figures.pitch,
        scallop_depth=figures.depth,
        second_pitch=figures.second_pitch,
        second_depth=figures.second_depth,
        repeat=None if "single repeat" in names else figures.repeat,
        openness=figures.openness,
        mirror_across=figures.mirror_across,
        second_edge=figures.second_edge,
        half_turn=figures.half_turn,
        confidence=_confidence(evidence, found),
        warnings=found,
        found=found_geometry(evidence),
        straightened=straightened(pixels, evidence),
    )


def _confidence(evidence: Evidence, found: tuple[Doubt, ...]) -> float:
    """A rough chance that every figure is right: likeness of the repeats, less for every doubt."""
    like = evidence.repeat.likeness if evidence.repeat else 0.5
    base = 0.8 + 0.19 * float(np.clip((like - 0.6) / 0.35, 0, 1))
    return round(base * 0.45 ** len({doubt.name for doubt in found}), 3)
