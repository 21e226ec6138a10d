"""How each cloth lies on its panel: the angle of its length, and what that makes of its stretch round and
lengthwise.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, NamedTuple

from galloon.design import Design
from galloon.materials import Cloth, off_axis_stretch
from galloon.materials.tension import Stretchiness, in_series, stretchiness, together


class Share(NamedTuple):
    """One cloth of a panel made of several side by side: its share of the width at the hip and the angle of its length.

    ``angle`` None: it lies as the panel's own lace does, along the straight leg.
    """

    share: float
    cloth: str
    angle: float | None


#: Panels made of several cloths side by side; by panel.
Shares = Mapping[str, tuple[Share, ...]]
NO_SHARES: Final[Shares] = MappingProxyType({})


def usual_angle(cloth: Cloth) -> float:
    """Degrees from a panel's x axis to the cloth's length, greatest stretch round the body."""
    return 0.0 if cloth.stretches_most == "length" else 90.0


def layers_of(design: Design, panel: str) -> tuple[str, ...]:
    """Names of the cloths ``panel`` is made of: outer first, then its lining."""
    names = (getattr(design.panels, key, "") for key in (panel, f"{panel}_lining"))
    return tuple(name for name in names if name)


def _side_by_side(design: Design, panel: str, angle: float, shares: Shares) -> list[tuple[float, Cloth, float]]:
    """Share of the width, cloth and angle of everything the outer layer of ``panel`` is cut from."""
    if panel not in shares:
        return [(1.0, design.cloths[layers_of(design, panel)[0]], angle)]
    return [(one.share, design.cloths[one.cloth], angle if one.angle is None else one.angle) for one in shares[panel]]


def round_panel(design: Design, panel: str, angle: float, shares: Shares = NO_SHARES) -> Stretchiness:
    """How ``panel`` stretches round the body, its outer cloth lying at ``angle``, any lining at its usual angle.

    Cloths side by side carry the same tension, each with the lining behind it.
    """
    linings = [design.cloths[name] for name in layers_of(design, panel)[1:]]
    behind = [stretchiness(cloth, usual_angle(cloth)) for cloth in linings]
    outer = _side_by_side(design, panel, angle, shares)
    return in_series([(share, together([stretchiness(cloth, lies), *behind])) for share, cloth, lies in outer])


def lengthwise_stretch(design: Design, panel: str, angle: float, shares: Shares = NO_SHARES) -> float:
    """How far ``panel`` stretches up and down the body: the least of its layers and cloths (fraction)."""
    linings = [design.cloths[name] for name in layers_of(design, panel)[1:]]
    along = [off_axis_stretch(cloth, 90.0 - lies) for _, cloth, lies in _side_by_side(design, panel, angle, shares)]
    return min(along + [off_axis_stretch(cloth, 90.0 - usual_angle(cloth)) for cloth in linings])
