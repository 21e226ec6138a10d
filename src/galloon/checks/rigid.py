"""A panel that does not stretch: how wide it may be so that the rest still opens over the hips, and what that asks."""

from __future__ import annotations

import math
from dataclasses import dataclass

from galloon.findings import Finding, Status
from galloon.materials.tension import Band, reach, relaxed
from galloon.said import said
from galloon.units import format_length


@dataclass(frozen=True)
class RigidRoom:
    """A rigid panel ``wide`` mm wide at the waist (both halves) may be ``widest``; None where no width would do.

    ``forward`` is how far each of its two side seams would have to come towards its middle.
    """

    name: str
    wide: float
    widest: float | None

    @property
    def forward(self) -> float:
        """How far each side seam must move (mm); 0 where the panel is narrow enough."""
        return max(0.0, (self.wide - (self.widest or 0.0)) / 2.0)


def rigid_room(bands: list[Band], need: float) -> RigidRoom | None:
    """What the rigid ones of ``bands`` may take of an opening that must reach ``need`` mm; None where none or all are.

    A rigid width W adds itself only. Moving its seams trades it for the cloth beside it, which opens to g times
    its width, and the relaxed total stays: W + g·(total - W) >= need, so W <= (g·total - need)/(g - 1).
    """
    rigid = [band for band in bands if band.cloth.rigid]
    soft = [band for band in bands if not band.cloth.rigid]
    if not rigid or not soft or relaxed(soft) <= 0.0:
        return None
    gain = reach(soft)[0] / relaxed(soft)
    widest = (gain * relaxed(bands) - need) / (gain - 1.0) if gain > 1.0 else 0.0
    return RigidRoom(rigid[0].name, relaxed(rigid), widest if widest > 0.0 else None)


def rigid_finding(bands: list[Band], need: float, unit: str, *, moved: float) -> list[Finding]:
    """One finding on a rigid panel of an opening, with the width it may have and how far its side seams must move.

    ``moved`` (mm) is how far forward the design's side seams stand already.
    """
    room = rigid_room(bands, need)
    if room is None:
        return []
    name, about = "rigid panel leaves room", f"{room.name}/waist"
    wide = format_length(room.wide, unit)
    if room.widest is None:
        says = said(
            "The {panel} does not stretch, and no width of it would do beside this cloth: choose a stretchier.",
            panel=room.name,
        )
        return [Finding(name, Status.FAIL, says, room.wide, 0.0, "mm", about)]
    widest = format_length(room.widest, unit)
    if room.forward <= 0.0:
        says = said(
            "The {panel} does not stretch; at {wide} of the waist (at most {widest}) the rest can still open.",
            panel=room.name, wide=wide, widest=widest,
        )  # fmt: skip
        return [Finding(name, Status.PASS, says, room.wide, room.widest, "mm", about)]
    by = format_length(math.ceil(room.forward), unit)
    way = (
        said(
            'forward by {by} (side_seam = "{whole}")', by=by, whole=format_length(math.ceil(room.forward + moved), unit)
        )
        if room.name == "front"
        else said("back by {by}", by=by)
    )
    says = said(
        "The {panel} does not stretch: it takes {wide} of the waist and may take {widest} at the most, so each side "
        "seam would have to come {way}.",
        panel=room.name, wide=wide, widest=widest, way=way,
    )  # fmt: skip
    return [Finding(name, Status.FAIL, says, room.wide, room.widest, "mm", about)]
