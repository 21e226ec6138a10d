"""Her own lace on the pieces of the table: its picture once for the page, and how each piece lies on it."""

from __future__ import annotations

from typing import Any, Final

from galloon.design import Design
from galloon.pieces import Piece, repeat_lies
from galloon.sheets.lace_picture import spans

#: Room between two rows of the pattern, mm, so that the far edge of one never shows at the near edge of the next.
_ROOM: Final = 20.0


def pictures(design: Design) -> list[dict[str, Any]]:
    """The laces that have a picture: the name of its fill, its address, and the repeat and width it spans, mm."""
    found = []
    for place, cloth in enumerate(design.cloths.values()):
        if cloth.picture is None or cloth.lace is None:
            continue
        length, _ = spans(cloth)
        found.append(
            {
                "id": f"lace-{place}",
                "address": f"/picture/{cloth.picture.name}.png",
                "length": round(length, 3),
                "width": round(cloth.width, 3),
                "tall": round(cloth.width + (_ROOM if cloth.lace.first is not None else 0.0), 3),
            }
        )
    return found


def fill_of(piece: Piece, design: Design, shift: complex, mark: int) -> tuple[str, str]:
    """The SVG pattern that lays the lace under a piece, and the ``fill`` that uses it; empty without a picture.

    The pattern takes its picture from the page's own, which is there once for all answers.
    """
    cloth = design.cloths[piece.part.cloth]
    lies = repeat_lies(piece, cloth)
    if cloth.picture is None or lies is None:
        return "", ""
    corner, along = lies
    top = corner + shift + 1j * along * cloth.width
    turn = f"{along.real:.6f} {-along.imag:.6f} {along.imag:.6f} {along.real:.6f}"
    place = list(design.cloths).index(cloth.name)
    matrix = f"matrix({turn} {top.real:.3f} {-top.imag:.3f})"
    return f'<pattern id="lies-{mark}" href="#lace-{place}" patternTransform="{matrix}"/>', f"url(#lies-{mark})"
