"""How each cloth lies on its panel: the angle of its length, and what that makes of its stretch round and
lengthwise.
"""

from __future__ import annotations

from galloon.design import Design
from galloon.materials import Cloth, off_axis_stretch
from galloon.materials.tension import Stretchiness, stretchiness, together


def usual_angle(cloth: Cloth) -> float:
    """Degrees from a panel's x axis to the cloth's length, greatest stretch round the body."""
    return 0.0 if cloth.stretches_most == "length" else 90.0


def layers_of(design: Design, panel: str) -> tuple[str, ...]:
    """Names of the cloths ``panel`` is made of: outer first, then its lining."""
    named = dict(design.panels.items())
    return tuple(named[key] for key in (panel, f"{panel}_lining") if key in named)


def round_panel(design: Design, panel: str, angle: float) -> Stretchiness:
    """How ``panel`` stretches round the body, its outer cloth lying at ``angle``, any lining at its usual angle."""
    outer, *linings = (design.cloths[name] for name in layers_of(design, panel))
    return together([stretchiness(outer, angle), *(stretchiness(cloth, usual_angle(cloth)) for cloth in linings)])


def lengthwise_stretch(design: Design, panel: str, angle: float) -> float:
    """How far ``panel`` stretches up and down the body: the least of its layers (fraction)."""
    outer, *linings = (design.cloths[name] for name in layers_of(design, panel))
    along = [off_axis_stretch(outer, 90.0 - angle)]
    return min(along + [off_axis_stretch(cloth, 90.0 - usual_angle(cloth)) for cloth in linings])
