"""The table of lace uses to try: a new use, or a new pairing of uses, is a line here."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Final

from galloon.design import Design, LaceUse, Lie, Use
from galloon.lace.edge_trim import edge_of
from galloon.materials import Cloth
from galloon.styling import widest_trim

#: Names that stand for the laces of a recipe until it is filled in.
FIRST: Final = "1"
SECOND: Final = "2"
#: What of a panel's depth a triangle laid on it takes, and how far (mm) it stays inside its lace.
_TRIANGLE: Final = 0.7
_INSIDE: Final = 20.0


@dataclass(frozen=True)
class Recipe:
    """One way to use lace. ``name`` says it in words; the cloths of ``uses`` are FIRST and SECOND.

    ``cut`` are the panels cut from lace, by the lace; ``bare`` the panels whose leg is the lace's own scallop; ``seam``
    the panel whose centre must be a seam.
    """

    name: str
    uses: tuple[LaceUse, ...] = ()
    cut: tuple[tuple[str, str], ...] = ()
    bare: tuple[str, ...] = ()
    seam: str = ""

    @property
    def slots(self) -> tuple[str, ...]:
        """The laces it takes, in order."""
        return tuple(dict.fromkeys(use.cloth for use in self.uses))


def _use(use: Use, *panels: str, cloth: str = FIRST, **keys: object) -> LaceUse:
    return LaceUse(use, cloth, panels, **keys)  # type: ignore[arg-type]


_BACK_LEG: Final = _use(Use.SCALLOPED_LEG, "back")
_FRONT_LEG: Final = _use(Use.SCALLOPED_LEG, "front", lie=Lie.ALONG_LEG)
_V_BACK: Final = _use(Use.V_INSET, "back")
_FRONT_PANEL: Final = _use(Use.PANEL, "front")
_TRIM_WAIST: Final = _use(Use.EDGE_TRIM, "front", "back", edge_on="waist")
_TRIM_LEGS: Final = _use(Use.EDGE_TRIM, "front", "back", edge_on="leg")

#: Every recipe; a design can be made of one where the engine knows its uses.
RECIPES: Final[tuple[Recipe, ...]] = (
    Recipe("no lace"),
    Recipe("scalloped back", (_BACK_LEG,), (("back", FIRST),), ("back",)),
    Recipe("scalloped front", (_FRONT_LEG,), (("front", FIRST),), ("front",)),
    Recipe(
        "scalloped front and back",
        (_BACK_LEG, replace(_FRONT_LEG, cloth=SECOND)),
        (("back", FIRST), ("front", SECOND)),
        ("front", "back"),
    ),
    Recipe(
        "scalloped back, lace front panel",
        (_BACK_LEG, replace(_FRONT_PANEL, cloth=SECOND)),
        (("back", FIRST), ("front", SECOND)),
        ("back",),
    ),
    Recipe("lace front panel", (_FRONT_PANEL,), (("front", FIRST),)),
    Recipe("lace back panel", (_use(Use.PANEL, "back"),), (("back", FIRST),)),
    Recipe("lace panels all round", (_use(Use.PANEL, "front", "back"),), (("front", FIRST), ("back", FIRST))),
    Recipe("lace front panel, scallop at the waist", (_use(Use.PANEL, "front", edge_on="waist"),), (("front", FIRST),)),
    Recipe("lace back panel, scallop at the waist", (_use(Use.PANEL, "back", edge_on="waist"),), (("back", FIRST),)),
    Recipe(
        "lace panels all round, scallop at the waist",
        (_use(Use.PANEL, "front", "back", edge_on="waist"),),
        (("front", FIRST), ("back", FIRST)),
    ),
    Recipe("V inset on the back", (_V_BACK,), (), ("back",)),
    Recipe("V inset on the front", (_use(Use.V_INSET, "front"),), (), ("front",)),
    Recipe("V inset on front and back", (_use(Use.V_INSET, "front", "back"),), (), ("front", "back")),
    Recipe(
        "V inset on the back, lace front panel",
        (_V_BACK, replace(_FRONT_PANEL, cloth=SECOND)),
        (("front", SECOND),),
        ("back",),
    ),
    Recipe("lace triangle laid on the front", (_use(Use.OVERLAY, "front"),)),
    Recipe("lace triangle laid on the back", (_use(Use.OVERLAY, "back"),)),
    Recipe("lace triangle let into the front", (_use(Use.OVERLAY, "front", cut_away=True),)),
    Recipe("lace strip over the side seams", (_use(Use.INSERTION, "front", "back", over_seam="side"),)),
    Recipe("lace strip down the centre front", (_use(Use.INSERTION, "front", over_seam="centre front"),), seam="front"),
    Recipe("lace strip down the centre back", (_use(Use.INSERTION, "back", over_seam="centre back"),), seam="back"),
    Recipe("lace edge at the legs", (_TRIM_LEGS,)),
    Recipe("lace edge at the waist", (_TRIM_WAIST,)),
    Recipe("lace edge at waist and legs", (_TRIM_WAIST, _TRIM_LEGS)),
    Recipe("lace waistband", (_use(Use.WAISTBAND, "front", "back"),)),
    Recipe("lace waistband and leg edges", (_use(Use.WAISTBAND, "front", "back"), replace(_TRIM_LEGS, cloth=SECOND))),
    Recipe("legs edged with a slit lace", (_use(Use.SPLIT_EDGING, "front", "back"),)),
    Recipe(
        "V inset on the back, lace waistband",
        (_V_BACK, _use(Use.WAISTBAND, "front", "back", cloth=SECOND)),
        (),
        ("back",),
    ),
    Recipe("motifs sewn on the front", (_use(Use.APPLIQUE, "front"),)),
    Recipe("motifs sewn on the back", (_use(Use.APPLIQUE, "back"),)),
)


def suits(recipe: Recipe, laces: dict[str, Cloth], base: Design) -> bool:
    """Whether the laces have the edges that the uses are made of, so that a brief may say so at all."""
    return all(_suits(use, laces[use.cloth], base) for use in recipe.uses)


def _suits(use: LaceUse, cloth: Cloth, base: Design) -> bool:
    scalloped = cloth.lace is not None and cloth.lace.first is not None
    if use.use in (Use.SCALLOPED_LEG, Use.V_INSET) or (use.use is Use.PANEL and use.edge_on):
        return scalloped
    if use.use is Use.EDGE_TRIM:
        return cloth.width <= widest_trim(edge_of(use))
    if use.use is Use.APPLIQUE:
        return any(motif.panel in use.panels for motif in base.motifs)
    return True


def filled(use: LaceUse, cloth: Cloth, base: Design, drop: float) -> LaceUse:
    """The use with its lace, and a triangle's corners where it is laid on a panel; ``drop`` is the waist's, mm."""
    if use.use is not Use.OVERLAY:
        return replace(use, cloth=cloth.name)
    return replace(use, cloth=cloth.name, corners=_triangle(use.panels[0], cloth, base, drop))


def _triangle(panel: str, cloth: Cloth, base: Design, drop: float) -> tuple[tuple[float, float], ...]:
    """A triangle hanging from the waist, as deep as the lace and the panel allow, in whole 5 mm; its upper corners
    lie beyond the panel, whose own edges bound it.
    """
    wearer = base.wearer
    depth = _TRIANGLE * (0.4 * wearer.crotch_length - drop)
    deep = 5.0 * round(max(40.0, min(cloth.solid_width - _INSIDE, depth)) / 5.0)
    wide = 5.0 * round(0.2 * wearer.hip / 5.0)
    top = -drop + 10.0
    return ((-wide, top), (0.0, top - deep), (wide, top))
