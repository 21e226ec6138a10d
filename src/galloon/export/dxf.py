"""Drawings to DXF in millimetres: each page a block, each layer a number that the caller chooses.

Text DXF of AutoCAD release 12, the oldest and most widely read kind, written directly: loading a DXF library takes
longer than the whole job. Curves become chords within ``tolerance.FLATTEN_SAG``. A layer that the table leaves out
is left out of the file; areas give their outlines; pictures cannot be held.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from types import MappingProxyType
from typing import Final

from galloon.drawing import Area, Drawing, Image, Mark, Page, Path, Stroke, Text
from galloon.drawing.fonts import CAPITALS, normal
from galloon.drawing.listing import number
from galloon.errors import BadValue, CannotMake

#: Layer numbers after ASTM D6673, FROM MEMORY: not checked against the standard, no conformity claimed.
D6673_LAYERS: Final[Mapping[str, int]] = MappingProxyType(
    {
        "piece boundary": 1,
        "turn points": 2,
        "curve points": 3,
        "notches": 4,
        "grade reference": 5,
        "mirror line": 6,
        "grain line": 7,
        "internal lines": 8,
        "stripe reference": 9,
        "plaid reference": 10,
        "internal cutouts": 11,
        "drill holes": 13,
        "sew lines": 14,
        "annotation text": 15,
    }
)
#: Room between blocks set side by side, mm.
_GAP: Final = 20.0
_ALIGN: Final = {"left": 0, "middle": 1, "right": 2}


_Tag = tuple[int, object]


def to_dxf(drawing: Drawing, *, layers: Mapping[str, int]) -> bytes:
    """The drawing as DXF text in Windows code page 1252: one block a page, side by side; ``layers`` numbers the names.

    Raises CannotMake when a picture lies on a layer that is asked for, BadValue for a number outside 0-255.
    """
    for name, layer in layers.items():
        if layer not in range(256):
            raise BadValue(f"DXF layer {name}", "must have a whole number from 0 to 255", layer)
    names = _block_names([page.name for page in drawing.pages])
    tags: list[_Tag] = [(999, "Unit: millimetre. Layer numbers after ASTM D6673, from memory; no conformity claimed.")]
    tags += _header(drawing.pages)
    tags += _tables(sorted(set(layers.values())))
    tags += _blocks(drawing.pages, names, layers)
    tags += _inserts(drawing.pages, names)
    tags.append((0, "EOF"))
    return "".join(f"{code:3d}\n{value}\n" for code, value in tags).encode("cp1252")


def _block_names(names: list[str]) -> list[str]:
    """Release 12 block names: capitals, digits, - and _, at most 31, each once."""
    found: list[str] = []
    for index, name in enumerate(names):
        plain = "".join(char if char.isascii() and char.isalnum() else "_" for char in name.upper())[:24].strip("_")
        plain = plain or "PAGE"
        found.append(plain if plain not in found else f"{plain}_{index + 1}")
    return found


def _header(pages: tuple[Page, ...]) -> Iterable[_Tag]:
    right, top = sum(page.width + _GAP for page in pages), max((page.height for page in pages), default=0.0)
    yield from [(0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1009"), (9, "$DWGCODEPAGE"), (3, "ANSI_1252")]
    yield from [(9, "$MEASUREMENT"), (70, 1), (9, "$INSUNITS"), (70, 4), (9, "$LUNITS"), (70, 2)]
    yield from [(9, "$EXTMIN"), *_at((0.0, 0.0)), (9, "$EXTMAX"), *_at((right, top)), (0, "ENDSEC")]


def _tables(numbers: list[int]) -> Iterable[_Tag]:
    yield from [(0, "SECTION"), (2, "TABLES"), (0, "TABLE"), (2, "LTYPE"), (70, 1), (0, "LTYPE"), (2, "CONTINUOUS")]
    yield from [(70, 0), (3, "Whole line"), (72, 65), (73, 0), (40, 0.0), (0, "ENDTAB")]
    yield from [(0, "TABLE"), (2, "LAYER"), (70, len(numbers) + 1)]
    for layer in dict.fromkeys([0, *numbers]):
        yield from [(0, "LAYER"), (2, layer), (70, 0), (62, 7), (6, "CONTINUOUS")]
    yield from [(0, "ENDTAB"), (0, "TABLE"), (2, "STYLE"), (70, 1), (0, "STYLE"), (2, "STANDARD"), (70, 0), (40, 0.0)]
    yield from [(41, 1.0), (50, 0.0), (71, 0), (42, 2.5), (3, "txt"), (4, ""), (0, "ENDTAB"), (0, "ENDSEC")]


def _blocks(pages: tuple[Page, ...], names: list[str], layers: Mapping[str, int]) -> Iterable[_Tag]:
    yield from [(0, "SECTION"), (2, "BLOCKS")]
    for page, name in zip(pages, names, strict=True):
        yield from [(0, "BLOCK"), (8, 0), (2, name), (70, 0), *_at((0.0, 0.0)), (3, name)]
        for mark in page.marks:
            if mark.layer in layers:
                yield from _mark(mark, layers[mark.layer])
        yield from [(0, "ENDBLK"), (8, 0)]
    yield (0, "ENDSEC")


def _inserts(pages: tuple[Page, ...], names: list[str]) -> Iterable[_Tag]:
    yield from [(0, "SECTION"), (2, "ENTITIES")]
    x = 0.0
    for page, name in zip(pages, names, strict=True):
        yield from [(0, "INSERT"), (8, 0), (2, name), *_at((x, 0.0))]
        x += page.width + _GAP
    words = "UNITS: MILLIMETRES. LAYERS AFTER ASTM D6673 FROM MEMORY, NO CONFORMITY CLAIMED."
    yield from [(0, "TEXT"), (8, 0), *_at((0.0, -10.0)), (40, 3.0), (1, words), (0, "ENDSEC")]


def _mark(mark: Mark, layer: int) -> Iterable[_Tag]:
    match mark:
        case Stroke():
            yield from _path(mark.path, layer)
        case Area():
            for path in mark.paths:
                yield from _path(path, layer)
        case Text():
            yield from _text(mark, layer)
        case Image():
            raise CannotMake(f"DXF layer {mark.layer}", "cannot hold a picture", hint="Leave that layer out.")


def _path(path: Path, layer: int) -> Iterable[_Tag]:
    points = path.flat()
    if len(points) == 1:
        yield from [(0, "POINT"), (8, layer), *_at(points[0])]
        return
    yield from [(0, "POLYLINE"), (8, layer), (66, 1), *_at((0.0, 0.0)), (70, int(path.closed))]
    for point in points:
        yield from [(0, "VERTEX"), (8, layer), *_at(point)]
    yield from [(0, "SEQEND"), (8, layer)]


def _text(mark: Text, layer: int) -> Iterable[_Tag]:
    yield from [(0, "TEXT"), (8, layer), *_at(mark.at), (40, number(CAPITALS * mark.style.size, 3))]
    yield from [(1, _words(normal(mark.words))), (50, number(mark.angle, 4)), (72, _ALIGN[mark.style.anchor])]
    if mark.style.anchor != "left":
        yield from [(11, number(mark.at[0], 4)), (21, number(mark.at[1], 4)), (31, 0.0)]


def _words(words: str) -> str:
    """Letters outside the code page as \\U+ codes; a doubled % or a backslash cannot start a control code."""
    plain = words.replace("\\", "\\U+005C").replace("%%", "%%%%%%")
    return "".join(char if _in_code_page(char) else f"\\U+{ord(char):04X}" for char in plain)


def _in_code_page(char: str) -> bool:
    try:
        return bool(char.encode("cp1252"))
    except UnicodeEncodeError:
        return False


def _at(point: tuple[float, float]) -> list[_Tag]:
    return [(10, number(point[0], 4)), (20, number(point[1], 4)), (30, 0.0)]
