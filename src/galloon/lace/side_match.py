"""Slides a front lace along so that its scallops run on from the back's across the side seam, and says how well
they do.
"""

from __future__ import annotations

from dataclasses import replace

from galloon.lace.model import Placement, Scene
from galloon.lace.pairing import miss
from galloon.styling import Part


def match_sides(
    scene: Scene, parts: tuple[Part, ...], placements: tuple[Placement, ...]
) -> tuple[tuple[Part, ...], tuple[Placement, ...]]:
    """Where front and back both end in scallops at the side, the front's free phase follows the back's; mismatches
    filled in.
    """
    legs = {
        part.covers: part for part in parts if part.strip is not None and part.strip.edge == "leg" and not part.lining
    }
    if set(legs) != {"front", "back"} or scene.design.open_side is not None:
        return parts, placements
    front, back = legs["front"], legs["back"]
    if front.strip is None or back.strip is None or front.strip.scallops is None or back.strip.scallops is None:
        return parts, placements
    pitch = min(front.strip.scallops.pitch, back.strip.scallops.pitch)
    back_reads = reading_at_side(back)
    if _free(scene, "front"):
        repeat = scene.design.cloths[front.strip.lace].lace
        motif = (repeat.motif if repeat else None) or pitch
        run = reading_at_side(front) - front.strip.phase
        phase = (-back_reads - run) % motif
        front = replace(front, strip=replace(front.strip, phase=phase))
        parts = tuple(front if part is legs["front"] else part for part in parts)
        placements = tuple(replace(p, phase=phase) if p.piece == front.name else p for p in placements)
    missed = miss(back_reads, reading_at_side(front), pitch)
    return parts, tuple(replace(p, side_mismatch=missed) if p.lie == "along leg" else p for p in placements)


def reading_at_side(part: Part) -> float:
    """What the lace's own scale reads where the valley line meets the side seam (mm)."""
    if part.strip is None:
        return 0.0
    return part.strip.phase + part.strip.place(part.edge("leg").end).real


def _free(scene: Scene, panel: str) -> bool:
    """Whether nothing was said about what meets at the centre of ``panel``'s own lace."""
    uses = [use for use in scene.design.lace if panel in use.panels]
    return not any((use.meet is not None or use.phase is not None) and use.panels == (panel,) for use in uses)
